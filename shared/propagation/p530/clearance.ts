import type { MethodReference } from "../method.js";
import { figures, notFinite, notPositive, type Outcome, refuse } from "../outcome.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.2.1",
  title: "Diffraction loss over average terrain",
  status: "verified",
  note: "Equations 2 and 3, read in two implementations that agree. Fair above about 15 dB of loss.",
};

export const METHOD_HEIGHTS: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.2.2",
  title: "Clearance criteria for antenna heights",
  status: "from memory",
  note:
    "The two-stage rule is from memory, not checked against the Recommendation. " +
    "The curve of the effective radius factor exceeded for 99.9 % of the worst month is not included: state that factor.",
};

/** The ray must clear every obstacle by this share of the first Fresnel radius when the earth has this factor. */
export interface ClearanceCriterion {
  /** Effective earth radius factor, dimensionless. */
  readonly k: number;
  /** 0 = grazing, 1 = the whole first Fresnel zone. */
  readonly fresnelFraction: number;
}

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
 * @param inputs.rayHeightM height of the ray above the obstacle with the bulge added to the obstacle; negative
 *   when the obstacle stands above the ray
 * @param inputs.obstacleDistanceM from one end, inside the path
 * @returns lossDb >= 0; a validity note below 15 dB, where the formula is only rough
 * @see Rec. ITU-R P.530-18 section 2.2.1, equations 2 and 3. Verified.
 */
export function averageTerrainLoss(inputs: {
  readonly distanceM: number;
  readonly obstacleDistanceM: number;
  readonly frequencyGHz: number;
  readonly k: number;
  readonly rayHeightM: number;
}): Outcome<{ readonly lossDb: number; readonly steps: AverageTerrainSteps }> {
  const { distanceM, obstacleDistanceM, frequencyGHz, k, rayHeightM } = inputs;
  const unusable =
    notPositive({ distanceM, obstacleDistanceM, frequencyGHz, k }) ?? notFinite({ rayHeightM });
  if (unusable) return refuse(unusable);
  if (obstacleDistanceM >= distanceM)
    return refuse("The obstacle does not stand between the ends of the path.");
  const d1Km = obstacleDistanceM / 1000;
  const d2Km = (distanceM - obstacleDistanceM) / 1000;
  const F1M = firstFresnelRadiusM(d1Km, d2Km, frequencyGHz);
  const AdDb = (-20 * rayHeightM) / F1M + 10;
  const steps = { d1Km, d2Km, F1M, bulgeM: bulgeM(d1Km, d2Km, k), hOverF1: rayHeightM / F1M, AdDb };
  return figures({ lossDb: Math.max(AdDb, 0), steps }, [
    AdDb < 0 ? "The formula is negative here: there is no diffraction loss." : undefined,
    AdDb >= 0 && AdDb < 15 ? "The formula is fair above about 15 dB of loss; below it is rough." : undefined,
  ]);
}

/**
 * Height that a straight line between the antennas must have above an obstacle's top so that a criterion is met:
 * the earth's bulge for the criterion's k plus its share of the first Fresnel radius.
 *
 * @see Rec. ITU-R P.530-18 section 2.2, equation 3; bulge d1 d2/(12.74 k). Verified.
 */
export function requiredHeightAboveObstacle(inputs: {
  readonly criterion: ClearanceCriterion;
  readonly distanceM: number;
  readonly obstacleDistanceM: number;
  readonly frequencyGHz: number;
}): Outcome<{ readonly heightM: number; readonly steps: { readonly F1M: number; readonly bulgeM: number } }> {
  const { criterion, distanceM, obstacleDistanceM, frequencyGHz } = inputs;
  const unusable =
    notPositive({ distanceM, obstacleDistanceM, frequencyGHz, k: criterion.k }) ??
    notFinite({ fresnelFraction: criterion.fresnelFraction });
  if (unusable) return refuse(unusable);
  if (obstacleDistanceM >= distanceM)
    return refuse("The obstacle does not stand between the ends of the path.");
  const d1Km = obstacleDistanceM / 1000;
  const d2Km = (distanceM - obstacleDistanceM) / 1000;
  const F1M = firstFresnelRadiusM(d1Km, d2Km, frequencyGHz);
  const bulge = bulgeM(d1Km, d2Km, criterion.k);
  return figures({ heightM: bulge + criterion.fresnelFraction * F1M, steps: { F1M, bulgeM: bulge } });
}

/**
 * Criteria for the antennas of a path without diversity, or for the upper one with it. All must hold.
 *
 * @param inputs.kExceeded999 effective radius factor exceeded for about 99.9 % of the worst month at this path
 *   length: to be stated, there is no default
 * @param inputs.medianK 4/3 where nothing better is known
 * @see Rec. ITU-R P.530-18 section 2.2.2.1. From memory, not checked against the Recommendation.
 */
export function heightCriteria(inputs: {
  readonly climate: "temperate" | "tropical";
  readonly obstruction: "isolated" | "extended";
  readonly distanceM: number;
  readonly kExceeded999: number;
  readonly medianK?: number;
}): Outcome<{ readonly criteria: readonly ClearanceCriterion[] }> {
  const { climate, obstruction, distanceM, kExceeded999, medianK = 4 / 3 } = inputs;
  const unusable = notPositive({ distanceM, kExceeded999, medianK });
  if (unusable) return refuse(unusable);
  const lowK = climate === "tropical" ? 0.6 : obstruction === "extended" ? 0.3 : 0;
  return figures(
    {
      criteria: [
        { k: medianK, fresnelFraction: 1 },
        { k: kExceeded999, fresnelFraction: lowK },
      ],
    },
    [
      climate === "tropical" && distanceM <= 30_000
        ? "The tropical rule speaks of paths longer than about 30 km; it is applied to this shorter one as well."
        : undefined,
    ],
  );
}

/**
 * Criterion for the lower antenna of space diversity: a range, the low end of which is for existing masts or
 * frequencies below 2 GHz.
 *
 * @see Rec. ITU-R P.530-18 section 2.2.2.2. From memory, not checked against the Recommendation.
 */
export function lowerAntennaCriteria(inputs: {
  readonly obstruction: "isolated" | "extended";
  readonly medianK?: number;
}): Outcome<{ readonly preferred: ClearanceCriterion; readonly least: ClearanceCriterion }> {
  const { obstruction, medianK = 4 / 3 } = inputs;
  const unusable = notPositive({ medianK });
  if (unusable) return refuse(unusable);
  const [preferred, least] = obstruction === "extended" ? [0.6, 0.3] : [0.3, 0];
  return figures({
    preferred: { k: medianK, fresnelFraction: preferred! },
    least: { k: medianK, fresnelFraction: least! },
  });
}

/** Equation 3, with the printed constant. */
function firstFresnelRadiusM(d1Km: number, d2Km: number, frequencyGHz: number): number {
  return 17.3 * Math.sqrt((d1Km * d2Km) / (frequencyGHz * (d1Km + d2Km)));
}

function bulgeM(d1Km: number, d2Km: number, k: number): number {
  return (d1Km * d2Km) / (12.74 * k);
}
