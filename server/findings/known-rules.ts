/** Every rule that a finding may name: those of the engine and those of the text. */
import { TEXT_RULES } from "../../language/check/text-rules.js";
import { RULES } from "../../shared/rules/index.js";
import type { RuleText } from "../../shared/rules/rule.js";

export type KnownRule = Pick<RuleText, "id" | "title" | "why" | "fix"> &
  Partial<Pick<RuleText, "severity" | "checks" | "source" | "good" | "bad">>;

export function knownRules(): ReadonlyMap<string, KnownRule> {
  const rules = new Map<string, KnownRule>(RULES);
  for (const [id, text] of Object.entries(TEXT_RULES)) rules.set(id, { id, ...text });
  return rules;
}
