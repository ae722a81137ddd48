/**
 * The arrangements of the two ends of a hop. An end may be built otherwise than the other: protected by a unit on
 * standby where the other is not, with a second antenna to receive on where the other has one. What goes over the air
 * both must share. Common practice.
 */
import type { Hop, HopEnd } from "../design/design.js";
import { ARRANGEMENTS, type ArrangementFacts, arrangementByName } from "./arrangements.js";

/** What decides over an end: the hop's arrangement, and the end's own. */
type Arranged = Pick<Hop, "arrangement">;

/**
 * Whether ends of two arrangements make a hop: as many carriers on the air and in use, on as many frequencies and
 * polarizations, with or without XPIC alike, of one construction, and the same part of a dual-band pair. Units on
 * standby and further antennas are each end's own.
 */
export function goTogether(one: ArrangementFacts, other: ArrangementFacts): boolean {
  return one === other || SHARED.every(({ of }) => of(one) === of(other));
}

/** What both ends must have alike, and how it is told. */
const SHARED: readonly {
  of(facts: ArrangementFacts): string | number;
  /** Of what differs, first this one's figure or word and then the other's. */
  told(own: string | number, other: string | number): string;
}[] = [
  { of: ({ construction }) => construction, told: (own, other) => `${own} against ${other}` },
  {
    of: ({ bandOfPair }) => (bandOfPair === undefined ? "no part" : `the ${bandOfPair} part`),
    told: (own, other) => `${own} of a dual-band pair against ${other}`,
  },
  {
    of: ({ radiating }) => radiating,
    told: (own, other) => `${counted(own, "carrier")} on the air against ${other}`,
  },
  {
    of: ({ workingCarriers }) => workingCarriers,
    told: (own, other) => `${counted(own, "working carrier")} against ${other}`,
  },
  {
    of: ({ frequencyPairs }) => frequencyPairs,
    told: (own, other) => `${counted(own, "channel")} against ${other}`,
  },
  {
    of: ({ polarizations }) => polarizations,
    told: (own, other) => `${counted(own, "polarization")} against ${other}`,
  },
  {
    of: ({ xpicPairs }) => (xpicPairs > 0 ? "XPIC" : "no XPIC"),
    told: (own, other) => `${own} against ${other}`,
  },
];

/** In what two that do not go together differ: `1 carrier on the air against 2`. */
export function apartIn(own: ArrangementFacts, other: ArrangementFacts): readonly string[] {
  return SHARED.flatMap(({ of, told }) => (of(own) === of(other) ? [] : [told(of(own), of(other))]));
}

function counted(count: string | number, what: string): string {
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}

/** Arrangements of a far end that go with one, other than itself, in the order of the table. */
export function partnersOf(facts: ArrangementFacts): readonly ArrangementFacts[] {
  return ARRANGEMENTS.filter((other) => other !== facts && goTogether(facts, other));
}

/**
 * What an end is built as: its own arrangement, else the hop's. One that does not go with the hop's is told by a rule
 * and counts as not stated.
 * @returns undefined for words that name no arrangement
 */
export function factsAt({ arrangement }: Arranged, end: HopEnd): ArrangementFacts | undefined {
  const common = arrangementByName(arrangement.name);
  const own = end.arrangement && arrangementByName(end.arrangement.name);
  return own !== undefined && common !== undefined && goTogether(own, common) ? own : common;
}

/** What an end states of its own that does not go with the arrangement of the other. */
export function unfitAt({ arrangement }: Arranged, end: HopEnd): ArrangementFacts | undefined {
  const common = arrangementByName(arrangement.name);
  const own = end.arrangement && arrangementByName(end.arrangement.name);
  return own !== undefined && common !== undefined && !goTogether(own, common) ? own : undefined;
}

/** As the language writes it. */
export function arrangementAt(hop: Arranged, end: HopEnd): string {
  return factsAt(hop, end)?.name ?? hop.arrangement.name;
}

/** Whether the ends are built differently. */
export function endsDiffer(hop: Pick<Hop, "arrangement" | "ends">): boolean {
  return arrangementAt(hop, hop.ends[0]) !== arrangementAt(hop, hop.ends[1]);
}

/** How an arrangement and the site that has it are told. */
interface Telling {
  arrangement(name: string): string;
  at(arrangement: string, site: string): string;
}

const AS_WRITTEN: Telling = {
  arrangement: (name) => name,
  at: (arrangement, site) => `${arrangement} at ${site}`,
};

/** `1+1 hot-standby`; of ends that differ `1+1 hot-standby at KELD, 1+0 at TARN`. */
export function arrangementWords(
  hop: Pick<Hop, "arrangement" | "ends">,
  { arrangement, at }: Telling = AS_WRITTEN,
): string {
  if (!endsDiffer(hop)) return arrangement(arrangementAt(hop, hop.ends[0]));
  return hop.ends.map((end) => at(arrangement(arrangementAt(hop, end)), end.site.name)).join(", ");
}
