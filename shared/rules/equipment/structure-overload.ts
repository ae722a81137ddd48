import { address } from "../../design/address.js";
import { structureLoad } from "../../equipment/structure-load.js";
import { trimmed } from "../../format/numbers.js";
import type { Report, SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { without } from "./site-rules.js";

export const structureOverload: SiteRule = {
  scope: "network",
  each: "site",
  id: "structure-overload",
  severity: "error",
  title: "The structure must bear what this design hangs on it",
  checks:
    "Frontal wind force of antennas, lines and stated mounts, each at its height, and their weight with that of units and couplers, against the limits that the site states. A planning aid: twist and ice are not in it, nor mounts that are not stated.",
  why: "The tower that is full by calculation is found after the order.",
  fix: "Smaller or fewer antennas, lower heights, or a structural engineer's release with new limits.",
  source:
    "form of EN 1991-1-4, factors from memory, not checked against the standard; drag by common practice",
  good: equipped("wind 26 m/s over country\nwind-limit 2 kN"),
  bad: equipped("wind 26 m/s over country\nwind-limit 0.2 kN"),
  check({ plan, report }) {
    const { windLimitN, weightLimitKg } = plan.equipment ?? {};
    if (windLimitN === undefined && weightLimitKg === undefined) return;
    const { windN, weightKg, unknown, leftOut } = structureLoad(plan);
    const tell = (fact: string, message: string): Report => ({
      at: address("site", plan.site.name, fact),
      message: message + without(unknown),
      help: `Not in the sum: ${leftOut.join(", ")}.`,
    });
    if (windLimitN !== undefined && windN !== undefined && windN > windLimitN) {
      report(
        tell(
          "wind-limit",
          `wind pushes what hangs at ${plan.site.name} with ${trimmed(windN / 1000, 2)} kN, the structure takes ${trimmed(windLimitN / 1000, 2)} kN`,
        ),
      );
    }
    if (weightLimitKg !== undefined && weightKg > weightLimitKg) {
      report(
        tell(
          "weight-limit",
          `${trimmed(weightKg, 0)} kg hang at ${plan.site.name}, the structure takes ${trimmed(weightLimitKg, 0)} kg`,
        ),
      );
    }
  },
};
