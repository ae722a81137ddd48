import type { Hop } from "../design/design.js";
import type { HopResult } from "../evaluate/result.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";
import { remark, reportShared } from "./shared-remarks.js";

export const climateMissing: NetworkRule = {
  scope: "network",
  id: "climate-missing",
  severity: "warning",
  title: "Rain or multipath cannot be computed",
  checks:
    "Whether the climate gives what the fading methods need, and whether the methods apply to the path. Information where no availability is asked of the hop. Said once for all hops that lack the same.",
  why: "Without rain rate and multipath figures there is a fade margin but no availability.",
  fix: "State a rain rate at 0.01 %, and logK with dN75 (or dN1), in the climate of the network or of the hop, or name a folder of maps.",
  source: "Rec. ITU-R P.530-18 sections 2.3 and 2.4",
  good: exampleHop(),
  bad: exampleHop({ more: "climate { rain 60 mm/h at 0.1 % }" }),
  check(context) {
    const asked = new Map<string, { hops: string[]; at: string }>();
    const unasked = new Map<string, { hops: string[]; at: string }>();
    for (const hop of context.design.hops.values()) {
      const result = context.results.get(hop.name);
      if (result === undefined || result.directions.length === 0) continue;
      const causes = causesOf(hop, result);
      if (causes.length === 0) continue;
      const into = hop.objective?.availabilityPercent === undefined ? unasked : asked;
      remark(into, causes.map(lower).join("; "), hop.name, "network / climate");
    }
    reportShared(context, climateMissing.id, asked);
    reportShared(context, climateMissing.id, unasked, "info");
  },
};

function causesOf(hop: Hop, result: HopResult): string[] {
  if (result.missing.length === 0) return [];
  const blocked = result.clearance.some(
    ({ verdict, forInformation }) => verdict === "missed" && !forInformation,
  );
  const accepted = hop.accepts.some(({ rule }) => rule === "clearance");
  return (
    result.missing
      .filter((sentence) => /^(Rain|Multipath|Cross-polar)( outage[^:]*)?:/.test(sentence))
      // The lack of a profile was told already; that it costs the availability asked for is another thing.
      .filter(
        (sentence) =>
          hop.objective?.availabilityPercent !== undefined ||
          !(result.profile === undefined && sentence.includes("without a profile")),
      )
      // So was the lack of clearance, which makes the multipath method refuse.
      .filter((sentence) => !(blocked && !accepted && /diffraction/.test(sentence)))
  );
}

function lower(sentence: string): string {
  return sentence.replace(/\.$/, "").replace(/^[A-Z]/, (first) => first.toLowerCase());
}
