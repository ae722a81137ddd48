import type { InstalledChassis } from "../../design/equipment.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { chassisAddress, chassisWords, hasIndoorUnit } from "./site-rules.js";

export const airPath: SiteRule = {
  scope: "network",
  each: "site",
  id: "air-path",
  severity: "warning",
  title: "No chassis should breathe the warm air of its neighbour",
  checks:
    "Air of the chassis that stand beside each other in one row: an outlet must not face an inlet, and no chassis may blow out in front where its neighbour breathes in.",
  why: "The second chassis takes in air that the first has warmed, and its fan cannot help.",
  fix: "Stack them, leave room with a baffle, or turn the order.",
  source: "common practice",
  good: equipped("chassis SPINNEY as A\nchassis HEDGE as B\nchassis SPINNEY as C"),
  bad: equipped("chassis SPINNEY as A row 1\nchassis SPINNEY as B row 1"),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const rows = Map.groupBy(plan.equipment?.chassis ?? [], ({ row }) => row);
    rows.delete(undefined);
    for (const row of rows.values()) {
      for (const [index, left] of row.entries()) {
        const right = row[index + 1];
        const victim = right && inTheWarm(left, right);
        if (victim === undefined) continue;
        const other = victim === right ? left : right!;
        report({
          at: chassisAddress(plan, victim),
          message: `${chassisWords(plan, victim)} takes in the warm air of ${other.name} beside it in row ${left.row}`,
        });
      }
    }
  },
};

function inTheWarm(left: InstalledChassis, right: InstalledChassis): InstalledChassis | undefined {
  if (left.chassis?.air === "left-to-right" && right.chassis?.air === "left-to-right") return right;
  if (left.chassis?.air === "right-to-left" && right.chassis?.air === "right-to-left") return left;
  // One blows out in front, where the other breathes in.
  if (left.chassis?.air === "back-to-front" && right.chassis?.air === "front-to-back") return right;
  if (left.chassis?.air === "front-to-back" && right.chassis?.air === "back-to-front") return left;
  return undefined;
}
