import { address } from "../../design/address.js";
import { siteBattery } from "../../equipment/site-battery.js";
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
    const found = siteBattery(plan);
    if (found?.autonomyH === undefined || found.hours >= found.autonomyH) return;
    const { hours, autonomyH, loadW, unknown } = found;
    report({
      at: address("site", plan.site.name, "battery"),
      message: `the battery of ${plan.site.name} lasts ${trimmed(hours, 1)} h at ${trimmed(loadW, 0)} W, ${trimmed(autonomyH, 1)} h are asked${without(unknown)}`,
    });
  },
};
