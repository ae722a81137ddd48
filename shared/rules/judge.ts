import { address } from "../design/address.js";
import type { Hop } from "../design/design.js";
import type { Finding } from "../design/finding.js";
import type { Severity } from "../design/severity.js";
import type { HopResult } from "../evaluate/account/result.js";
import { withinReason } from "../evaluate/reason.js";
import { accepted, acceptingHop, judgeAcceptances } from "./acceptances.js";
import { criteriaOf, openLacks } from "./asked.js";
import { HOP_RULES, RULES } from "./index.js";
import { agreedSeverity } from "./policy.js";
import { finding, type HopRule, meets, type Report } from "./rule.js";
import { type Trials, triedOn } from "./trials.js";

/**
 * Findings on one hop by itself, in the order of the registry, acceptances applied.
 * @param today ISO date that acceptances are held against
 * @param trials lets advice be tried; without them findings propose nothing that would have to be
 */
export function judgeHop(design: Hop, result: HopResult, today: string, trials?: Trials): Finding[] {
  return judgedHop(design, result, today, trials).findings;
}

/**
 * The same, with the rules that said nothing because what they need is not known, or because a cause was told instead:
 * of what they would find nobody knows.
 */
export function judgedHop(
  design: Hop,
  result: HopResult,
  today: string,
  trials?: Trials,
): { readonly findings: Finding[]; readonly passedOver: ReadonlySet<string> } {
  const { hop } = withinReason(design);
  const by = acceptingHop(hop);
  const findings: Finding[] = [];
  /** The gravest finding of each rule that nothing excuses. */
  const told = new Map<string, Severity>();
  const criteria = criteriaOf(design, hop, result);
  // Of a rule that has no verdict nobody knows whether its acceptance is still needed.
  const passedOver = new Set(criteria.flatMap(({ rule, verdict }) => (verdict === "open" ? rule : [])));
  const lacks = openLacks(criteria);
  const tried =
    trials && triedOn(design, result, trials, (changed, after) => judgedHop(changed, after, today), uncovers);
  for (const rule of HOP_RULES) {
    const own = agreedSeverity(rule, undefined, hop);
    if (isQuiet(rule, told, own) || rule.needs.some((need) => !meets(need, hop, result))) {
      passedOver.add(rule.id);
      continue;
    }
    rule.check({
      hop,
      result,
      criteria,
      openLacks: lacks,
      tried,
      has: (id) => isAsGrave(told.get(id), own),
      leaveToCause: () => passedOver.add(rule.id),
      report: (report) => {
        const severity = agreedSeverity(rule, report.severity, hop);
        if (isQuiet(rule, told, severity) || followsFromText(rule, report, hop)) {
          passedOver.add(rule.id);
          return;
        }
        const about = report.about ?? (rule.once ? address("hop", hop.name) : undefined);
        const found = accepted(by, finding(rule, { ...report, about, severity }), today);
        if (found.accepted === undefined) told.set(rule.id, graver(told.get(rule.id), severity));
        findings.push(found);
      },
    });
  }
  findings.push(...judgeAcceptances(by, findings, "hop", today, passedOver));
  return { findings, passedOver };
}

/** Whether a rule is quiet behind another, and may be heard once that one finds nothing. */
function uncovers(cause: string, hidden: string): boolean {
  const rule = RULES.get(hidden);
  return rule?.scope === "hop" && (rule.quietAfter?.includes(cause) ?? false);
}

/** Whether a cause has told already what the rule would find. */
function isQuiet({ quietAfter }: HopRule, told: ReadonlyMap<string, Severity>, severity: Severity): boolean {
  if (quietAfter === undefined || told.size === 0) return false;
  return quietAfter.some((cause) => isAsGrave(told.get(cause), severity));
}

/** Whether it would only say again that a fact, which the text has an error at, is not there. */
function followsFromText({ restsOn }: HopRule, { at }: Report, { name, unusable }: Hop): boolean {
  if (restsOn === undefined || unusable === undefined) return false;
  return unusable.some(
    ({ fact, site }) =>
      restsOn.includes(fact) &&
      (site === undefined || `${at} / `.startsWith(`${address("hop", name, site)} / `)),
  );
}

const GRAVITY: Readonly<Record<Severity, number>> = { info: 0, warning: 1, error: 2 };

function isAsGrave(cause: Severity | undefined, severity: Severity): boolean {
  return cause !== undefined && GRAVITY[cause] >= GRAVITY[severity];
}

function graver(known: Severity | undefined, severity: Severity): Severity {
  return known !== undefined && isAsGrave(known, severity) ? known : severity;
}
