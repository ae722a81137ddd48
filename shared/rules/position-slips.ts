/** Which sites stand where a slip of the pen put them, by what their hops, the other sites and the terrain say. */
import type { Design, Hop, Position, Site } from "../design/design.js";
import { inverse } from "../geodesy/geodesic.js";
import { mend, mendedBy, SLIPS, type Slip } from "../geodesy/slips.js";
import { Memory } from "../network/memory.js";

/** Terrain at places that were asked for, by `spotKey`: m above sea level, undefined where it has none. */
export type SpotHeights = ReadonlyMap<string, number | undefined>;

export function spotKey({ latitudeDeg, longitudeDeg }: Position): string {
  return `${latitudeDeg} ${longitudeDeg}`;
}

/** Longer hops are seldom. */
export const USUAL_HOP_M = 80_000;

type Evidence =
  /** The stated ground is the terrain's there, and not here. */
  | "ground"
  /** There is no land here, and there is there. */
  | "no land"
  /** It stands apart from every other site here, and among them there. */
  | "sites";

export interface PositionSlip {
  readonly site: string;
  readonly slip: Slip;
  readonly mended: Position;
  readonly evidence: Evidence;
  /** The far end that is nearest to the mended position. */
  readonly near: string;
  /** To it, as stated and as mended. */
  readonly statedM: number;
  readonly mendedM: number;
  /** What the site states. */
  readonly groundM?: number;
  /** Terrain as stated and as mended, where it was read and has a height. */
  readonly statedTerrainM?: number;
  readonly mendedTerrainM?: number;
  /** The other site that the same slip may have happened at: the two alone do not tell. */
  readonly or?: string;
}

/** Where the terrain has to be known before slips can be told, and where surveys are held against it. */
export function spotsWanted(design: Design, memory?: Memory): readonly Position[] {
  return [
    ...suspects(design, undefined, memory).flatMap(({ site, mended }) => [...around(site.position!), mended]),
    ...surveyedPlaces(design),
  ];
}

function surveyedPlaces({ hops }: Design): Position[] {
  const places: Position[] = [];
  for (const { surveyFile, ends } of hops.values()) {
    if (surveyFile === undefined) continue;
    for (const { site } of ends) if (isPlace(site.position)) places.push(site.position);
  }
  return places;
}

/** By site; the one that most speaks for. */
export function positionSlips(
  design: Design,
  heights: SpotHeights,
  memory?: Memory,
): ReadonlyMap<string, PositionSlip> {
  const found = new Map<string, PositionSlip>();
  const sides = sideCounts(design);
  for (const suspect of suspects(design, undefined, memory)) {
    const evidence = evidenceFor(suspect, design, heights, sides);
    if (evidence === undefined) continue;
    const slip = told(suspect, evidence, heights);
    const known = found.get(slip.site);
    if (known === undefined || speaksMore(slip, known)) found.set(slip.site, slip);
  }
  return withoutMirrors(found);
}

const RANK: Readonly<Record<Evidence, number>> = { sites: 0, "no land": 1, ground: 2 };

/** Of two mendings alike the one that brings the site nearer. */
function speaksMore(a: PositionSlip, b: PositionSlip): boolean {
  return RANK[a.evidence] === RANK[b.evidence] ? a.mendedM < b.mendedM : RANK[a.evidence] > RANK[b.evidence];
}

export interface Suspect {
  readonly site: Site;
  readonly slip: Slip;
  readonly mended: Position;
  /** The far ends of its hops. */
  readonly partners: readonly Site[];
}

/** What would bring some of the sites within a usual hop of the far ends of all their hops; the nearest first. */
export function mendingsOf(design: Design, siteNames: readonly string[]): readonly Suspect[] {
  const totalM = ({ mended, partners }: Suspect) => sum(lengths(mended, partners));
  return suspects(design, siteNames)
    .filter(({ mended, partners }) => areUsual(lengths(mended, partners)))
    .toSorted((a, b) => totalM(a) - totalM(b));
}

/** Sites that a slip would bring within a usual hop of the far ends of all their hops, or hardly beyond. */
function suspects(design: Design, siteNames?: readonly string[], memory = new Memory()): Suspect[] {
  const names = siteNames ? new Set(siteNames) : slippable(design, memory);
  return [...partnersOf(design, names)].flatMap(([name, partners]): Suspect[] => {
    const site = design.sites.get(name);
    if (site === undefined || !isPlace(site.position)) return [];
    return mendedBy(site.position).flatMap(({ slip, mended }) =>
      partners.every(({ position }) => mayBeWithin(mended, position!, USUAL_HOP_M))
        ? [{ site, slip, mended, partners }]
        : [],
    );
  });
}

