/** Reference radiation pattern of a fixed link's antenna, average of its side lobes. Rec. ITU-R F.1245-3 (2019). */
import type { MethodReference } from "../propagation/method.js";
import type { Outcome } from "../propagation/outcome.js";
import {
  type ReferenceDish,
  type ReferencePattern,
  referencePattern,
  type SideLobes,
} from "./reference-pattern.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R F.1245-3",
  section: "recommends 2",
  title: "Antenna reference pattern, average of side lobes",
  status: "read in implementations",
  note:
    "Read in two implementations, 70 to 86 GHz in one. A third takes another phi_m for D/lambda up to 100, which no check " +
    "rules out: up to 3 dB at the shoulder of small dishes. Recommends 3 was read once, its sine corrected by how the branches join.",
  checked: {
    by: "own formulations; a public implementation for 1 to 70 GHz",
    vectors: ["antenna-patterns"],
    tolerance: "1e-4 dB (four decimals given)",
  },
};

/**
 * Average of the side lobes: for the sum of many entries.
 *
 *     x > 100:    phi_r = 12.02 x^-0.6;  G1 to phi_r;  29 - 25 log phi to 48 degrees;  -13
 *     x <= 100:   39 - 5 log x - 25 log phi from phi_m to 48;  -3 - 5 log x
 *     above 70 GHz the law runs to 120 degrees, the floor is 10 dB lower
 *
 * @returns the pattern, for `referenceGainDbi`; 1 to 86 GHz, outside a remark
 * @see Rec. ITU-R F.1245-3 recommends 2. Read in implementations, see METHOD.
 */
export function f1245(dish: ReferenceDish): Outcome<{ readonly pattern: ReferencePattern }> {
  return referencePattern(dish, 1, averageLobes);
}

/**
 * The pattern with its lobes and nulls, for a single entry whose geometry varies in time or has many angles.
 *
 *     F(phi) = 10 log(0.9 sin^2(3 pi phi/(2 phi_r)) + 0.1)
 *     x > 100:    phi_r = 15.85 x^-0.6;  32 - 25 log phi + F to 48 degrees;  -10 + F
 *     x <= 100:   phi_r = 39.8 x^-0.8;  42 - 5 log x - 25 log phi + F to 48;  -5 log x + F
 *     above 70 GHz the law runs to 120 degrees, the floor is 10 dB lower
 *
 * @see Rec. ITU-R F.1245-3 recommends 3. Read in one implementation, see METHOD.
 * @nofigure
 */
export function f1245WithLobes(dish: ReferenceDish): Outcome<{ readonly pattern: ReferencePattern }> {
  return referencePattern(dish, 1, rippledLobes);
}

function averageLobes(x: number, frequencyGHz: number): SideLobes {
  const logX = Math.log10(x);
  const { floorFromDeg, lowerDb } = floorOf(frequencyGHz);
  return x > 100
    ? { shelfToDeg: 12.02 * x ** -0.6, lawDbi: 29, floorFromDeg, floorDbi: -13 - lowerDb }
    : { shelfToDeg: 0, lawDbi: 39 - 5 * logX, floorFromDeg, floorDbi: -3 - 5 * logX - lowerDb };
}

function rippledLobes(x: number, frequencyGHz: number): SideLobes {
  const logX = Math.log10(x);
  const { floorFromDeg, lowerDb } = floorOf(frequencyGHz);
  const phiR = x > 100 ? 15.85 * x ** -0.6 : 39.8 * x ** -0.8;
  const law =
    x > 100
      ? { lawDbi: 32, floorDbi: -10 - lowerDb }
      : { lawDbi: 42 - 5 * logX, floorDbi: -5 * logX - lowerDb };
  return { shelfToDeg: phiR, rippleDeg: phiR, floorFromDeg, ...law };
}

function floorOf(frequencyGHz: number): { readonly floorFromDeg: number; readonly lowerDb: number } {
  return frequencyGHz > 70 ? { floorFromDeg: 120, lowerDb: 10 } : { floorFromDeg: 48, lowerDb: 0 };
}
