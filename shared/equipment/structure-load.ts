/** What hangs on a structure: where, how heavy, and what the wind does to it. */

import type { Antenna } from "../design/catalogue.js";
import type { LineFacts } from "../design/equipment.js";
import { arrangementByName } from "../radio/arrangements.js";
import { feederPieces } from "./pieces.js";
import type { SiteEnd, SitePlan } from "./site-plan.js";
import { antennasStated, couplersStated, isLedAlone } from "./stands.js";
import { discAreaM2, frontalForceN, ROUND_ANTENNA_COEFFICIENT, windAtHeight } from "./wind.js";

export interface HungAntenna {
  readonly end: SiteEnd;
  readonly antenna: Antenna;
  readonly heightM: number;
  /** The fact that states it. */
  readonly role: string;
}

/** Antennas of a site whose height is known. The antenna of a dual-band pair hangs once. */
export function hungAntennas(plan: SitePlan): readonly HungAntenna[] {
  return plan.ends.flatMap((end) =>
    antennasStated(end.end).flatMap(({ antenna, heightM, fact }): HungAntenna[] =>
      antenna === undefined || heightM === undefined || (fact === "antenna" && sharedWithPartner(end, plan))
        ? []
        : [{ end, antenna, heightM, role: fact }],
    ),
  );
}

/** Whether an end of a dual-band pair uses the antenna that its partner counts: the low band's hop has it. */
export function sharedWithPartner({ hop, end }: SiteEnd, plan: Pick<SitePlan, "ends">): boolean {
  const { bandOfPair } = arrangementByName(hop.arrangement.name) ?? {};
  if (bandOfPair !== "high" || end.antenna?.mount?.secondBand === undefined) return false;
  const partner = plan.ends.find((other) => other.hop.name === hop.pairedWith);
  return partner?.end.antenna?.name === end.antenna.name && partner.end.antennaHeightM === end.antennaHeightM;
}

/** One kind of part that hangs at an end, or a mount. */
export interface HungPart {
  readonly name: string;
  /** Of all its pieces; undefined: the catalogue does not tell it. */
  readonly weightKg?: number;
  /** Undefined: no wind at the site, or it does not count beside the others. */
  readonly wind?: {
    /** Undefined: the catalogue does not tell it. */
    readonly areaM2?: number;
    readonly coefficient: number;
    /** Whether the catalogue gives the coefficient. */
    readonly stated: boolean;
    readonly heightM: number;
    readonly peakPressurePa?: number;
    readonly forceN?: number;
  };
}

export interface StructureLoad {
  readonly parts: readonly HungPart[];
  /** Undefined without a wind at the site, or without any area. */
  readonly windN?: number;
  readonly weightKg: number;
  /** Parts whose weight or size the catalogue does not tell: the sums are too small by them. */
  readonly unknown: readonly string[];
  /** What no sum here counts, and mounts where none is stated. */
  readonly leftOut: readonly string[];
}

/** What hangs there, with the area it turns to the wind where that is known. */
interface Load {
  readonly name: string;
  readonly weightKg?: number;
  /** Undefined: the wind on it does not count beside the others. */
  readonly wind?: {
    readonly areaM2?: number;
    readonly coefficient: number;
    readonly stated: boolean;
    readonly heightM: number;
  };
}

/** Drag of a round line and of angular steel over the area they show. Common practice, from memory. */
const LINE_COEFFICIENT = 1.2;
const STEEL_COEFFICIENT = 2;

/**
 * Sum of frontal wind forces, each part at its height and all from the front at once, and of weights: antennas, units,
 * couplers, the lines that run down the structure, stated mounts. A planning aid on the safe side for force (a line
 * counts whole at its upper end, nothing shades another), silent about twist and ice.
 */
export function structureLoad(plan: SitePlan): StructureLoad {
  const parts = [...antennaLoads(plan), ...plan.ends.flatMap(endLoads), ...mountLoads(plan)].map((load) =>
    inWind(load, plan),
  );
  const unknown = new Set<string>();
  let weightKg = 0;
  let windN: number | undefined;
  for (const { name, weightKg: ownKg, wind } of parts) {
    if (ownKg === undefined) unknown.add(name);
    else weightKg += ownKg;
    if (wind === undefined) continue;
    if (wind.areaM2 === undefined) unknown.add(name);
    else if (wind.forceN !== undefined) windN = (windN ?? 0) + wind.forceN;
  }
  const noMounts = (plan.equipment?.mounts ?? []).length === 0;
  return {
    parts,
    windN,
    weightKg,
    unknown: [...unknown],
    leftOut: ["twist", "ice", ...(noMounts ? ["mounts"] : [])],
  };
}

function inWind({ wind, ...load }: Load, { equipment }: SitePlan): HungPart {
  if (wind === undefined || equipment?.wind === undefined) return load;
  const { areaM2, coefficient, heightM } = wind;
  const at = windAtHeight({ ...equipment.wind, heightM });
  if (!at.ok) return { ...load, wind };
  const { peakPressurePa } = at;
  const forceN = areaM2 === undefined ? undefined : frontalForceN(peakPressurePa, areaM2, coefficient);
  return { ...load, wind: { ...wind, peakPressurePa, forceN } };
}

