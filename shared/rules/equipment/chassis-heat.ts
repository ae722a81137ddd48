import { coolingAir } from "../../equipment/cooling-air.js";
import { siteLoad } from "../../equipment/power.js";
import { apart, trimmed, watts } from "../../format/numbers.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { chassisAddress, chassisWords, hasIndoorUnit } from "./site-rules.js";

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
      const air = coolingAir(plan, heatW);
      const help = air.ok
        ? `Warmed by ${air.riseK} K, the air would have to flow with ${trimmed(air.flowM3PerH, 0)} m3/h.`
        : undefined;
      report({
        at: chassisAddress(plan, chassis),
        message: `${chassisWords(plan, chassis)} gives off ${apart(watts, heatW, limitW).join(", its fan carries away ")}`,
        help,
      });
    }
  },
};
