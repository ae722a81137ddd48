/** What a design has agreed on about its rules: severities of its own, and rules that every hop must pass. */
import { address, nth } from "../design/address.js";
import type { Hop, Policy } from "../design/design.js";
import type { Finding } from "../design/finding.js";
import type { HopResult } from "../evaluate/result.js";
import { RULES } from "./index.js";
import { didYouMean } from "./meant.js";
import { policyUnknown } from "./policy-unknown.js";
import { requiredNotJudged } from "./required-not-judged.js";
import { finding, type HopRule, type Need, type RuleText } from "./rule.js";

/** The last word on a rule counts. A remark that the rule made with a severity of its own keeps it. */
export function asAgreed(rule: RuleText, found: Finding, policy: Policy | undefined): Finding {
  if (!policy || found.severity !== rule.severity) return found;
  const agreed = policy.statements.findLast((one) => one.rule === rule.id && one.severity !== undefined);
  return agreed ? { ...found, severity: agreed.severity! } : found;
}

export function isRequired(rule: string, policy: Policy | undefined): boolean {
  return policy?.statements.some((one) => one.required && one.rule === rule) ?? false;
}

const NEEDED: Readonly<Record<Need, string>> = {
  distance: "the positions of both sites",
  clearance: "a profile of the path, antenna heights and a frequency",
  levels: "received levels",
  objective: "an objective",
  availability: "the outage by rain and by multipath",
};

/** A required rule that would be passed over. */
export function notJudged(rule: HopRule, hop: Hop, result: HopResult, lacking: readonly Need[]): Finding {
  const what = lacking.map((need) => NEEDED[need]).join(" and ");
  return finding(requiredNotJudged, {
    at: address("hop", hop.name),
    message: `${rule.id} is required and cannot be judged without ${what}`,
    help: lacking.includes("availability")
      ? (result.missing.find((sentence) => /^(Rain|Multipath|Cross-polar)/.test(sentence)) ??
        result.missing[0])
      : result.missing[0],
  });
}

/** Statements that name no rule, or one that is about acceptances themselves. */
export function judgePolicy(policy: Policy | undefined): Finding[] {
  return (policy?.statements ?? []).flatMap(({ rule, required }, index): Finding[] => {
    const scope = RULES.get(rule)?.scope;
    // What the catalogue or a site has wrong is judged always: it can be required as to acceptances.
    if (scope !== undefined && scope !== "acceptance") return [];
    const message = scope
      ? `${rule} holds as it is`
      : `there is no rule ${rule} to ${required ? "require" : "set a severity for"}${didYouMean(rule)}`;
    return [finding(policyUnknown, { at: nth("policy", index), message })];
  });
}
