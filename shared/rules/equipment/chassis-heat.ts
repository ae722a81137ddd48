import { airFlow } from "../../equipment/heat.js";
import { siteLoad } from "../../equipment/power.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import { standardAirDensity } from "../../equipment/wind.js";
import { apart, trimmed, watts } from "../../format/numbers.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { chassisAddress, chassisWords, hasIndoorUnit } from "./site-rules.js";

/** Warming of the cooling air that the message speaks of. */
const RISE_K = 10;

/** Thin air carries less; undefined where the site's height is not stated. */
function densityAt({ site }: SitePlan): number | undefined {
  const density = site.groundM === undefined ? undefined : standardAirDensity(site.groundM);
  return density?.ok ? density.airDensityKgPerM3 : undefined;
}

export const chassisHeat: SiteRule = {
  scope: "network",
  each: "site",
  id: "chassis-heat",
  severity: "error",
  title: "The fan must carry away the heat of the cards",
  checks:
    "Greatest consumption of chassis and cards, without what goes up the cables, against the heat limit of the chassis.",
  why: "Cards that are too warm fail early, and all together.",
  fix: "A second chassis, or cards that draw less.",
  source: "energy balance",
  good: equipped("chassis SPINNEY {\n  card SQUALL 3\n}"),
  bad: `card HOT { kind ethernet; ports 4 GE; draws 80 W }\n\n${equipped("chassis COPSE {\n  card HOT 3\n}")}`,
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    for (const { chassis, heatW } of siteLoad(plan).chassis) {
      const limitW = chassis.chassis?.heatLimitW;
      if (limitW === undefined || heatW <= limitW) continue;
      const air = airFlow({ heatW, riseK: RISE_K, airDensityKgPerM3: densityAt(plan) });
      const help = air.ok
        ? `Warmed by ${RISE_K} K, the air would have to flow with ${trimmed(air.flowM3PerH, 0)} m3/h.`
        : undefined;
      report({
        at: chassisAddress(plan, chassis),
        message: `${chassisWords(plan, chassis)} gives off ${apart(watts, heatW, limitW).join(", its fan carries away ")}`,
        help,
      });
    }
  },
};
