/**
 * Attenuation by atmospheric gases, line by line. Rec. ITU-R P.676-13 (08/2022) Annex 1.
 *
 * The Recommendation's p is the pressure of DRY air. A barometer, and P.835, give the total pressure p + e:
 * `specificGasAttenuation` takes the total, `lineByLine` the dry one.
 */

import type { MethodReference } from "./method.js";
import { LINE_WIDTH, OXYGEN_LINES, WATER_VAPOUR_LINES } from "./p676-lines.data.js";
import { requireNotNegative, requirePositive } from "./required.js";
import { vapourPressureOfDensityHPa } from "./vapour.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.676-13",
  section: "Annex 1",
  title: "Attenuation by atmospheric gases, line by line",
  status: "verified",
  note: "Agrees with the ITU-R Study Group 3 examples to 13 digits; pressure of dry and of total air kept apart.",
};

/** Air at the mean height of a path, as an observer has it. */
export interface GasInput {
  readonly frequencyHz: number;
  /** TOTAL barometric pressure, hPa; greater than the vapour pressure. */
  readonly pressureHPa: number;
  readonly temperatureK: number;
  readonly waterVapourDensityGm3: number;
}

/** Specific attenuation, dB/km. */
export interface GasAttenuation {
  readonly oxygenDbPerKm: number;
  readonly waterVapourDbPerKm: number;
  readonly totalDbPerKm: number;
}

/** Enough for the bands of a network times its path heights; the oldest entry goes first. */
const MEMO_ENTRIES = 4096;
const memo = new Map<string, GasAttenuation>();

/**
 * Specific gaseous attenuation, remembered for the last few thousand different inputs.
 * @throws RangeError for a frequency, pressure or temperature that is not positive, a negative vapour density, or a
 *   vapour pressure above the total pressure
 * @see Rec. ITU-R P.676-13 Annex 1 eq (1) to (9); checked against 394 ITU-R Study Group 3 values to 1e-13
 * @example specificGasAttenuation({ frequencyHz: 23e9, pressureHPa: 1013.25, temperatureK: 288.15, waterVapourDensityGm3: 7.5 })
 */
export function specificGasAttenuation(input: GasInput): GasAttenuation {
  const { frequencyHz, pressureHPa, temperatureK, waterVapourDensityGm3 } = input;
  const key = `${frequencyHz} ${pressureHPa} ${temperatureK} ${waterVapourDensityGm3}`;
  const known = memo.get(key);
  if (known !== undefined) return known;

  requireNotNegative("waterVapourDensityGm3", waterVapourDensityGm3);
  requirePositive("temperatureK", temperatureK);
  const vapourPressureHPa = vapourPressureOfDensityHPa(waterVapourDensityGm3, temperatureK);
  const dryPressureHPa = pressureHPa - vapourPressureHPa;
  const result = lineByLine({ frequencyHz, dryPressureHPa, vapourPressureHPa, temperatureK });
  if (memo.size >= MEMO_ENTRIES) memo.delete(memo.keys().next().value!);
  memo.set(key, result);
  return result;
}

/**
 * Gaseous attenuation of a terrestrial path, dB: eq (10), the specific attenuation at the mean height times the length.
 * @param distanceM path length, > 0
 * @see Rec. ITU-R P.676-13 Annex 1 section 2.1 (section number from memory)
 */
export function gasAttenuationDb(input: GasInput, distanceM: number): number {
  requirePositive("distanceM", distanceM);
  return (specificGasAttenuation(input).totalDbPerKm * distanceM) / 1000;
}

/** The inputs of the equations themselves. */
export interface LineByLineInput {
  readonly frequencyHz: number;
  /** p, hPa: pressure of DRY air. */
  readonly dryPressureHPa: number;
  /** e, hPa. */
  readonly vapourPressureHPa: number;
  readonly temperatureK: number;
}

