/**
 * Attenuation by atmospheric gases, line by line. Rec. ITU-R P.676-13 (08/2022) Annex 1.
 *
 * The Recommendation's p is the pressure of DRY air. A barometer, and P.835, give the total pressure p + e:
 * `specificGasAttenuation` takes the total, `lineByLine` the dry one.
 *
 * Symbols of all equations here: f and the line frequency fi in GHz, p and e in hPa, theta = 300/T with T in K, line
 * strength S, line shape F, line width D in GHz. Stated for 1 to 1000 GHz; nothing here checks that.
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
  checked: {
    by: "394 ITU-R Study Group 3 values",
    vectors: ["p676"],
    tolerance: "1e-13",
  },
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
 *
 *     p = P - e,   e = rho T/216.7    (4)
 *
 * with P the total pressure; then `lineByLine`.
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
 * Gaseous attenuation of a terrestrial path, dB.
 *
 *     A = gamma r0 = (gamma_o + gamma_w) r0    (10)
 *
 * gamma in dB/km for the air at the mean height of the path, r0 in km.
 * @param distanceM path length, > 0
 * @see Rec. ITU-R P.676-13 Annex 1 eq (10), section 2.1 (section number from memory)
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

/**
 * The equations, without memory.
 *
 *     gamma = gamma_o + gamma_w = 0.1820 f (N_ox + N_wv)      dB/km    (1)
 *     N_ox = sum_i S_i F_i + N_D,   N_wv = sum_i S_i F_i               (2)
 *
 * Each sum takes every line of its table: none is cut for standing far from f.
 * @throws RangeError for a frequency, dry pressure or temperature that is not positive, or a negative vapour pressure
 * @see Rec. ITU-R P.676-13 Annex 1 eq (1) to (9)
 */
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

/**
 * Sum of S F over the oxygen lines.
 *
 *     S = a1 1e-7 p theta^3 exp[a2 (1 - theta)]          (3)
 *     D = a3 1e-4 (p theta^(0.8 - a4) + 1.1 e theta)     (6a)
 *     D := sqrt(D^2 + 2.25e-6)                           (6b), Zeeman splitting
 *     delta = (a5 + a6 theta) 1e-4 (p + e) theta^0.8     (7), interference of overlapping lines
 */
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
    const width = Math.sqrt(D * D + 2.25e-6); // eq (6b)
    const delta = (OXYGEN_LINES[i + 5]! + OXYGEN_LINES[i + 6]! * theta) * interference; // eq (7)
    sum += S * lineShape(f, f0, width, delta);
  }
  return sum;
}

/**
 * Sum of S F over the water vapour lines; the continuum is the last of them, at 1780 GHz, so that nothing is added.
 *
 *     S = b1 1e-1 e theta^3.5 exp[b2 (1 - theta)]                   (3)
 *     D = b3 1e-4 (p theta^b4 + b5 e theta^b6)                      (6a)
 *     D := 0.535 D + sqrt(0.217 D^2 + 2.1316e-12 fi^2/theta)        (6b), Doppler broadening
 *     delta = 0                                                     (7)
 */
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
    const width = 0.535 * D + Math.sqrt(0.217 * D * D + (2.1316e-12 * f0 * f0) / theta); // eq (6b)
    sum += S * lineShape(f, f0, width, 0);
  }
  return sum;
}

/**
 * Shape of a line.
 *
 *     F = (f/fi) [(D - delta (fi - f))/((fi - f)^2 + D^2) + (D - delta (fi + f))/((fi + f)^2 + D^2)]    (5)
 */
function lineShape(f: number, f0: number, width: number, delta: number): number {
  const below = f0 - f;
  const above = f0 + f;
  const width2 = width * width;
  return (
    (f / f0) *
    ((width - delta * below) / (below * below + width2) + (width - delta * above) / (above * above + width2))
  );
}

/**
 * The dry continuum: non-resonant oxygen and pressure-induced nitrogen.
 *
 *     N_D = f p theta^2 {6.14e-5/(d [1 + (f/d)^2]) + 1.4e-12 p theta^1.5/(1 + 1.9e-5 f^1.5)},
 *     d = 5.6e-4 (p + e) theta^0.8    (8), (9)
 */
function dryContinuum(f: number, p: number, e: number, theta: number): number {
  const d = 5.6e-4 * (p + e) * theta ** 0.8;
  const oxygen = 6.14e-5 / (d * (1 + (f / d) ** 2));
  const nitrogen = (1.4e-12 * p * theta ** 1.5) / (1 + 1.9e-5 * f ** 1.5);
  return f * p * theta * theta * (oxygen + nitrogen);
}
