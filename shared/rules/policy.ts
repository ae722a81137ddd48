/** What a design has agreed on about its rules: severities of its own, and rules of which nobody is excused. */
import { nth } from "../design/address.js";
import type { Policy } from "../design/design.js";
import type { Finding } from "../design/finding.js";
import type { Objective } from "../design/objective.js";
import type { Severity } from "../design/severity.js";
import { CRITERION_RULES, ONLY_ASKED_RULES } from "./asked.js";
import { RULES } from "./index.js";
import { didYouMean } from "./meant.js";
import { notJudged } from "./not-judged.js";
import { policyUnknown } from "./policy-unknown.js";
import { finding, type RuleText } from "./rule.js";

/**
 * How grave a finding is in this design: the last word on a rule counts. A finding that the rule made with a severity of
 * its own keeps it, and so does a rule that judges what the hop's objective asks.
 * @param own of the finding; undefined: that of its rule
 */
export function agreedSeverity(
  rule: Pick<RuleText, "id" | "severity">,
  own: Severity | undefined,
  { policy, objective }: { readonly policy?: Policy; readonly objective?: Objective },
): Severity {
  const severity = own ?? rule.severity;
  if (!policy || own !== undefined) return severity;
  if (rule.id === notJudged.id || (objective && CRITERION_RULES.has(rule.id))) return severity;
  return (
    policy.statements.findLast((one) => one.rule === rule.id && one.severity !== undefined)?.severity ??
    severity
  );
}

/** A rule of which the design lets nobody be excused, and which the finding is of, or which it leaves unjudged. */
export function requiredRule(
  { rule, notJudged: open = [] }: Pick<Finding, "rule" | "notJudged">,
  policy: Policy | undefined,
): string | undefined {
  return policy?.statements.find((one) => one.required && (one.rule === rule || open.includes(one.rule)))
    ?.rule;
}

/** Statements that name no rule, or one to which they can't apply. */
export function judgePolicy(policy: Policy | undefined): Finding[] {
  return (policy?.statements ?? []).flatMap(({ rule, required, severity }, index): Finding[] => {
    const at = nth("policy", index);
    const scope = RULES.get(rule)?.scope;
    if (scope === undefined) {
      const message = `there is no rule ${rule} to ${required ? "require" : "set a severity for"}${didYouMean(rule)}`;
      return [finding(policyUnknown, { at, message })];
    }
    if (scope === "acceptance") return [finding(policyUnknown, { at, message: `${rule} holds as it is` })];
    const isAsked = rule === notJudged.id || ONLY_ASKED_RULES.has(rule);
    if (severity === undefined || severity === "error" || !isAsked) return [];
    const message = `${rule} judges what an objective asks, and stays an error`;
    return [finding(policyUnknown, { at, message, help: `A hop can be excused with \`accept ${rule}\`.` })];
  });
}
