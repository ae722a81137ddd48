/** What the rules about catalogue entries say of the entries that some hops use, without the rest of the network. */
import type { Hop, Policy } from "../design/design.js";
import type { Finding } from "../design/finding.js";
import { NETWORK_RULES } from "./index.js";
import { agreedSeverity } from "./policy.js";
import { finding } from "./rule.js";

const RULES_OF_ENTRIES = NETWORK_RULES.flatMap((rule) =>
  rule.each === "hop" && rule.ofEntries !== undefined ? { rule, of: rule.ofEntries } : [],
);

/** Their ids: what `judgeEntries` says takes the place of these findings, and of no others. */
export const ENTRY_RULES: ReadonlySet<string> = new Set(RULES_OF_ENTRIES.map(({ rule }) => rule.id));

/** Names of the entries of a hop that some rule judges. */
export function entriesUsed(hop: Hop): ReadonlySet<string> {
  return new Set(RULES_OF_ENTRIES.flatMap(({ of }) => [...of(hop)].map(({ entry }) => entry)));
}

/** As the network is told, each entry once; whoever uses it. */
export function judgeEntries(hops: readonly Hop[], policy: Policy | undefined): Finding[] {
  return RULES_OF_ENTRIES.flatMap(({ rule, of }) => {
    const reportsOf = new Map(hops.flatMap((hop) => [...of(hop)].map((one) => [one.entry, one.reports])));
    return [...reportsOf.values()].flat().map((report) => {
      const severity = agreedSeverity(rule, report.severity, { policy });
      return finding(rule, { ...report, severity });
    });
  });
}
