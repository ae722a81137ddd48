import { address } from "../design/address.js";
import { type Change, modesOfWidth, modesStatement } from "../design/change.js";
import { capacityVerdict } from "../evaluate/level/judged-mode.js";
import { apart, bandwidth, bitRate } from "../format/numbers.js";
import { carriers } from "../radio/arrangements.js";
import { listed } from "../words/lists.js";
import { exampleHop } from "./example-preamble.js";
import { proposedChanges } from "./fixes/proposed.js";
import type { HopContext, HopRule, Report } from "./rule.js";

export const capacity: HopRule = {
  scope: "hop",
  id: "capacity",
  severity: "error",
  title: "A mode must carry the capacity asked for",
  checks:
    "The highest bit rate of the modes in use, times the working carriers, against the objective's capacity.",
  why: "The availability is asked for this capacity; a lower mode keeps the hop up but not the service.",
  fix: "A higher mode, a wider channel, a second carrier, or a smaller demand.",
  source: "common practice",
  once: true,
  needs: ["objective"],
  fixes: proposedChanges,
  good: exampleHop(),
  bad: exampleHop({ hop: "polarization vertical\n  radio R18\n  mode 55 MHz QPSK" }),
  check(context) {
    const { hop, report } = context;
    if (capacityVerdict(hop) !== "missed") return;
    const count = carriers(hop.arrangement.name);
    const fastest = hop.modes.reduce((a, b) => ((b.bitRateBps ?? 0) > (a.bitRateBps ?? 0) ? b : a));
    const most = count * (fastest.bitRateBps ?? 0);
    const [carried, wanted] = apart(bitRate, most, hop.objective!.capacityBps!);
    report({
      at: address("hop", hop.name, hop.modes.length > 1 ? "modes" : "mode"),
      message: `carries ${carried} at most, with ${fastest.modulation}${over(count)}; the objective asks ${wanted}`,
      ...higherMode(context, count),
      related: [
        {
          at: address("objective", hop.objective!.name, "capacity"),
          message: `capacity of ${hop.objective!.name}`,
        },
      ],
    });
  },
};

/** The lowest mode of the radio that carries it in the width in use, tried; what it would miss then is told. */
function higherMode({ hop, tried }: HopContext, count: number): Pick<Report, "help" | "changes"> {
  const { radio, modes, objective } = hop;
  const { bandwidthHz, modulation: lowest } = modes[0]!;
  if (radio === undefined || modes.some((mode) => mode.bandwidthHz !== bandwidthHz)) return {};
  const carrying = modesOfWidth(radio, bandwidthHz).find(
    ({ bitRateBps = 0 }) => count * bitRateBps >= objective!.capacityBps!,
  );
  if (carrying === undefined)
    return { help: `No mode of ${radio.name} carries it in ${bandwidth(bandwidthHz)}${over(count)}.` };
  const { modulation: highest, bitRateBps } = carrying;
  const change: Change = { kind: "modes", bandwidthHz, lowest, highest };
  const attempt = tried?.attempt(capacity.id, change);
  if (!attempt?.mends) return {};
  const rate = bitRate(count * bitRateBps!);
  return attempt.brings.length === 0
    ? { help: `Tried and enough: ${modesStatement(change)} (${rate}).`, changes: [change] }
    : { help: `${highest} carries ${rate}${over(count)}, but misses then: ${listed(attempt.brings)}.` };
}

function over(count: number): string {
  return count > 1 ? ` over ${count} carriers` : "";
}
