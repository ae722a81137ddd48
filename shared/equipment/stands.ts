/** The antennas of an end, each with what joins units to it. */
import type { Antenna, Coupler, CouplerKind, Feeder } from "../design/catalogue.js";
import type { FurtherAntenna, HopEnd, Mounting } from "../design/design.js";
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
  /** What leads from the units to the antenna: its own, else that of the end. */
  readonly feeder?: Feeder;
  readonly feederLengthM?: number;
  /** The fact that states it. */
  readonly feederFact: string;
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

/** Every feeder that an end states, with the fact that states it. */
export function feedersStated(
  end: HopEnd,
): readonly { readonly feeder: Feeder; readonly lengthM?: number; readonly fact: string }[] {
  const all = [end, ...(end.further ?? [])].map(({ feeder, feederLengthM: lengthM }, index) => ({
    feeder,
    lengthM,
    fact: index === 0 ? FEEDER : furtherFact(index - 1, FEEDER),
  }));
  return all.flatMap(({ feeder, ...rest }) => (feeder === undefined ? [] : [{ feeder, ...rest }]));
}

const FEEDER = "feeder";

function furtherFact(index: number, what: "antenna" | "coupler" | typeof FEEDER): string {
  return `${FURTHER[index]}-${what}`;
}

function firstOf(end: HopEnd): Stand {
  const { antenna, antennaHeightM: heightM, coupler, mounting } = end;
  return { antenna, heightM, coupler, mounting, ...ledAsFirst(end), fact: "antenna", couplerFact: "coupler" };
}

function furtherOf(end: HopEnd): Stand[] {
  return (end.further ?? []).map((one, index) => ({
    ...one,
    ...leadOf(end, one, index),
    fact: furtherFact(index, "antenna"),
    couplerFact: furtherFact(index, "coupler"),
  }));
}

function diversityOf(end: HopEnd): Stand[] {
  const { diversityAntenna: antenna, diversityHeightM: heightM, further = [] } = end;
  if (antenna === undefined) return [];
  const { coupler, mounting } = further[0] ?? {};
  const led = leadOf(end, further[0], 0);
  return [
    {
      antenna,
      heightM,
      coupler,
      mounting,
      ...led,
      fact: "diversity-antenna",
      couplerFact: furtherFact(0, "coupler"),
    },
  ];
}

type Led = Pick<Stand, "feeder" | "feederLengthM" | "feederFact">;

function ledAsFirst({ feeder, feederLengthM }: HopEnd): Led {
  return { feeder, feederLengthM, feederFact: FEEDER };
}

function leadOf(end: HopEnd, own: FurtherAntenna | undefined, index: number): Led {
  if (own?.feeder === undefined) return ledAsFirst(end);
  return {
    feeder: own.feeder,
    feederLengthM: own.feederLengthM,
    feederFact: furtherFact(index, FEEDER),
  };
}

/** Whether a feeder of its own leads to an antenna beside the first. */
export function isLedAlone({ feederFact }: Stand): boolean {
  return feederFact !== FEEDER;
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
  const { joins } = joiningOf(standsOf(end, facts), facts);
  return branchesOf(facts, joins, side, end.armsExchanged);
}

/** An orthomode transducer takes two of the units for which a dual-polarized coupler is usual. */
export function suits(kind: CouplerKind, facts: ArrangementFacts): boolean {
  return kind === facts.coupler || (kind === "omt" && facts.coupler === "dual-polarized");
}

function unitsLeft(facts: ArrangementFacts, joins: readonly Join[]): number {
  return branchesOf(facts, joins).filter(({ antenna }) => antenna > joins.length).length;
}