function antennaLoads(plan: SitePlan): Load[] {
  return hungAntennas(plan).map(({ antenna: { name, diameterM, mount }, heightM }) => ({
    name,
    weightKg: mount?.weightKg,
    wind: {
      areaM2: diameterM === undefined ? undefined : discAreaM2(diameterM),
      coefficient: mount?.windCoefficient ?? ROUND_ANTENNA_COEFFICIENT,
      stated: mount?.windCoefficient !== undefined,
      heightM,
    },
  }));
}

/** Units, couplers and lines of an end; the wind on units and couplers hides behind their antenna. */
function endLoads({ hop, end, facts }: SiteEnd): Load[] {
  if (facts === undefined) return [];
  const { radio } = hop;
  const { installation, antennaHeightM } = end;
  const loads: Load[] = [];
  if (radio && facts.outdoorUnits > 0)
    loads.push({ name: radio.name, weightKg: times(radio.unit?.weightKg, facts.outdoorUnits) });
  for (const { coupler } of couplersStated(end))
    loads.push({ name: coupler.name, weightKg: coupler.weightKg });
  const cable = installation?.cable;
  if (cable && facts.outdoorUnits > 0 && antennaHeightM !== undefined)
    loads.push(lineLoad(cable, antennaHeightM, facts.outdoorUnits, antennaHeightM));
  for (const { stand, count } of feederPieces(hop, end, facts)) {
    const { feeder, feederLengthM } = stand;
    // One that is stated for all antennas is hung as to the first.
    const heightM = isLedAlone(stand) ? stand.heightM : antennaHeightM;
    if (feeder === undefined || feederLengthM === undefined || heightM === undefined) continue;
    // What is longer than the way down runs indoors; a short piece hides behind the antenna.
    const hung = lineLoad(feeder, Math.min(feederLengthM, heightM), count, heightM);
    loads.push(feederLengthM > SHORT_PIECE_M ? hung : { ...hung, wind: undefined });
  }
  return loads;
}

/** Flexible pieces between a unit on the pole and the antenna beside it, m. Common practice. */
const SHORT_PIECE_M = 3;

function lineLoad(
  { name, line }: { readonly name: string; readonly line?: LineFacts },
  lengthM: number,
  count: number,
  heightM: number,
): Load {
  return {
    name,
    weightKg: times(line?.kgPerM, lengthM * count),
    wind: {
      areaM2: times(line?.diameterM, lengthM * count),
      coefficient: LINE_COEFFICIENT,
      stated: false,
      heightM,
    },
  };
}

function mountLoads(plan: SitePlan): Load[] {
  const highestM = Math.max(0, ...hungAntennas(plan).map(({ heightM }) => heightM));
  return (plan.equipment?.mounts ?? []).map(({ title, massKg, areaM2, heightM = highestM }) => ({
    name: title,
    weightKg: massKg,
    wind: { areaM2, coefficient: STEEL_COEFFICIENT, stated: false, heightM },
  }));
}

function times(one: number | undefined, count: number): number | undefined {
  return one === undefined ? undefined : one * count;
}

/** Room for brackets and movement between two antennas, m. Common practice. */
const ROOM_M = 0.2;

/** Azimuths that differ by less put two antennas on one face of the structure. Common practice. */
const ONE_FACE_DEG = 45;

export interface Overlap {
  readonly one: HungAntenna;
  readonly other: HungAntenna;
  readonly apartM: number;
  readonly neededM: number;
}

/**
 * Antennas of one face that stand in each other's way: their heights differ by less than both radii and some room.
 * In the order of heights only neighbours within reach are compared.
 *
 * @param azimuthDeg bearing of an end, undefined when it is not known: then the antenna is passed over
 */
export function overlaps(
  antennas: readonly HungAntenna[],
  azimuthDeg: (end: SiteEnd) => number | undefined,
): readonly Overlap[] {
  const hung = antennas
    .flatMap((one) => {
      const azimuth = azimuthDeg(one.end);
      const diameterM = one.antenna.diameterM;
      return azimuth === undefined || diameterM === undefined
        ? []
        : [{ one, azimuth, radiusM: diameterM / 2 }];
    })
    .sort((a, b) => a.one.heightM - b.one.heightM);
  const widestM = Math.max(0, ...hung.map(({ radiusM }) => radiusM));
  const found: Overlap[] = [];
  for (const [index, lower] of hung.entries()) {
    for (let i = index + 1; i < hung.length; i++) {
      const upper = hung[i]!;
      const apartM = upper.one.heightM - lower.one.heightM;
      if (apartM >= lower.radiusM + widestM + ROOM_M || found.length >= MOST_OVERLAPS) break;
      const neededM = lower.radiusM + upper.radiusM + ROOM_M;
      if (apartM >= neededM - 1e-9 || turned(lower.azimuth, upper.azimuth) >= ONE_FACE_DEG) continue;
      found.push({ one: lower.one, other: upper.one, apartM, neededM });
    }
  }
  return found;
}

/** More would say nothing more, and a site with a thousand antennas at one height has half a million pairs. */
const MOST_OVERLAPS = 50;

function turned(a: number, b: number): number {
  const apart = Math.abs(a - b) % 360;
  return Math.min(apart, 360 - apart);
}