function isPlace(position: Position | undefined): position is Position {
  return position !== undefined && Math.abs(position.latitudeDeg) <= 90;
}

/** Sites that a slip may bring near a far end of theirs. Most networks have none: nothing is made for the others. */
function slippable({ hops }: Design, memory: Memory): ReadonlySet<string> {
  const names = new Set<string>();
  for (const ends of memory.each(slippableEnds, [...hops.values()], slippableEnds))
    for (const name of ends) names.add(name);
  return names;
}

const NO_END: readonly string[] = [];

function slippableEnds({ ends: [one, other] }: Hop): readonly string[] {
  const [a, b] = [one.site, other.site];
  if (!isPlace(a.position) || !isPlace(b.position)) return NO_END;
  const first = anySlipNears(a.position, b.position);
  const second = anySlipNears(b.position, a.position);
  return first || second ? [...(first ? [a.name] : []), ...(second ? [b.name] : [])] : NO_END;
}

function anySlipNears(at: Position, far: Position): boolean {
  for (const slip of SLIPS) {
    const north = Math.abs(slip.latitudeDeg(at) - far.latitudeDeg);
    if (north * DEGREE_M <= USUAL_HOP_M && mayBeWithin(mend(slip, at), far, USUAL_HOP_M)) return true;
  }
  return false;
}

function partnersOf({ hops }: Design, names: ReadonlySet<string>): ReadonlyMap<string, readonly Site[]> {
  const partners = new Map<string, Site[]>();
  if (names.size === 0) return partners;
  for (const { ends } of hops.values()) {
    for (const [at, far] of [ends, [ends[1], ends[0]]] as const) {
      if (!names.has(at.site.name) || !isPlace(far.site.position)) continue;
      const known = partners.get(at.site.name);
      if (known) known.push(far.site);
      else partners.set(at.site.name, [far.site]);
    }
  }
  return partners;
}

/** A degree of latitude is longer than this. */
const DEGREE_M = 110_000;

/** Without the geodesic, which is only worth its while for the few that pass. */
function mayBeWithin(a: Position, b: Position, distanceM: number): boolean {
  const north = Math.abs(a.latitudeDeg - b.latitudeDeg) * DEGREE_M;
  if (north > distanceM) return false;
  const turned = Math.abs(a.longitudeDeg - b.longitudeDeg) % 360;
  const east = Math.min(turned, 360 - turned) * DEGREE_M * Math.cos((a.latitudeDeg * Math.PI) / 180);
  return Math.hypot(north, east) <= 1.1 * distanceM;
}

function evidenceFor(
  { site, slip, mended, partners }: Suspect,
  design: Design,
  heights: SpotHeights,
  sides: SideCounts,
): Evidence | undefined {
  const stated = site.position!;
  const statedM = lengths(stated, partners);
  const mendedM = lengths(mended, partners);
  if (!areUsual(mendedM)) return undefined;
  if (groundTells(site, mended, heights)) return "ground";
  if (sum(mendedM) > sum(statedM)) return undefined;
  if (isNoLand(stated, heights) && (heights.get(spotKey(mended)) ?? 0) > 0) return "no land";
  // A site that has others near it on its own side of the mirror is where it should be.
  const isAlone = sides.isAloneAt(site, slip);
  if (!isAlone && Math.min(...statedM) <= USUAL_HOP_M) return undefined;
  const apartM = nearestOtherM(site, design);
  const isApart = apartM > APART_TIMES * Math.min(...mendedM);
  return isApart && (isAlone || apartM > USUAL_HOP_M) ? "sites" : undefined;
}

function areUsual(lengthsM: readonly number[]): boolean {
  return lengthsM.every((lengthM) => lengthM > LEAST_HOP_M && lengthM <= USUAL_HOP_M);
}

/** Nearer is the same place. */
const LEAST_HOP_M = 10;
/** So many times as far from every other site as it would be when mended. */
const APART_TIMES = 4;
/** Ground stated within this of the terrain is that of the place; further than the other it is not. */
const SAME_GROUND_M = 15;
const OTHER_GROUND_M = 50;

