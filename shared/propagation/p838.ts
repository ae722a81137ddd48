/** Specific attenuation by rain. Rec. ITU-R P.838-3 (03/2005). */
import type { MethodReference } from "./method.js";
import { outsideRange } from "./outcome.js";
import {
  ALPHA_HORIZONTAL,
  ALPHA_VERTICAL,
  LOG_K_HORIZONTAL,
  LOG_K_VERTICAL,
  type Regression,
} from "./p838-coefficients.data.js";
import type { Remark } from "./remark.js";
import { requireFinite, requirePositive } from "./required.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.838-3",
  section: "eq (1) to (5)",
  title: "Specific attenuation by rain",
  status: "verified",
  note: "Agrees with the ITU-R Study Group 3 examples to 13 digits.",
  checked: {
    by: "published values of Study Group 3 and the table of older editions",
    vectors: ["p838"],
    tolerance: "1e-13; 5e-6 and 1.2e-3 for rounded tables",
  },
};

/** A wave that meets rain. */
export interface RainWave {
  /** 1 to 1000, see `rainValidity`. */
  readonly frequencyHz: number;
  /** Tilt of the polarization from the horizontal: 0 horizontal, 90 vertical, 45 circular. */
  readonly polarizationTiltDeg: number;
  /** Elevation of the path; 0 (default) for a terrestrial hop. */
  readonly elevationDeg?: number;
}

/** k and alpha of `gamma_R = k R^alpha` (1), gamma_R in dB/km, R in mm/h. */
export interface RainCoefficients {
  readonly k: number;
  readonly alpha: number;
}

/**
 * k and alpha for any linear or circular polarization. For H and V each, f in GHz, with the constants of their tables:
 *
 *     log k = sum_{j=1..4} a_j exp[-((log f - b_j)/c_j)^2] + m_k log f + c_k       (2)
 *     alpha = sum_{j=1..5} a_j exp[-((log f - b_j)/c_j)^2] + m_a log f + c_a       (3)
 *
 * and of both, for a path elevation el and a polarization tilt tau:
 *
 *     k = [kH + kV + (kH - kV) cos^2(el) cos(2 tau)]/2                             (4)
 *     alpha = [kH aH + kV aV + (kH aH - kV aV) cos^2(el) cos(2 tau)]/(2 k)         (5)
 *
 * @throws RangeError for a frequency that is not positive or angles that are not finite
 * @see Rec. ITU-R P.838-3 eq (2) to (5); 112 ITU-R Study Group 3 values checked to 1e-14
 * @example rainCoefficients({ frequencyHz: 18e9, polarizationTiltDeg: 90 }) // k 0.0771, alpha 1.0025
 */
export function rainCoefficients(wave: RainWave): RainCoefficients {
  const { frequencyHz, polarizationTiltDeg: tau, elevationDeg: el = 0 } = wave;
  requirePositive("frequencyHz", frequencyHz);
  requireFinite("polarizationTiltDeg", tau);
  requireFinite("elevationDeg", el);
  const logF = Math.log10(frequencyHz / 1e9);
  // Plain horizontal and vertical need one pair only, and come out as the tables have them.
  if (el === 0 && tau === 0) return horizontal(logF);
  if (el === 0 && tau === 90) return vertical(logF);

  const { k: kH, alpha: aH } = horizontal(logF);
  const { k: kV, alpha: aV } = vertical(logF);
  const mix = Math.cos((el * Math.PI) / 180) ** 2 * Math.cos((2 * tau * Math.PI) / 180);
  const k = (kH + kV + (kH - kV) * mix) / 2; // eq (4)
  const alpha = (kH * aH + kV * aV + (kH * aH - kV * aV) * mix) / (2 * k); // eq (5)
  return { k, alpha };
}

/** Where the frequency leaves the stated range. @see Rec. ITU-R P.838-3: 1 to 1000 GHz */
export function coefficientValidity({ frequencyHz }: Pick<RainWave, "frequencyHz">): readonly Remark[] {
  const remark = outsideRange(frequencyHz / 1e9, 1, 1000, "frequency", "GHz");
  return remark === undefined ? [] : [remark];
}

function horizontal(logF: number): RainCoefficients {
  return { k: 10 ** regression(LOG_K_HORIZONTAL, logF), alpha: regression(ALPHA_HORIZONTAL, logF) };
}

function vertical(logF: number): RainCoefficients {
  return { k: 10 ** regression(LOG_K_VERTICAL, logF), alpha: regression(ALPHA_VERTICAL, logF) };
}

/** The right side of eq (2) and (3). */
function regression({ terms, m, constant }: Regression, logF: number): number {
  let sum = m * logF + constant;
  for (const [a, b, c] of terms) sum += a * Math.exp(-(((logF - b) / c) ** 2));
  return sum;
}
