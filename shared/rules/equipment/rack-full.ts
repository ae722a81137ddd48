import { address } from "../../design/address.js";
import { trimmed } from "../../format/numbers.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { hasIndoorUnit } from "./site-rules.js";

export const rackFull: SiteRule = {
  scope: "network",
  each: "site",
  id: "rack-full",
  severity: "error",
  title: "The chassis must find room in the rack",
  checks:
    "Heights of all chassis of a site against the free rack height. Chassis of one row stand beside each other and count once, by the highest.",
  why: "Without room the installation ends before it begins.",
  fix: "Another rack, or fewer chassis.",
  source: "IEC 60297 for the rack unit; survey",
  good: equipped("rack 1 U\nchassis COPSE"),
  bad: equipped("rack 6 U\nchassis HEDGE as A\nchassis SPINNEY as B"),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const freeU = plan.equipment?.rackUnits;
    if (freeU === undefined) return;
    let neededU = 0;
    const rows = new Map<string, number>();
    for (const { row, chassis } of plan.equipment?.chassis ?? []) {
      const height = chassis?.rackUnits ?? 0;
      if (row === undefined) neededU += height;
      else rows.set(row, Math.max(rows.get(row) ?? 0, height));
    }
    for (const height of rows.values()) neededU += height;
    if (neededU <= freeU) return;
    report({
      at: address("site", plan.site.name, "rack"),
      message: `the chassis at ${plan.site.name} need ${trimmed(neededU, 1)} U, ${trimmed(freeU, 1)} U are free`,
    });
  },
};
