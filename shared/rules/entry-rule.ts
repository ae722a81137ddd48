/** Rules about catalogue entries in use: each entry is judged once, and told once, however many hops use it. */
import type { Hop } from "../design/design.js";
import type { GatheringRule, NetworkContext, Noted, Report } from "./rule.js";

interface Entry {
  readonly name: string;
}

interface EntriesTold {
  note(hop: Hop): readonly Told[] | undefined;
  tell(noted: readonly Noted<readonly Told[]>[], context: NetworkContext): void;
}

interface Told {
  readonly entry: string;
  readonly reports: readonly Report[];
}

/**
 * @param entriesOf what a hop uses of the kind
 * @param judge what is wrong with an entry, whoever uses it
 */
export function aboutEntries<One extends Entry>(
  entriesOf: (hop: Hop) => Iterable<One>,
  judge: (entry: One) => readonly Report[],
): EntriesTold & Pick<GatheringRule, "each"> {
  const judged = new WeakMap<One, readonly Report[]>();
  const reportsOf = (entry: One) => {
    let reports = judged.get(entry);
    if (reports === undefined) judged.set(entry, (reports = judge(entry)));
    return reports;
  };
  return {
    each: "hop",
    note: (hop) => {
      const told: Told[] = [];
      for (const entry of entriesOf(hop)) {
        const reports = reportsOf(entry);
        if (reports.length > 0) told.push({ entry: entry.name, reports });
      }
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
