import type { MethodReference } from "../method.js";
import { figures, negative, notFinite, notPositive, type Outcome, outsideRange, refuse } from "../outcome.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.3.1",
  title: "Deep multipath fading, average worst month",
  status: "verified",
  note: "From the maps of logK and dN75. Read in two implementations that agree, and run against both.",
  checked: {
    by: "two independent computations of each step; two public implementations run",
    vectors: ["multipath-p530-18"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

/** Above this the formula speaks of sub-refractive diffraction, not of multipath. */
export const HIGHEST_OCCURRENCE_PERCENT = 1000;

/** Up to this length multipath need not be reckoned with. */
export const SHORTEST_PATH_M = 5000;

export interface MultipathSteps {
  readonly K: number;
  /** Path inclination, mrad. */
  readonly epMrad: number;
  /** Mean clearance over the terrain for k = 4/3, m. */
  readonly hcM: number;
  /** Lower antenna, m above sea level. */
  readonly hLM: number;
  readonly vsrlim: number;
  readonly vsrUnlimited: number;
  readonly vsr: number;
  /** Exponent of ten at A = 0. */
  readonly exponent: number;
  /** d^3.51 (f^2 + 13)^0.447. */
  readonly distanceFrequencyFactor: number;
  /** The formula at A = 0, percent. */
  readonly p0Percent: number;
}

export interface MultipathInputs {
  /** log10 of the geoclimatic factor at the path. */
  readonly logK: number;
  /** Refractivity increase over the lowest 75 m, 0.1 % of the average worst month, N-units, >= 0. */
  readonly dN75: number;
  /** > 0. */
  readonly distanceM: number;
  readonly frequencyHz: number;
  /** Antenna centres, m above sea level. */
  readonly antenna1AslM: number;
  readonly antenna2AslM: number;
  /** Mean height of the terrain along the path without trees, m above sea level. */
  readonly meanTerrainAslM: number;
}

/**
 * Multipath occurrence factor p0: the deep tail of the average worst month, pw(A) in %, at A = 0.
 *
 *     K = 10^logK
 *     ep = |hr - he|/d                                                     mrad
 *     hc = (hr + he)/2 - d^2/102 - ht                                      m, mean clearance, k = 4/3
 *     hL = min(he, hr)
 *     vsrlim = dN75 d^1.5 f^0.5/24730
 *     vsr = min((dN75/50)^1.8 exp(-hc/(2.5 sqrt d)), vsrlim)
 *     pw = K d^3.51 (f^2 + 13)^0.447
 *          10^(-0.376 tanh((hc - 147)/125) - 0.334 ep^0.39 - 0.00027 hL + 17.85 vsr - A/10)
 *
 * d in km, f in GHz; antennas he, hr and mean terrain ht in m above sea level.
 * @returns occurrencePercent, 0 (and `needed` false) on paths up to 5 km; may exceed 100, it is no share of time.
 *   Refused, with the steps, where the antennas do not clear the mean terrain (hc < 0) and above 1000 %: such a
 *   path fades by sub-refractive diffraction and needs clearance.
 * @see Rec. ITU-R P.530-18 section 2.3.1. Verified. Frequencies from 15/d (km) to 45 GHz.
 */
export function multipathOccurrence(
  inputs: MultipathInputs,
): Outcome<
  { readonly occurrencePercent: number; readonly needed: boolean; readonly steps: MultipathSteps },
  MultipathSteps
> {
  const { logK, dN75, distanceM, frequencyHz, antenna1AslM, antenna2AslM, meanTerrainAslM } = inputs;
  const unusable =
    notPositive({ distanceM, frequencyHz }) ??
    negative({ dN75 }) ??
    notFinite({ logK, antenna1AslM, antenna2AslM, meanTerrainAslM });
  if (unusable) return refuse(unusable);
  const steps = multipathSteps(inputs);
  if (steps.hcM < 0) {
    return refuse({ code: "antennas-below-mean-terrain" }, steps);
  }
  const needed = distanceM > SHORTEST_PATH_M;
  if (needed && !(steps.p0Percent <= HIGHEST_OCCURRENCE_PERCENT)) {
    return refuse({ code: "sub-refractive-diffraction" }, steps);
  }
  return figures({ occurrencePercent: needed ? steps.p0Percent : 0, needed, steps }, [
    needed
      ? outsideRange(frequencyHz / 1e9, Number((15_000 / distanceM).toPrecision(3)), 45, "frequency", "GHz")
      : undefined,
  ]);
}

function multipathSteps(inputs: MultipathInputs): MultipathSteps {
  const d = inputs.distanceM / 1000;
  const f = inputs.frequencyHz / 1e9;
  const he = inputs.antenna1AslM;
  const hr = inputs.antenna2AslM;
  const K = 10 ** inputs.logK;
  const epMrad = Math.abs(hr - he) / d;
  // d^2/102 is the mean over the path of the bulge d1 d2/(12.74 k) for k = 4/3.
  const hcM = (hr + he) / 2 - d ** 2 / 102 - inputs.meanTerrainAslM;
  const hLM = Math.min(he, hr);
  const vsrlim = (inputs.dN75 * d ** 1.5 * Math.sqrt(f)) / 24730;
  const vsrUnlimited = (inputs.dN75 / 50) ** 1.8 * Math.exp(-hcM / (2.5 * Math.sqrt(d)));
  const vsr = Math.min(vsrUnlimited, vsrlim);
  const exponent =
    -0.376 * Math.tanh((hcM - 147) / 125) - 0.334 * epMrad ** 0.39 - 0.00027 * hLM + 17.85 * vsr;
  const distanceFrequencyFactor = d ** 3.51 * (f ** 2 + 13) ** 0.447;
  const p0Percent = K * distanceFrequencyFactor * 10 ** exponent;
  return { K, epMrad, hcM, hLM, vsrlim, vsrUnlimited, vsr, exponent, distanceFrequencyFactor, p0Percent };
}
