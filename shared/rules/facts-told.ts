import { type FactName, factWords } from "../evaluate/lack.js";

/**
 * Facts in words, those of the same sites together: `radio, polarization, antenna and antenna height at KELD and TARN`.
 */
export function factsTold(facts: readonly FactName[]): string {
  const byName = [...Map.groupBy(facts, ({ name }) => name)].map(([name, same]) => ({
    name,
    sites: same.flatMap(({ site }) => site ?? []),
  }));
  const groups = Map.groupBy(byName, ({ name, sites }) => (name === "position" ? name : sites.join(" ")));
  return [...groups.values()]
    .flatMap((group) => {
      const names = group.map(({ name }) => name);
      const [site, ...others] = group[0]!.sites;
      return site === undefined ? names : [factWords({ name: listed(names), site }, ...others)];
    })
    .join(", ");
}

/** For example `clearance, fade margin and availability`. */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
