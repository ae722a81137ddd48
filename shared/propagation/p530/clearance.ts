import type { MethodReference } from "../method.js";
import { figures, notFinite, notPositive, type Outcome, refuse } from "../outcome.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.2.1",
  title: "Diffraction loss over average terrain",
  status: "verified",
  note: "Equations 2 and 3, read in two implementations that agree. Fair above about 15 dB of loss.",
  usedByNoFigure: true,
  checked: {
    by: "two independent computations of each step",
    vectors: ["clearance"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

export interface AverageTerrainSteps {
  readonly d1Km: number;
  readonly d2Km: number;
  readonly F1M: number;
  /** Rise of the earth above the chord, already to be contained in the height over the obstacle. */
  readonly bulgeM: number;
  readonly hOverF1: number;
  /** Equation 2 as printed; negative where there is no loss. */
  readonly AdDb: number;
}

/**
 * Diffraction loss over average terrain, between the knife edge (least) and the smooth earth (most).
 *
 *     Ad = -20 h/F1 + 10                  dB    (2)
 *     F1 = 17.3 sqrt(d1 d2/(f d))         m     (3), d1, d2, d in km, f in GHz
 *
 * Grazing loses 10 dB, a clearance of 0.6 F1 none.
 * @param inputs.rayHeightM h, the height of the ray above the obstacle with the bulge added to the obstacle; negative
 *   when the obstacle stands above the ray
 * @param inputs.obstacleDistanceM from one end, inside the path
 * @returns lossDb >= 0; a validity note below 15 dB, where the formula is only rough
 * @see Rec. ITU-R P.530-18 section 2.2.1 eq (2) and (3). Verified.
 * @nofigure
 */
export function averageTerrainLoss(inputs: {
  readonly distanceM: number;
  readonly obstacleDistanceM: number;
  readonly frequencyHz: number;
  readonly k: number;
  readonly rayHeightM: number;
}): Outcome<{ readonly lossDb: number; readonly steps: AverageTerrainSteps }> {
  const { distanceM, obstacleDistanceM, frequencyHz, k, rayHeightM } = inputs;
  const unusable = notPositive({ distanceM, obstacleDistanceM, frequencyHz, k }) ?? notFinite({ rayHeightM });
  if (unusable) return refuse(unusable);
  if (obstacleDistanceM >= distanceM) return refuse({ code: "obstacle-off-path" });
  const d1Km = obstacleDistanceM / 1000;
  const d2Km = (distanceM - obstacleDistanceM) / 1000;
  const F1M = firstFresnelRadiusM(d1Km, d2Km, frequencyHz / 1e9);
  const AdDb = (-20 * rayHeightM) / F1M + 10;
  const steps = { d1Km, d2Km, F1M, bulgeM: bulgeM(d1Km, d2Km, k), hOverF1: rayHeightM / F1M, AdDb };
  return figures({ lossDb: Math.max(AdDb, 0), steps }, [
    AdDb < 0 ? { code: "formula-negative" } : undefined,
    AdDb >= 0 && AdDb < 15 ? { code: "rough-below-15-db" } : undefined,
  ]);
}

/** With the printed constant: exactly it is 17.31. */
function firstFresnelRadiusM(d1Km: number, d2Km: number, f: number): number {
  return 17.3 * Math.sqrt((d1Km * d2Km) / (f * (d1Km + d2Km)));
}

/** `d1 d2/(12.74 k)`, m: 12.74 is 2 a/1000 for a = 6371 km. */
function bulgeM(d1Km: number, d2Km: number, k: number): number {
  return (d1Km * d2Km) / (12.74 * k);
}
