import { address, nth } from "../design/address.js";
import type { Acceptance, Design, Hop } from "../design/design.js";
import type { Finding } from "../design/finding.js";
import { withinReason } from "../evaluate/reason.js";
import type { HopResult } from "../evaluate/result.js";
import { acceptanceExpired } from "./acceptance-expired.js";
import { acceptanceReason, REASON_TO_WRITE } from "./acceptance-reason.js";
import { acceptanceUnknown } from "./acceptance-unknown.js";
import { acceptanceUnused } from "./acceptance-unused.js";
import { HOP_RULES, NETWORK_RULES, RULES } from "./index.js";
import { didYouMean } from "./meant.js";
import { asAgreed, isRequired, judgePolicy, notJudged } from "./policy.js";
import { requiredAccepted } from "./required-accepted.js";
import { finding, meets } from "./rule.js";

/**
 * Findings on one hop by itself, in the order of the registry, acceptances applied.
 * @param today ISO date that acceptances are held against
 */
export function judgeHop(design: Hop, result: HopResult, today: string): Finding[] {
  const { hop } = withinReason(design);
  const findings: Finding[] = [];
  const open = new Set<string>();
  const passedOver = new Set<string>();
  for (const rule of HOP_RULES) {
    const lacking = rule.needs.filter((need) => !meets(need, hop, result));
    if (lacking.length > 0 && isRequired(rule.id, hop.policy))
      findings.push(notJudged(rule, hop, result, lacking));
    if (lacking.length > 0 || rule.quietAfter?.some((cause) => open.has(cause))) {
      passedOver.add(rule.id);
      continue;
    }
    rule.check({
      hop,
      result,
      has: (id) => open.has(id),
      report: (report) => {
        const found = accepted(hop, asAgreed(rule, finding(rule, report), hop.policy), today);
        if (found.accepted === undefined) open.add(rule.id);
        findings.push(found);
      },
    });
  }
  findings.push(...judgeAcceptances(hop, findings, "hop", today, passedOver));
  return findings;
}

/** Findings on what several hops share: sites, halves of a band, catalogue entries. */
export function judgeNetwork(
  design: Design,
  results: ReadonlyMap<string, HopResult>,
  today: string,
): Finding[] {
  const judging = judgeNetworkByRule(design, results, today);
  for (let step = judging.next(); ; step = judging.next()) if (step.done) return step.value;
}

/** The same, with a stop behind each rule where the caller may let other work in or break off. */
export function* judgeNetworkByRule(
  design: Design,
  results: ReadonlyMap<string, HopResult>,
  today: string,
): Generator<void, Finding[]> {
  const findings: Finding[] = [];
  const byHop = new Map<string, Finding[]>();
  for (const rule of NETWORK_RULES) {
    rule.check({
      design,
      results,
      report: (report, hopName) => {
        const hop = hopName === undefined ? undefined : design.hops.get(hopName);
        const agreed = asAgreed(rule, finding(rule, report), design.policy);
        const found = hop ? accepted(hop, agreed, today) : agreed;
        findings.push(found);
        if (hop && hop.accepts.length > 0) byHop.set(hop.name, [...(byHop.get(hop.name) ?? []), found]);
      },
    });
    yield;
  }
  findings.push(...judgePolicy(design.policy));
  for (const hop of design.hops.values()) {
    if (hop.accepts.length > 0) {
      findings.push(...judgeAcceptances(hop, byHop.get(hop.name) ?? [], "network", today));
    }
  }
  return findings;
}

/** An accepted finding stays visible, as information with the reason beside it. */
function accepted({ accepts, policy }: Hop, found: Finding, today: string): Finding {
  if (isRequired(found.rule, policy)) return found;
  const acceptance = accepts.find(
    (accept) => accept.rule === found.rule && !isExpired(accept, today) && !isBlank(accept),
  );
  if (acceptance === undefined) return found;
  return { ...found, severity: "info", accepted: { reason: acceptance.reason, until: acceptance.until } };
}

/** What is wrong with the acceptances that speak of rules of one scope; unknown rules are told with the hop's. */
function judgeAcceptances(
  hop: Hop,
  found: readonly Finding[],
  scope: "hop" | "network",
  today: string,
  passedOver: ReadonlySet<string> = new Set(),
): Finding[] {
  return hop.accepts.flatMap((accept, index): Finding[] => {
    const at = address("hop", hop.name, nth("accept", index));
    const rule = RULES.get(accept.rule);
    if (rule === undefined || rule.scope === "acceptance") {
      if (scope !== "hop") return [];
      const message = rule
        ? `${accept.rule} cannot be accepted`
        : `there is no rule ${accept.rule} to accept${didYouMean(accept.rule)}`;
      return [finding(acceptanceUnknown, { at, message })];
    }
    if (rule.scope !== scope) return [];
    if (isBlank(accept)) {
      const message = `the acceptance of ${accept.rule} gives no reason, so it excuses nothing`;
      return [finding(acceptanceReason, { at, message, help: "Write why the finding may stand." })];
    }
    const concerned = found.some((one) => one.rule === accept.rule);
    // Of a rule that could not be judged nobody knows whether its acceptance is still needed.
    if (!concerned && passedOver.has(accept.rule)) return [];
    if (!concerned) {
      const message = `accepts ${accept.rule}, which finds nothing on this hop`;
      return [finding(acceptanceUnused, { at, message, help: "Remove the line." })];
    }
    if (isRequired(accept.rule, hop.policy)) {
      const message = `the design requires ${accept.rule} of every hop, so it cannot be accepted`;
      return [finding(requiredAccepted, { at, message, help: "Mend the cause and remove the line." })];
    }
    if (!isExpired(accept, today)) return lacksReason(accept, at);
    const reason = accept.reason === undefined ? "" : ` ("${accept.reason}")`;
    const message = `the acceptance of ${accept.rule}${reason} ended on ${accept.until}`;
    return [finding(acceptanceExpired, { at, message, help: "Mend the cause or agree on a new date." })];
  });
}

function isBlank({ reason }: Acceptance): boolean {
  return reason !== undefined && reason.trim() === "";
}

/** What a quick fix wrote in place of a reason excuses for the moment, and is told. */
function lacksReason({ rule, reason }: Acceptance, at: string): Finding[] {
  if (reason?.trim() !== REASON_TO_WRITE) return [];
  const message = `the reason for accepting ${rule} is still to be written`;
  return [finding(acceptanceReason, { at, message, severity: "warning" })];
}

/** The last day itself still counts. ISO dates compare as text. */
function isExpired(accept: Acceptance, today: string): boolean {
  return accept.until !== undefined && accept.until < today;
}
