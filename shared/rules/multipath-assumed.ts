import { inputShown } from "../words/inputs.js";
import { shown } from "../words/message.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";
import { sharedRemarks } from "./shared-remarks.js";

const FIX = "State `logK` and `dN75`, or `dN1`, of the place in the climate, or name a folder of maps.";

export const multipathAssumed = gathering({
  scope: "network",
  ofResults: true,
  id: "multipath-assumed",
  severity: "info",
  title: "Multipath is that of early planning, from an assumed gradient",
  checks:
    "Whether the climate gives neither logK with dN75 (which need a profile of the path) nor dN1, so that the quick method counts with an assumed gradient. Said once for all hops.",
  why: "The outage of the place may be several times smaller or larger; such a figure sizes a hop, it does not promise anything.",
  fix: FIX,
  source: "Rec. ITU-R P.530-17 section 2.3.1; the gradient is our own assumption",
  good: exampleHop(),
  bad: exampleHop({ more: "climate { multipath quick }" }),
  ...sharedRemarks("multipath-assumed", (hop, { inputs, climate = hop.climate }) => {
    const assumed = inputs.find(({ code, standing }) => code === "dn1" && standing === "assumed");
    if (assumed === undefined) return [];
    const why =
      hop.climate.multipathMethod === "quick"
        ? "no-dN1"
        : climate.logK !== undefined && climate.dN75 !== undefined
          ? "no-profile"
          : "no-gradients";
    const message = `multipath is an estimate for early planning with an assumed dN1 of ${shown(inputShown(assumed).value)}: ${WHY[why]}`;
    return [{ about: why, message, at: "network / climate", help: FIX }];
  }),
});

const WHY = {
  "no-dN1": "the climate gives no dN1",
  "no-profile": "without a profile logK and dN75 cannot be used, and the climate gives no dN1",
  "no-gradients": "the climate gives neither logK with dN75 nor dN1",
} as const;
