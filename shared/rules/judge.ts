import type { Design, Hop } from "../design/design.js";
import type { Finding } from "../design/finding.js";
import { withinReason } from "../evaluate/reason.js";
import type { HopResult } from "../evaluate/result.js";
import { type Accepting, accepted, acceptingHop, acceptingSites, judgeAcceptances } from "./acceptances.js";
import { HOP_RULES, NETWORK_RULES } from "./index.js";
import { asAgreed, isRequired, judgePolicy, notJudged } from "./policy.js";
import { finding, meets } from "./rule.js";

/**
 * Findings on one hop by itself, in the order of the registry, acceptances applied.
 * @param today ISO date that acceptances are held against
 */
export function judgeHop(design: Hop, result: HopResult, today: string): Finding[] {
  const { hop } = withinReason(design);
  const by = acceptingHop(hop);
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
      leaveToCause: () => passedOver.add(rule.id),
      report: (report) => {
        const found = accepted(by, asAgreed(rule, finding(rule, report), hop.policy), today);
        if (found.accepted === undefined) open.add(rule.id);
        findings.push(found);
      },
    });
  }
  findings.push(...judgeAcceptances(by, findings, "hop", today, passedOver));
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
  const sites = acceptingSites(design);
  const found = new Map<string, Finding[]>();
  const acceptingFor = (at: string, hopName: string | undefined): Accepting | undefined => {
    if (hopName === undefined) return sites.get(at.split(" / ")[0]!);
    const hop = design.hops.get(hopName);
    return hop && acceptingHop(hop);
  };
  for (const rule of NETWORK_RULES) {
    rule.check({
      design,
      results,
      report: (report, hopName) => {
        const by = acceptingFor(report.at, hopName);
        const agreed = asAgreed(rule, finding(rule, report), design.policy);
        const told = by ? accepted(by, agreed, today) : agreed;
        findings.push(told);
        if (by === undefined || by.accepts.length === 0) return;
        const before = found.get(by.at);
        if (before) before.push(told);
        else found.set(by.at, [told]);
      },
    });
    yield;
  }
  findings.push(...judgePolicy(design.policy));
  for (const by of [...[...design.hops.values()].map(acceptingHop), ...sites.values()]) {
    if (by.accepts.length > 0)
      findings.push(...judgeAcceptances(by, found.get(by.at) ?? [], "network", today));
  }
  return findings;
}
