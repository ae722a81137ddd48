/** What hangs on a structure: where, how heavy, and what the wind does to it. */
import type { Antenna } from "../design/design.js";
import type { SiteEnd, SitePlan } from "./site-plan.js";
import { frontalForceN, ROUND_ANTENNA_COEFFICIENT, windAtHeight } from "./wind.js";

export interface HungAntenna {
  readonly end: SiteEnd;
  readonly antenna: Antenna;
  readonly heightM: number;
  readonly role: "antenna" | "diversity-antenna";
}

/** Antennas of a site whose height is known. The antenna of a dual-band pair hangs once. */
export function hungAntennas(plan: SitePlan): readonly HungAntenna[] {
  return plan.ends.flatMap((end): HungAntenna[] => {
    const { antenna, antennaHeightM, diversityAntenna, diversityHeightM } = end.end;
    const main =
      antenna && antennaHeightM !== undefined && !sharedWithPartner(end, plan)
        ? [{ end, antenna, heightM: antennaHeightM, role: "antenna" } as const]
        : [];
    const second =
      diversityAntenna && diversityHeightM !== undefined
        ? [{ end, antenna: diversityAntenna, heightM: diversityHeightM, role: "diversity-antenna" } as const]
        : [];
    return [...main, ...second];
  });
}

/** Whether an end of a dual-band pair uses the antenna that its partner counts: the low band's hop has it. */
export function sharedWithPartner({ hop, end }: SiteEnd, plan: Pick<SitePlan, "ends">): boolean {
  if (hop.arrangement.name !== "dual-band high" || end.antenna?.mount?.secondBand === undefined) return false;
  const partner = plan.ends.find((other) => other.hop.name === hop.pairedWith);
  return partner?.end.antenna?.name === end.antenna.name && partner.end.antennaHeightM === end.antennaHeightM;
}

export interface StructureLoad {
  /** Undefined without a wind at the site, or without any diameter. */
  readonly windN?: number;
  readonly weightKg: number;
  /** Parts whose weight or diameter the catalogue does not tell: the sums are too small by them. */
  readonly unknown: readonly string[];
}

/**
 * Sum of frontal wind forces, each antenna at its height and all from the front at once, and of weights. A planning
 * aid on the safe side for force, silent about twist, ice, mounts and cables.
 */
export function structureLoad(plan: SitePlan): StructureLoad {
  const unknown = new Set<string>();
  let weightKg = 0;
  const add = (name: string, kg: number | undefined, count = 1) => {
    if (kg === undefined) unknown.add(name);
    else weightKg += kg * count;
  };
  const antennas = hungAntennas(plan);
  for (const { antenna } of antennas) add(antenna.name, antenna.mount?.weightKg);
  for (const { hop, end, facts } of plan.ends) {
    if (facts === undefined) continue;
    if (hop.radio && facts.outdoorUnits > 0)
      add(hop.radio.name, hop.radio.unit?.weightKg, facts.outdoorUnits);
    if (end.coupler && facts.couplers > 0) add(end.coupler.name, end.coupler.weightKg, facts.couplers);
  }
  const wind = plan.equipment?.wind;
  const forces = antennas.flatMap(({ antenna, heightM }) => {
    if (antenna.diameterM === undefined) {
      unknown.add(antenna.name);
      return [];
    }
    const at = wind && windAtHeight({ ...wind, heightM });
    const coefficient = antenna.mount?.windCoefficient ?? ROUND_ANTENNA_COEFFICIENT;
    return at?.ok ? [frontalForceN(at.peakPressurePa, antenna.diameterM, coefficient)] : [];
  });
  return {
    windN: forces.length > 0 ? forces.reduce((sum, force) => sum + force, 0) : undefined,
    weightKg,
    unknown: [...unknown],
  };
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
