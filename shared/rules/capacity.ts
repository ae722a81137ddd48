import { address } from "../design/address.js";
import { capacityVerdict } from "../evaluate/judged-mode.js";
import { apart, bitRate } from "../format/numbers.js";
import { carriers } from "../radio/arrangements.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

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
  good: exampleHop(),
  bad: exampleHop({ hop: "polarization vertical\n  radio R18\n  mode 55 MHz QPSK" }),
  check({ hop, report }) {
    if (capacityVerdict(hop) !== "missed") return;
    const count = carriers(hop.arrangement.name);
    const most = count * Math.max(...hop.modes.map(({ bitRateBps = 0 }) => bitRateBps));
    const [carried, wanted] = apart(bitRate, most, hop.objective!.capacityBps!);
    report({
      at: address("hop", hop.name, hop.modes.length > 1 ? "modes" : "mode"),
      message: `carries ${carried} at most${count > 1 ? ` over ${count} carriers` : ""}, the objective asks ${wanted}`,
      related: [
        {
          at: address("objective", hop.objective!.name, "capacity"),
          message: `capacity of ${hop.objective!.name}`,
        },
      ],
    });
  },
};
