import { DEMAND_RULES } from "../../shared/rules/demands/index.js";
import type { PlacedFinding } from "./placed.js";

const RULES: ReadonlySet<string> = new Set(DEMAND_RULES.map(({ id }) => id));

/** What rules of demands say, and what is wrong in the text of one. */
export function isOfDemands({ rule, key }: PlacedFinding): boolean {
  return RULES.has(rule) || key.slice(rule.length + 1).startsWith("demand ");
}
