/** Sets by what they belong to, as those who go on from them take them. */
export function copyOfSets(
  sets: ReadonlyMap<string, ReadonlySet<string>> = new Map(),
): Map<string, Set<string>> {
  return new Map([...sets].map(([key, set]) => [key, new Set(set)]));
}
