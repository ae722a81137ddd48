import type { Address } from "../design/address.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";
import { remark, reportShared } from "./shared-remarks.js";

/** The input that the quick method fills in by itself. */
export const ASSUMED_INPUT = "dN1";

export const multipathAssumed: NetworkRule = {
  scope: "network",
  ofResults: true,
  id: "multipath-assumed",
  severity: "info",
  title: "Multipath is that of early planning, from an assumed gradient",
  checks:
    "Whether the climate gives neither logK with dN75 (which need a profile of the path) nor dN1, so that the quick method counts with an assumed gradient. Said once for all hops.",
  why: "The outage of the place may be several times smaller or larger; such a figure sizes a hop, it does not promise anything.",
  fix: "State `logK` and `dN75`, or `dN1`, of the place in the climate, or name a folder of maps.",
  source: "Rec. ITU-R P.530-17 section 2.3.1; the gradient is our own assumption",
  good: exampleHop(),
  bad: exampleHop({ more: "climate { multipath quick }" }),
  check(context) {
    const remarks = new Map<string, { hops: string[]; at: Address; help?: string }>();
    for (const hop of context.design.hops.values()) {
      const result = context.results.get(hop.name);
      const assumed = result?.inputs.find(
        ({ name, origin }) => name === ASSUMED_INPUT && origin === "default",
      );
      if (assumed === undefined) continue;
      const climate = result?.climate ?? hop.climate;
      const why =
        hop.climate.multipathMethod === "quick"
          ? "the climate gives no dN1"
          : climate.logK !== undefined && climate.dN75 !== undefined
            ? "without a profile logK and dN75 cannot be used, and the climate gives no dN1"
            : "the climate gives neither logK with dN75 nor dN1";
      const message = `multipath is an estimate for early planning with an assumed dN1 of ${assumed.value}: ${why}`;
      remark(remarks, message, hop.name, "network / climate", multipathAssumed.fix);
    }
    reportShared(context, multipathAssumed.id, remarks);
  },
};
