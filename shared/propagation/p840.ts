/** Attenuation by cloud and fog. Rec. ITU-R P.840-9 (08/2023); the coefficient is the same from P.840-6 on. */
import type { MethodReference } from "./method.js";
import { requireNotNegative, requirePositive } from "./required.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.840-9",
  section: "specific attenuation coefficient",
  title: "Specific attenuation by cloud and fog",
  status: "verified",
  note: "Coefficient checked against ITU-R Study Group 3 examples; fog densities and the 200 GHz limit are from memory. No figure of a hop counts fog.",
  usedByNoFigure: true,
  checked: {
    by: "ITU-R Study Group 3 values",
    vectors: ["p840"],
    tolerance: "1e-13",
  },
};

/** Fog on a path. */
export interface FogInput {
  readonly frequencyHz: number;
  readonly temperatureK: number;
}

/** The coefficient and the permittivity of water that leads to it. */
export interface LiquidWaterResult {
  /** Kl, (dB/km)/(g/m3). */
  readonly coefficient: number;
  /** Relative permittivity of water: real part, imaginary part. */
  readonly epsPrime: number;
  readonly epsDoublePrime: number;
  readonly eta: number;
}

/**
 * Specific attenuation coefficient of cloud and fog, for droplets small against the wavelength: up to 200 GHz, from
 * memory.
 *
 *     theta = 300/T
 *     eps0 = 77.66 + 103.3 (theta - 1),   eps1 = 0.0671 eps0,   eps2 = 3.52
 *     fp = 20.20 - 146 (theta - 1) + 316 (theta - 1)^2,   fs = 39.8 fp
 *     eps'' = f (eps0 - eps1)/(fp [1 + (f/fp)^2]) + f (eps1 - eps2)/(fs [1 + (f/fs)^2])
 *     eps' = (eps0 - eps1)/(1 + (f/fp)^2) + (eps1 - eps2)/(1 + (f/fs)^2) + eps2
 *     eta = (2 + eps')/eps''
 *     Kl = 0.819 f/(eps'' (1 + eta^2))    (dB/km)/(g/m3)
 *
 * f and the principal and secondary relaxation frequencies fp, fs in GHz, T in K. P.840-4 and -5 had other constants in
 * eps1, eps2, fp and fs.
 * @throws RangeError for a frequency or temperature that is not positive
 * @see Rec. ITU-R P.840-9, specific attenuation coefficient; permittivities and the mass absorption coefficient built
 *   on this one agree with ITU-R Study Group 3 examples to 1e-13
 */
export function liquidWaterCoefficient({ frequencyHz, temperatureK }: FogInput): LiquidWaterResult {
  requirePositive("frequencyHz", frequencyHz);
  const f = frequencyHz / 1e9;
  requirePositive("temperatureK", temperatureK);
  const theta = 300 / temperatureK;
  const eps0 = 77.66 + 103.3 * (theta - 1);
  const eps1 = 0.0671 * eps0;
  const eps2 = 3.52;
  const fp = 20.2 - 146 * (theta - 1) + 316 * (theta - 1) ** 2;
  const fs = 39.8 * fp;
  const first = 1 + (f / fp) ** 2;
  const second = 1 + (f / fs) ** 2;
  const epsDoublePrime = (f * (eps0 - eps1)) / (fp * first) + (f * (eps1 - eps2)) / (fs * second);
  const epsPrime = (eps0 - eps1) / first + (eps1 - eps2) / second + eps2;
  const eta = (2 + epsPrime) / epsDoublePrime;
  return { coefficient: (0.819 * f) / (epsDoublePrime * (1 + eta ** 2)), epsPrime, epsDoublePrime, eta };
}

/**
 * Specific attenuation by fog, `gamma_c = Kl M`, dB/km.
 * @param liquidWaterGm3 M, >= 0: about 0.05 in medium fog (visibility 300 m), 0.5 in thick fog (50 m); both from
 *   memory, not checked against the Recommendation
 * @see Rec. ITU-R P.840-9, specific attenuation coefficient
 * @nofigure
 */
export function specificFogAttenuationDbPerKm(input: FogInput, liquidWaterGm3: number): number {
  requireNotNegative("liquidWaterGm3", liquidWaterGm3);
  return liquidWaterCoefficient(input).coefficient * liquidWaterGm3;
}
