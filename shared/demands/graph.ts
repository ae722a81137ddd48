/** The network as its demands see it: sites joined by hops, numbered, so that thousands of routes are found quickly. */

export interface Graph {
  /** In the order of their names: of two routes alike the one of the earlier names is taken, whatever the order of the text. */
  readonly sites: readonly string[];
  readonly siteNumbers: ReadonlyMap<string, number>;
  readonly hops: readonly string[];
  readonly hopNumbers: ReadonlyMap<string, number>;
  /** Of each hop: its two sites, and its length along the ground. */
  readonly one: Int32Array;
  readonly other: Int32Array;
  readonly lengthM: Float64Array;
  /** Hops at each site: those of site s are `at[first[s]]` up to `at[first[s + 1]]`. */
  readonly first: Int32Array;
  readonly at: Int32Array;
}

export interface GraphHop {
  readonly name: string;
  readonly sites: readonly [string, string];
  /** Undefined: not known, and taken for none. */
  readonly lengthM?: number;
}

export function graphOf(given: readonly GraphHop[]): Graph {
  const hops = [...given].sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
  const sites = [...new Set(hops.flatMap(({ sites: both }) => both))].sort();
  const siteNumbers = new Map(sites.map((name, number) => [name, number]));
  const count = hops.length;
  const one = Int32Array.from(hops, (hop) => siteNumbers.get(hop.sites[0])!);
  const other = Int32Array.from(hops, (hop) => siteNumbers.get(hop.sites[1])!);
  const first = new Int32Array(sites.length + 1);
  for (let hop = 0; hop < count; hop++) for (const site of [one[hop]!, other[hop]!]) first[site + 1]!++;
  for (let site = 0; site < sites.length; site++) first[site + 1]! += first[site]!;
  const next = first.slice();
  const at = new Int32Array(2 * count);
  for (let hop = 0; hop < count; hop++) for (const site of [one[hop]!, other[hop]!]) at[next[site]!++] = hop;
  return {
    sites,
    siteNumbers,
    hops: hops.map(({ name }) => name),
    hopNumbers: new Map(hops.map(({ name }, number) => [name, number])),
    one,
    other,
    lengthM: Float64Array.from(hops, ({ lengthM }) => (Number.isFinite(lengthM) ? lengthM! : 0)),
    first,
    at,
  };
}

/** The site at the other end of a hop. */
export function across({ one, other }: Graph, hop: number, site: number): number {
  return one[hop] === site ? other[hop]! : one[hop]!;
}
