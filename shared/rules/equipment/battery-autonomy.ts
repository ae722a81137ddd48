import { address } from "../../design/address.js";
import { batteryAutonomy } from "../../equipment/battery.js";
import { siteLoad } from "../../equipment/power.js";
import { trimmed } from "../../format/numbers.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { without } from "./site-rules.js";

export const batteryHours: SiteRule = {
  scope: "network",
  each: "site",
  id: "battery-autonomy",
  severity: "error",
  title: "The battery must last as long as the site asks",
  checks:
    "Hours on battery (C V DoD / P, 80 % of the capacity left at the end of its life) against the autonomy that the site states.",
  why: "A battery for the old load empties before the generator comes.",
  fix: "More capacity, or equipment that draws less.",
  source: "energy balance; end of life by common practice",
  good: equipped("battery 200 Ah autonomy 8 h\nchassis COPSE {\n  slot 3 MIST\n}"),
  bad: equipped("battery 20 Ah autonomy 24 h\nchassis SPINNEY {\n  slot 11 HEATH\n  slot 5 DRIZZLE\n}"),
  check({ plan, report }) {
    const battery = plan.equipment?.battery;
    if (battery?.autonomyH === undefined) return;
    const { totalW, unknown } = siteLoad(plan);
    const found = batteryAutonomy({ ...battery, loadW: totalW });
    // Without a load there is nothing to carry.
    if (!found.ok || found.hours >= battery.autonomyH) return;
    report({
      at: address("site", plan.site.name, "battery"),
      message: `the battery of ${plan.site.name} lasts ${trimmed(found.hours, 1)} h at ${trimmed(totalW, 0)} W, ${trimmed(battery.autonomyH, 1)} h are asked${without(unknown)}`,
    });
  },
};
