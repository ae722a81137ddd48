/** Rules about catalogue entries in use: each entry is judged once, and told once, however many hops use it. */
import type { Hop } from "../design/design.js";
import type { GatheringRule, JudgedEntry, NetworkContext, Noted, Report } from "./rule.js";

interface Entry {
  readonly name: string;
}

interface EntriesTold {
  note(hop: Hop): readonly JudgedEntry[] | undefined;
  tell(noted: readonly Noted<readonly JudgedEntry[]>[], context: NetworkContext): void;
}

/**
 * @param entriesOf what a hop uses of the kind
 * @param judge what is wrong with an entry, whoever uses it
 */
export function aboutEntries<One extends Entry>(
  entriesOf: (hop: Hop) => Iterable<One>,
  judge: (entry: One) => readonly Report[],
): EntriesTold & Pick<GatheringRule, "each" | "ofEntries"> {
  const judged = new WeakMap<One, readonly Report[]>();
  const reportsOf = (entry: One) => {
    let reports = judged.get(entry);
    if (reports === undefined) judged.set(entry, (reports = judge(entry)));
    return reports;
  };
  const ofEntries = (hop: Hop) =>
    [...entriesOf(hop)].map((entry) => ({ entry: entry.name, reports: reportsOf(entry) }));
  return {
    each: "hop",
    ofEntries,
    note: (hop) => {
      const told = ofEntries(hop).filter(({ reports }) => reports.length > 0);
      return told.length === 0 ? undefined : told;
    },
    tell: (noted, { report }) => {
      const seen = new Set<string>();
      for (const { entry, reports } of noted.flatMap(({ note }) => note)) {
        if (seen.has(entry)) continue;
        seen.add(entry);
        for (const one of reports) report(one);
      }
    },
  };
}
