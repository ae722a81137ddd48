/** Reference radiation pattern of a fixed link's antenna, envelope of its side lobes. Rec. ITU-R F.699-8 (2018). */
import type { MethodReference } from "../propagation/method.js";
import type { Outcome } from "../propagation/outcome.js";
import {
  type ReferenceDish,
  type ReferencePattern,
  referencePattern,
  type SideLobes,
} from "./reference-pattern.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R F.699-8",
  section: "recommends 2",
  title: "Antenna reference pattern, envelope of side lobes",
  status: "read in implementations",
  note:
    "Read in one implementation of F.699-8 and, for 1 to 70 GHz, in a second of F.699-7. The branches meet within " +
    "0.04 dB, so that the constants confirm each other.",
  checked: {
    by: "two own formulations; a public implementation for 1 to 70 GHz",
    vectors: ["antenna-patterns"],
    tolerance: "1e-4 dB (four decimals given)",
  },
};

/**
 * Envelope of the side lobes: for a single entry of interference and for coordination.
 *
 *     1 to 70 GHz, x > 100:    phi_r = 15.85 x^-0.6;  G1 to phi_r;  32 - 25 log phi to 48 degrees;  -10
 *     1 to 70 GHz, x <= 100:   G1 to 100/x;  52 - 10 log x - 25 log phi to 48;  10 - 10 log x
 *     above 70 GHz:            as these, but the law runs to 120 degrees, the floor is 10 dB lower
 *     below 1 GHz, x > 0.63:   G1 to 100/x;  52 - 10 log x - 25 log phi to 144.5 x^-0.2;  -2 - 5 log x
 *
 * phi_m, G1 and the main beam: reference-pattern.ts. Where phi_m is beyond phi_r the law begins at phi_m (F.1245 says
 * so, F.699 does not).
 * @returns the pattern, for `referenceGainDbi`; 0.1 to 86 GHz, outside a remark
 * @see Rec. ITU-R F.699-8 recommends 2.1 to 2.3. Read in implementations, see METHOD.
 */
export function f699(dish: ReferenceDish): Outcome<{ readonly pattern: ReferencePattern }> {
  return referencePattern(dish, 0.1, sideLobes);
}

function sideLobes(x: number, frequencyGHz: number): SideLobes | undefined {
  const logX = Math.log10(x);
  if (frequencyGHz < 1) {
    if (x <= 0.63) return undefined;
    const floor = { floorFromDeg: 144.5 * x ** -0.2, floorDbi: -2 - 5 * logX };
    return { shelfToDeg: 100 / x, lawDbi: 52 - 10 * logX, ...floor };
  }
  const high = frequencyGHz > 70;
  const floorFromDeg = high ? 120 : 48;
  const lowerDb = high ? 10 : 0;
  return x > 100
    ? { shelfToDeg: 15.85 * x ** -0.6, lawDbi: 32, floorFromDeg, floorDbi: -10 - lowerDb }
    : { shelfToDeg: 100 / x, lawDbi: 52 - 10 * logX, floorFromDeg, floorDbi: 10 - 10 * logX - lowerDb };
}