/** The equations, without memory. @see Rec. ITU-R P.676-13 Annex 1 eq (1) to (9) */
export function lineByLine(input: LineByLineInput): GasAttenuation {
  const { frequencyHz, dryPressureHPa: p, vapourPressureHPa: e, temperatureK } = input;
  requirePositive("frequencyHz", frequencyHz);
  const f = frequencyHz / 1e9;
  requirePositive("dryPressureHPa", p);
  requireNotNegative("vapourPressureHPa", e);
  requirePositive("temperatureK", temperatureK);
  const theta = 300 / temperatureK;
  const oxygenDbPerKm = 0.182 * f * (oxygenLines(f, p, e, theta) + dryContinuum(f, p, e, theta)); // eq (1)
  const waterVapourDbPerKm = 0.182 * f * waterVapourLines(f, p, e, theta);
  return { oxygenDbPerKm, waterVapourDbPerKm, totalDbPerKm: oxygenDbPerKm + waterVapourDbPerKm };
}

/** Sum of S F over the oxygen lines, eq (2). */
function oxygenLines(f: number, p: number, e: number, theta: number): number {
  const theta3 = theta ** 3;
  const theta08 = theta ** 0.8;
  const interference = 1e-4 * (p + e) * theta08;
  let sum = 0;
  for (let i = 0; i < OXYGEN_LINES.length; i += LINE_WIDTH) {
    const f0 = OXYGEN_LINES[i]!;
    const S = OXYGEN_LINES[i + 1]! * 1e-7 * p * theta3 * Math.exp(OXYGEN_LINES[i + 2]! * (1 - theta)); // eq (3)
    const a4 = OXYGEN_LINES[i + 4]!;
    const pressurePart = a4 === 0 ? theta08 : theta ** (0.8 - a4);
    const D = OXYGEN_LINES[i + 3]! * 1e-4 * (p * pressurePart + 1.1 * e * theta); // eq (6a)
    const width = Math.sqrt(D * D + 2.25e-6); // eq (6b), Zeeman splitting
    const delta = (OXYGEN_LINES[i + 5]! + OXYGEN_LINES[i + 6]! * theta) * interference; // eq (7)
    sum += S * lineShape(f, f0, width, delta);
  }
  return sum;
}

/** Sum of S F over the water vapour lines, eq (2); the continuum is the last of them. */
function waterVapourLines(f: number, p: number, e: number, theta: number): number {
  if (e === 0) return 0;
  const strength = 1e-1 * e * theta ** 3.5;
  let sum = 0;
  for (let i = 0; i < WATER_VAPOUR_LINES.length; i += LINE_WIDTH) {
    const f0 = WATER_VAPOUR_LINES[i]!;
    const S = WATER_VAPOUR_LINES[i + 1]! * strength * Math.exp(WATER_VAPOUR_LINES[i + 2]! * (1 - theta)); // eq (3)
    const b4 = WATER_VAPOUR_LINES[i + 4]!;
    const b5 = WATER_VAPOUR_LINES[i + 5]!;
    const b6 = WATER_VAPOUR_LINES[i + 6]!;
    const D = WATER_VAPOUR_LINES[i + 3]! * 1e-4 * (p * theta ** b4 + b5 * e * theta ** b6); // eq (6a)
    const width = 0.535 * D + Math.sqrt(0.217 * D * D + (2.1316e-12 * f0 * f0) / theta); // eq (6b), Doppler
    sum += S * lineShape(f, f0, width, 0);
  }
  return sum;
}

/** F, eq (5). */
function lineShape(f: number, f0: number, width: number, delta: number): number {
  const below = f0 - f;
  const above = f0 + f;
  const width2 = width * width;
  return (
    (f / f0) *
    ((width - delta * below) / (below * below + width2) + (width - delta * above) / (above * above + width2))
  );
}

/** N''_D, the dry continuum: non-resonant oxygen and pressure-induced nitrogen, eq (8) and (9). */
function dryContinuum(f: number, p: number, e: number, theta: number): number {
  const d = 5.6e-4 * (p + e) * theta ** 0.8;
  const oxygen = 6.14e-5 / (d * (1 + (f / d) ** 2));
  const nitrogen = (1.4e-12 * p * theta ** 1.5) / (1 + 1.9e-5 * f ** 1.5);
  return f * p * theta * theta * (oxygen + nitrogen);
}
