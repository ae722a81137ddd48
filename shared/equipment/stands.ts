/** The antennas of an end, each with what joins units to it. */
import type { Antenna, Coupler, CouplerKind, HopEnd, Mounting } from "../design/design.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import { type Branch, branchesOf, type Join, type Side } from "./branches.js";

/** The antennas of an end that units may hang on beside the first, as the language numbers them. */
export const FURTHER = ["second", "third", "fourth"] as const;

/** An antenna that an end states, and its coupler. */
export interface Stand {
  readonly antenna?: Antenna;
  /** Antenna centre above ground. */
  readonly heightM?: number;
  readonly coupler?: Coupler;
  /** As the coupler's line says. */
  readonly mounting?: Mounting;
  /** The fact that states the antenna: `antenna`, `second-antenna`, `diversity-antenna`. */
  readonly fact: string;
  /** The fact that states its coupler. */
  readonly couplerFact: string;
}

/** `diversity antenna` */
export function standWords({ fact }: Stand): string {
  return fact.replace("-", " ");
}

/** Antennas that the units of an arrangement hang on, in the order in which branches count them. */
export function standsOf(end: HopEnd, facts: ArrangementFacts): readonly Stand[] {
  return facts.spaceDiversity ? [firstOf(end), ...diversityOf(end)] : [firstOf(end), ...furtherOf(end)];
}

/** Every antenna that an end states, whether its arrangement has a use for it or not. */
export function antennasStated(end: HopEnd): readonly Stand[] {
  return [firstOf(end), ...furtherOf(end), ...diversityOf(end)];
}

/** Every coupler that an end states, with the fact that states it. */
export function couplersStated(end: HopEnd): readonly { readonly coupler: Coupler; readonly fact: string }[] {
  return [firstOf(end), ...furtherOf(end)].flatMap(({ coupler, couplerFact: fact }) =>
    coupler === undefined ? [] : [{ coupler, fact }],
  );
}

function firstOf({ antenna, antennaHeightM: heightM, coupler, mounting }: HopEnd): Stand {
  return { antenna, heightM, coupler, mounting, fact: "antenna", couplerFact: "coupler" };
}

function furtherOf({ further = [] }: HopEnd): Stand[] {
  return further.map((one, index) => ({
    ...one,
    fact: `${FURTHER[index]}-antenna`,
    couplerFact: `${FURTHER[index]}-coupler`,
  }));
}

function diversityOf({
  diversityAntenna: antenna,
  diversityHeightM: heightM,
  further = [],
}: HopEnd): Stand[] {
  if (antenna === undefined) return [];
  const { coupler, mounting } = further[0] ?? {};
  return [{ antenna, heightM, coupler, mounting, fact: "diversity-antenna", couplerFact: "second-coupler" }];
}

/** How the units of an end come to its antennas. */
export interface Joining {
  /** For each antenna: what is stated, else what is missing there. */
  readonly joins: readonly Join[];
  /** Antennas, from 0, to which several units have to be joined with no coupler stated for it. */
  readonly lacking: readonly number[];
  /** Units that no stated antenna has a place for, even with the couplers that are missing. */
  readonly left: number;
}

/**
 * A coupler that does not suit counts as the usual one: a rule tells it. Where none is stated, an antenna takes one unit;
 * only if that leaves units without a place, the usual coupler counts as missing there.
 */
export function joiningOf(stands: readonly Stand[], facts: ArrangementFacts): Joining {
  const joins = stands.map((stand, index) => statedJoin(stand, facts, index, stands.length));
  const lacking: number[] = [];
  for (const [index, { coupler }] of stands.entries()) {
    const usual = facts.coupler;
    if (usual === undefined || coupler !== undefined || joins[index] !== "none") continue;
    if (unitsLeft(facts, joins) === 0) break;
    joins[index] = usual;
    lacking.push(index);
  }
  return { joins, lacking, left: unitsLeft(facts, joins) };
}

function statedJoin(
  { antenna, coupler }: Stand,
  facts: ArrangementFacts,
  index: number,
  count: number,
): Join {
  if (index > 0 && antenna === undefined) return "nothing";
  if (coupler === undefined) return "none";
  if (facts.coupler === undefined)
    return facts.antennas > 1 && count === 1 && coupler.kind === "hybrid" ? "hybrid" : "none";
  return coupler.kind !== undefined && suits(coupler.kind, facts) ? coupler.kind : facts.coupler;
}

/** Branches of an end with what is stated there. */
export function branchesAt(end: HopEnd, facts: ArrangementFacts, side: Side = 0): readonly Branch[] {
  return branchesOf(facts, joiningOf(standsOf(end, facts), facts).joins, side);
}

/** An orthomode transducer takes two of the units for which a dual-polarized coupler is usual. */
export function suits(kind: CouplerKind, facts: ArrangementFacts): boolean {
  return kind === facts.coupler || (kind === "omt" && facts.coupler === "dual-polarized");
}

function unitsLeft(facts: ArrangementFacts, joins: readonly Join[]): number {
  return branchesOf(facts, joins).filter(({ antenna }) => antenna > joins.length).length;
}
