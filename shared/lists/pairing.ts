/** Two directions of one hop, told in two rows. */
import type { HopRow } from "./facts.js";

/** A row from the site `a`, which transmits, to the site `b`. */
export interface Placed {
  readonly row: HopRow;
  readonly a: string;
  readonly b: string;
}

export interface Paired {
  readonly go: Placed;
  readonly back: Placed;
  /** Set where the two directions state different polarizations, so that the hop states none. */
  readonly crossed?: true;
}

export interface Pairing {
  readonly pairs: readonly Paired[];
  readonly single: readonly Placed[];
  /** Rows that say what another has said, with that other. */
  readonly repeated: readonly { readonly row: Placed; readonly of: Placed }[];
}

/**
 * Between two sites the directions of one polarization belong together in the order of their frequencies, so that all
 * pairs have one duplex spacing where the plan has one; what is left over, whatever its polarization. In the order of
 * the rows that come first.
 */
export function pairDirections(placed: readonly Placed[]): Pairing {
  const pairs: Paired[] = [];
  const single: Placed[] = [];
  const repeated: { row: Placed; of: Placed }[] = [];
  const ways = Map.groupBy(placed, ({ a, b }) => (a < b ? `${a} ${b}` : `${b} ${a}`));
  for (const all of ways.values()) {
    const said = new Map<string, Placed>();
    const distinct = all.filter((one) => {
      const key = `${one.a} ${one.row.ends?.[0].frequency?.value} ${one.row.polarization} ${one.row.ends?.[0].antennaHeight?.value}`;
      const of = one.row.ends?.[0].frequency && said.get(key);
      if (of) repeated.push({ row: one, of });
      else said.set(key, one);
      return !of;
    });
    const first = distinct[0]!.a;
    let go = inOrder(distinct.filter(({ a }) => a === first));
    let back = inOrder(distinct.filter(({ a }) => a !== first));
    for (const polarization of new Set(go.map(({ row }) => row.polarization))) {
      const own = (one: Placed) => one.row.polarization === polarization;
      const [out, home] = [go.filter(own), back.filter(own)];
      const count = Math.min(out.length, home.length);
      for (let i = 0; i < count; i++) pairs.push({ go: out[i]!, back: home[i]! });
      const taken = new Set([...out.slice(0, count), ...home.slice(0, count)]);
      go = go.filter((one) => !taken.has(one));
      back = back.filter((one) => !taken.has(one));
    }
    const count = Math.min(go.length, back.length);
    for (let i = 0; i < count; i++) pairs.push({ go: go[i]!, back: back[i]!, crossed: true });
    single.push(...go.slice(count), ...back.slice(count));
  }
  return { pairs, single, repeated };
}

function inOrder(rows: readonly Placed[]): Placed[] {
  const hz = ({ row }: Placed) => row.ends?.[0].frequency?.value ?? 0;
  return rows.toSorted((one, other) => hz(one) - hz(other));
}
