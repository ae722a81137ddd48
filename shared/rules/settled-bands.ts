/** The halves of a design's hops, settled band by band, for the rule about them and its fix. */
import type { Hop } from "../design/design.js";
import { bandOf, firstHalfOf } from "../radio/halves.js";
import { type HopOfBand, type SettledHalves, settleHalves } from "../radio/settle-halves.js";

const RULE = "site-high-and-low";

/** A hop that accepts both halves at its sites is not held to one, and one whose ends contradict each other is told as such. */
export function hopsOfBands(hops: Iterable<Hop>): readonly HopOfBand[] {
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

/** What to do: the fewest hops to exchange, and rings that no exchange settles. */
export function settledWords({ band, exchanged, keptExchanged, rings }: SettledHalves): string {
  return [ringWords(band, rings), exchangeWords(band, exchanged, keptExchanged, rings)]
    .filter((words) => words !== "")
    .join(" ");
}

function exchangeWords(
  band: string,
  exchanged: readonly string[],
  kept: readonly string[],
  rings: SettledHalves["rings"],
): string {
  if (exchanged.length === 0) return "";
  const built =
    kept.length === 0 ? "" : `, of which ${namesOf(kept)} ${kept.length === 1 ? "is" : "are"} built`;
  const of = `high and low of ${namesOf(exchanged)}${built}: the fewest hops that settle`;
  if (rings.length === 0) return `Exchange ${of} all that hangs together in ${band}.`;
  return `With ${namesOf(rings.map(({ leftOut }) => leftOut))} in another band exchange ${of} the rest.`;
}

/** So many rings are named. */
const RINGS_TOLD = 3;

function ringWords(band: string, rings: SettledHalves["rings"]): string {
  if (rings.length === 0) return "";
  const told = rings.slice(0, RINGS_TOLD).map(({ hops, opens, leftOut }) => {
    const ring = `${namesOf(hops, hops.length)} are a ring of ${hops.length} hops in ${band}, an odd number, which no halves settle`;
    const where =
      opens.length === hops.length ? "any of them" : opens.length > 0 ? orOf(opens) : `${leftOut} for one`;
    return `${ring}: put ${where} in another band.`;
  });
  const more = rings.length - told.length;
  if (more > 0) {
    const others = rings.slice(RINGS_TOLD).map(({ leftOut }) => leftOut);
    told.push(
      `${more} more such ${more === 1 ? "ring opens" : "rings open"} with ${namesOf(others)} in another band.`,
    );
  }
  return told.join(" ");
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
