/** What was built otherwise than planned, and what it costs where that is one figure. */
import type { AsBuilt } from "../design/as-built.js";
import type { Hop, HopEnd } from "../design/design.js";
import type { HopResult } from "../evaluate/account/result.js";
import { antennaGain } from "../radio/antenna-gain.js";
import { discriminationDb } from "../radio/discrimination.js";
import { compassSlip, declinationAt } from "./declination.js";

/** What counts as planned; common practice, no source. */
export const BUILT_TOLERANCES = {
  heightM: 0.5,
  /** Where the antenna's beamwidth is not known. */
  azimuthDeg: 1,
  /** Off the axis the antenna has its half power at half of its beamwidth: so far is as planned. */
  azimuthBeamwidths: 0.5,
  cableLengthM: 2,
} as const;

export type BuiltFact = "antenna" | "height" | "diversity-height" | "azimuth" | "cable-length";

export interface BuiltDifference {
  readonly site: string;
  readonly fact: BuiltFact;
  readonly planned: { readonly name: string } | { readonly figure: number };
  readonly built: { readonly name: string } | { readonly figure: number };
  /** Less on the hop for it, dB, both directions; undefined: it is not one figure, or not known. */
  readonly lessDb?: number;
  /** Of an azimuth: it is off by just the declination of its site, which is this, degrees, positive east. */
  readonly compass?: { readonly slip: "set by compass" | "read by compass"; readonly declinationDeg: number };
}

/**
 * What of the ends is built otherwise by more than the tolerances. Figures of the hop stay those of the plan, which is
 * what was decided: a difference is told, with the loss of an antenna that looks aside and with the gain of another one.
 */
export function builtDifferences(hop: Hop, result: HopResult): readonly BuiltDifference[] {
  return ([0, 1] as const).flatMap((at) => {
    const end = hop.ends[at];
    return end.asBuilt === undefined ? [] : differencesAt(end, end.asBuilt, result.geometry?.[at].azimuthDeg);
  });
}

function differencesAt(end: HopEnd, built: AsBuilt, azimuthDeg: number | undefined): BuiltDifference[] {
  const site = end.site.name;
  const found: BuiltDifference[] = [];
  const hz = end.transmitFrequencyHz;
  const { antenna } = built;
  if (antenna !== undefined && end.antenna !== undefined && antenna.name !== end.antenna.name) {
    const gains = hz !== undefined && hz > 0 ? [end.antenna, antenna].map((one) => antennaGain(one, hz)) : [];
    const [planned, hung] = gains;
    const lessDb = planned && hung && planned.gainDbi - hung.gainDbi;
    found.push({
      site,
      fact: "antenna",
      planned: { name: end.antenna.name },
      built: { name: antenna.name },
      lessDb,
    });
  }
  for (const { fact, planned, built: is, by, agrees } of builtFigures(end, built, azimuthDeg)) {
    if (planned === undefined || agrees) continue;
    const figures = { planned: { figure: planned }, built: { figure: is } };
    if (fact !== "azimuth") {
      found.push({ site, fact, ...figures });
      continue;
    }
    const hung = antenna ?? end.antenna;
    const lessDb = hung && hz !== undefined && hz > 0 ? discriminationDb(hung, Math.abs(by!), hz) : undefined;
    found.push({
      site,
      fact,
      ...figures,
      ...(lessDb !== undefined && lessDb > 0 && { lessDb }),
      ...compassOf(end, built, planned),
    });
  }
  return found;
}

export interface BuiltFigure {
  readonly fact: Exclude<BuiltFact, "antenna">;
  /** m, of an azimuth degrees; undefined: nothing is planned, or it is not known. */
  readonly planned?: number;
  readonly built: number;
  /** From planned to built, of an azimuth clockwise; undefined as `planned` is. */
  readonly by?: number;
  /** By no more than its tolerance; undefined as `planned` is. */
  readonly agrees?: boolean;
}

/** What is stated as built of an end in figures, beside the plan. @param azimuthDeg planned, true; undefined: not known */
export function builtFigures(
  end: HopEnd,
  built: AsBuilt,
  azimuthDeg: number | undefined,
): readonly BuiltFigure[] {
  const { heightM, cableLengthM, azimuthBeamwidths } = BUILT_TOLERANCES;
  const beamwidthDeg = (built.antenna ?? end.antenna)?.beamwidthDeg;
  const azimuthToleranceDeg =
    beamwidthDeg === undefined ? BUILT_TOLERANCES.azimuthDeg : beamwidthDeg * azimuthBeamwidths;
  const figures = [
    ["height", end.antennaHeightM, built.heightM, heightM],
    ["diversity-height", end.diversityHeightM, built.diversityHeightM, heightM],
    ["azimuth", azimuthDeg, built.azimuthDeg, azimuthToleranceDeg],
    ["cable-length", end.installation?.cableLengthM, built.cableLengthM, cableLengthM],
  ] as const;
  return figures.flatMap(([fact, planned, is, tolerance]): BuiltFigure[] => {
    if (is === undefined) return [];
    if (planned === undefined) return [{ fact, built: is }];
    const by = fact === "azimuth" ? turnDeg(planned, is) : is - planned;
    return [{ fact, planned, built: is, by, agrees: Math.abs(by) <= tolerance + ROUNDING }];
  });
}

function compassOf(
  { site }: HopEnd,
  { on, azimuthDeg }: AsBuilt,
  plannedDeg: number,
): Pick<BuiltDifference, "compass"> {
  const declinationDeg = declinationAt(site, on);
  const slip = compassSlip(turnDeg(plannedDeg, azimuthDeg!), declinationDeg);
  return slip === undefined ? {} : { compass: { slip, declinationDeg: declinationDeg! } };
}

/** Figures are stated with few decimals. */
const ROUNDING = 1e-9;

/** From one azimuth to another the shorter way round, clockwise positive, -180 to 180. */
export function turnDeg(fromDeg: number, toDeg: number): number {
  return ((((toDeg - fromDeg + 180) % 360) + 360) % 360) - 180;
}
