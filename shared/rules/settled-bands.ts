/** The halves of a design's hops, settled band by band, for the rule about them and its fix. */
import type { Hop } from "../design/design.js";
import { bandOf, firstHalfOf } from "../radio/halves.js";
import { type HopOfBand, type SettledHalves, settleHalves } from "../radio/settle-halves.js";

const RULE = "site-high-and-low";

/** A hop that accepts both halves at its sites is not held to one, and one whose ends contradict each other is told as such. */
function hopsOfBands(hops: Iterable<Hop>): readonly HopOfBand[] {
  return [...hops].flatMap((hop): HopOfBand[] => {
    const band = bandOf(hop);
    const firstHalf = firstHalfOf(hop);
    if (band === undefined || firstHalf === "both alike") return [];
    if (hop.accepts.some(({ rule }) => rule === RULE)) return [];
    const sites = [hop.ends[0].site.name, hop.ends[1].site.name] as const;
    return [{ name: hop.name, band, sites, firstHalf, keeps: hop.state?.word === "built" }];
  });
}

/** What hangs together, by the name of each of its hops. */
export function settledByHop(hops: Iterable<Hop>): ReadonlyMap<string, SettledHalves> {
  return new Map(
    settleHalves(hopsOfBands(hops)).flatMap((settled) =>
      settled.hops.map((name) => [name, settled] as const),
    ),
  );
}

/** What to do: where a ring that no exchange settles opens, and the fewest hops to exchange. */
export function settledWords(settled: SettledHalves): string {
  const { band, exchanged, keptExchanged: kept } = settled;
  const ring = ringWords(settled);
  if (exchanged.length === 0) return ring;
  const built =
    kept.length === 0 ? "" : `, of which ${namesOf(kept)} ${kept.length === 1 ? "is" : "are"} built`;
  const of = `high and low of ${namesOf(exchanged)}${built}: the fewest hops that settle`;
  if (ring === "") return `Exchange ${of} all that hangs together in ${band}.`;
  return `${ring} With ${namesOf(settled.leftOut)} there, exchange ${of} the rest.`;
}

export function ringWords({ band, ring, leftOut }: SettledHalves): string {
  if (ring === undefined) return "";
  const { hops, opens } = ring;
  const names = namesOf(hops, hops.length);
  const told = `${names} are a ring of ${hops.length} hops in ${band}, an odd number, which no halves settle`;
  if (opens.length === hops.length) return `${told}: put any of them in another band.`;
  if (opens.length > 0) return `${told}: put ${orOf(opens)} in another band.`;
  return `${told}, and it is not the only one: put ${namesOf(leftOut)} in another band.`;
}

/** So many hops are named; the others are counted. */
const TOLD = 6;

/** `A, B and C`. */
export function namesOf(names: readonly string[], most = TOLD): string {
  const told = names.slice(0, most);
  const more = names.length - told.length;
  const all = more > 0 ? [...told, `${more} more`] : told;
  return all.length < 2 ? (all[0] ?? "") : `${all.slice(0, -1).join(", ")} and ${all.at(-1)}`;
}

function orOf(names: readonly string[]): string {
  return names.length < 2 ? names[0]! : `${names.slice(0, -1).join(", ")} or ${names.at(-1)}`;
}
