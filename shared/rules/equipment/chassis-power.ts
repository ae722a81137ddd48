import { siteLoad } from "../../equipment/power.js";
import { apart, watts } from "../../format/numbers.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { chassisAddress, chassisWords, hasIndoorUnit, without } from "./site-rules.js";

const HUNGRY = "radio R18W like R18 {\n  draws 450 W\n}\n\n";
const radio = (name: string) => ({
  hop: `polarization vertical\n  radio ${name}\n  mode 55 MHz 128QAM\n  arrangement 1+0`,
});

export const chassisPower: SiteRule = {
  scope: "network",
  each: "site",
  id: "chassis-power",
  severity: "error",
  title: "A chassis must carry the power of its cards and units",
  checks:
    "Greatest consumption of chassis, cards and the units on its IF ports, with the loss in their cables at 40.5 V, against the supply of the chassis. Each of two feeds must carry all of it.",
  why: "The feed trips when all units start together, on the day the mains return.",
  fix: "Spread units over chassis, or units that draw less.",
  source: "sum of greatest consumptions; common practice",
  good: equipped("chassis COPSE {\n  slot 3 MIST\n}", radio("R18")),
  bad:
    HUNGRY +
    equipped(
      "chassis HEDGE {\n  slot 1 HEATH\n  slot 3 MIST\n  slot 8 MIST\n  slot 13 BREEZE\n}",
      radio("R18W"),
    ),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const load = siteLoad(plan);
    for (const { chassis, feedW } of load.chassis) {
      const supplyW = chassis.chassis?.supplyW;
      if (supplyW === undefined || feedW <= supplyW) continue;
      report({
        at: chassisAddress(plan, chassis),
        message: `${chassisWords(plan, chassis)} and its units draw ${apart(watts, feedW, supplyW).join(", its supply gives ")}${without(load.unknown)}`,
      });
    }
  },
};
