import { inputShown } from "../words/inputs.js";
import { shown } from "../words/message.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";
import { type Remarks, remark, reportShared } from "./shared-remarks.js";

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
    const remarks: Remarks = new Map();
    for (const hop of context.design.hops.values()) {
      const result = context.results.get(hop.name);
      const assumed = result?.inputs.find(({ code, standing }) => code === "dn1" && standing === "assumed");
      if (assumed === undefined) continue;
      const climate = result?.climate ?? hop.climate;
      const why =
        hop.climate.multipathMethod === "quick"
          ? "no-dN1"
          : climate.logK !== undefined && climate.dN75 !== undefined
            ? "no-profile"
            : "no-gradients";
      const message = `multipath is an estimate for early planning with an assumed dN1 of ${shown(inputShown(assumed).value)}: ${WHY[why]}`;
      remark(remarks, { about: why, message, at: "network / climate", help: multipathAssumed.fix }, hop.name);
    }
    reportShared(context, multipathAssumed.id, remarks);
  },
};

const WHY = {
  "no-dN1": "the climate gives no dN1",
  "no-profile": "without a profile logK and dN75 cannot be used, and the climate gives no dN1",
  "no-gradients": "the climate gives neither logK with dN75 nor dN1",
} as const;