function groundTells({ groundM, position }: Site, mended: Position, heights: SpotHeights): boolean {
  if (groundM === undefined) return false;
  const here = heights.get(spotKey(position!));
  const there = heights.get(spotKey(mended));
  if (here === undefined || there === undefined) return false;
  return Math.abs(groundM - here) > OTHER_GROUND_M && Math.abs(groundM - there) <= SAME_GROUND_M;
}

/** Sea, void or beyond every raster, some hundred metres around. */
function isNoLand(at: Position, heights: SpotHeights): boolean {
  return around(at).every((spot) => heights.has(spotKey(spot)) && !((heights.get(spotKey(spot)) ?? 0) > 0));
}

/** About 500 m. */
const AROUND_DEG = 0.005;

function around({ latitudeDeg, longitudeDeg }: Position): readonly Position[] {
  return [
    { latitudeDeg, longitudeDeg },
    ...[-AROUND_DEG, AROUND_DEG].flatMap((byDeg) => [
      { latitudeDeg: latitudeDeg + byDeg, longitudeDeg },
      { latitudeDeg, longitudeDeg: longitudeDeg + byDeg },
    ]),
  ];
}

interface SideCounts {
  /** Whether all other sites, three at least, are on the other side of the slip's mirror. */
  isAloneAt(site: Site, slip: Slip): boolean;
}

const ENOUGH_OTHERS = 3;

function sideCounts({ sites }: Design): SideCounts {
  const counts = new Map<string, Map<number, number>>();
  const countOf = (slip: Slip) => {
    let known = counts.get(slip.id);
    if (known === undefined) {
      known = new Map();
      for (const { position } of sites.values()) {
        if (position === undefined) continue;
        const side = slip.side!(position);
        known.set(side, (known.get(side) ?? 0) + 1);
      }
      counts.set(slip.id, known);
    }
    return known;
  };
  return {
    isAloneAt({ position }, slip) {
      if (slip.side === undefined) return false;
      const side = slip.side(position!);
      const count = countOf(slip);
      const all = [...count.values()].reduce((a, b) => a + b, 0);
      return side !== 0 && (count.get(-side) ?? 0) === all - 1 && all > ENOUGH_OTHERS;
    },
  };
}

function nearestOtherM(site: Site, { sites }: Design): number {
  let nearest = Number.POSITIVE_INFINITY;
  for (const other of sites.values()) {
    if (other.name === site.name || !isPlace(other.position)) continue;
    if (nearest < Number.POSITIVE_INFINITY && !mayBeWithin(site.position!, other.position, nearest)) continue;
    nearest = Math.min(nearest, lengthM(site.position!, other.position));
  }
  return nearest;
}

function told(
  { site, slip, mended, partners }: Suspect,
  evidence: Evidence,
  heights: SpotHeights,
): PositionSlip {
  const near = partners.reduce((a, b) =>
    lengthM(mended, b.position!) < lengthM(mended, a.position!) ? b : a,
  );
  return {
    site: site.name,
    slip,
    mended,
    evidence,
    near: near.name,
    statedM: lengthM(site.position!, near.position!),
    mendedM: lengthM(mended, near.position!),
    groundM: site.groundM,
    statedTerrainM: heights.get(spotKey(site.position!)),
    mendedTerrainM: heights.get(spotKey(mended)),
  };
}

/** Of two sites that only speak against each other, the one of which more is known; else both are named at the first. */
function withoutMirrors(found: ReadonlyMap<string, PositionSlip>): ReadonlyMap<string, PositionSlip> {
  const kept = new Map(found);
  for (const one of found.values()) {
    const other = found.get(one.near);
    if (other?.near !== one.site || !kept.has(one.site) || !kept.has(other.site)) continue;
    if (RANK[one.evidence] < RANK[other.evidence]) kept.delete(one.site);
    else {
      kept.delete(other.site);
      if (RANK[one.evidence] === RANK[other.evidence]) kept.set(one.site, { ...one, or: other.site });
    }
  }
  return kept;
}

function lengths(from: Position, partners: readonly Site[]): number[] {
  return partners.map(({ position }) => lengthM(from, position!));
}

function lengthM(from: Position, to: Position): number {
  return inverse({ from, to }).distanceM;
}

function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
