import type { MethodReference } from "../method.js";
import {
  figures,
  negative,
  notFinite,
  notPositive,
  type Outcome,
  outside,
  refuse,
  type TimeShare,
} from "../outcome.js";
import { pathMultiplier } from "./melting-layer.js";
import {
  belowRange,
  GREATEST_RAIN_PERCENT,
  LEAST_RAIN_PERCENT,
  MORE_THAN_RANGE,
  NO_RAIN,
  percentByLaw,
  RARER_THAN_RANGE,
  type RainDistribution,
  type RareOutage,
  rainAttenuationAtLog,
  rainTimeForMargin,
} from "./rain.js";
import { RAIN_HEIGHT_DISTRIBUTION } from "./rain-height.data.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.4.2",
  title: "Rain and wet snow combined, average year",
  status: "read in implementations",
  note:
    "The multipliers and the rain height table are verified. The summation over rain heights is by analogy with attachment C.3 " +
    "of P.2001. The table of rain alone is carried to 0.001 %; the one reading known stops it at the first step below 0.1 dB, " +
    "which on a path wholly in rain contradicts section 2.4.1 by several decibels. Below 0.001 % of the year, outside the range, " +
    "the law of rain alone is continued in place of the table's end, an estimate as in section 2.4.1.",
  checked: {
    by: "two independent computations of each step",
    vectors: ["rain-wet-snow"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

/** Where the path lies in the precipitation. */
type PrecipitationZone = "rain only" | "combined" | "none";

/** Prepared once a hop and frequency. */
export interface PrecipitationDistribution {
  readonly zone: PrecipitationZone;
  readonly law: RainDistribution;
  /** log10 of the share of time (percent) of each entry of the rain-only table, falling. */
  readonly logT: readonly number[];
  /** Rain-only attenuation of each entry, dB, rising from 0. */
  readonly attenuationDb: readonly number[];
  /** Path multipliers above 0, each with the probability of the rain heights that have it. */
  readonly multipliers: readonly { readonly g: number; readonly probability: number }[];
}

export interface PrecipitationInputs {
  /** From section 2.4.1. */
  readonly law: RainDistribution;
  /** Antenna centres, m above sea level. */
  readonly antenna1AslM: number;
  readonly antenna2AslM: number;
  /** Mean rain height, m above sea level: 1000 (h0 + 0.36) with h0 (km) of Rec. ITU-R P.839-4. */
  readonly meanRainHeightM: number;
  /** Share of an average year with rain, from Rec. ITU-R P.837, percent, > 0. */
  readonly rainProbabilityPercent: number;
  /**
   * End the rain-only table at its first step below 0.1 dB, as one implementation does. Only to compare with it:
   * deeper attenuation then falls a decade of time a decibel, and the result is far too small.
   */
  readonly stopAtSmallStep?: boolean;
}

/**
 * Prepares the combined distribution of rain and wet snow. With the lower and the higher antenna at hlo and hhi and the
 * mean rain height hrainm = 1000 (h0 + 0.36), all m above sea level:
 *
 *     hhi <= hrainm - 3600:  rain only, section 2.4.1
 *     hlo >= hrainm + 2400:  no attenuation by precipitation
 *     else:                  both, `precipitationPercent`
 *
 * The table of rain alone, with P0 the share of time with rain:
 *
 *     Tn = P0 10^(-0.1 n),   An = attenuation by rain alone at Tn;   T0 = P0, A0 = 0
 *
 * @see Rec. ITU-R P.530-18 section 2.4.2. Read in implementations, see METHOD.
 */
export function precipitationDistribution(
  inputs: PrecipitationInputs,
): Outcome<{ readonly distribution: PrecipitationDistribution }> {
  const { law, antenna1AslM, antenna2AslM, meanRainHeightM, rainProbabilityPercent } = inputs;
  const unusable =
    notFinite({ antenna1AslM, antenna2AslM, meanRainHeightM }) ??
    notPositive({ rainProbabilityPercent }) ??
    outside({ rainProbabilityPercent }, 0, 100) ??
    negative({ attenuation001Db: law.A001Db });
  if (unusable) return refuse(unusable);
  const low = Math.min(antenna1AslM, antenna2AslM);
  const high = Math.max(antenna1AslM, antenna2AslM);
  const table = rainOnlyTable(law, rainProbabilityPercent, inputs.stopAtSmallStep ?? false);
  const multipliers = multipliersOf(meanRainHeightM, low, high);
  return figures({ distribution: { zone: zoneOf(low, high, meanRainHeightM), law, ...table, multipliers } });
}

type Multipliers = PrecipitationDistribution["multipliers"];

/** Those prepared last: both directions of a hop ask for the same. */
let last: { readonly key: readonly number[]; readonly multipliers: Multipliers } | undefined;

function multipliersOf(meanRainHeightM: number, lowM: number, highM: number): Multipliers {
  const key = [meanRainHeightM, lowM, highM];
  if (last?.key.every((value, i) => value === key[i])) return last.multipliers;
  last = { key, multipliers: grouped(meanRainHeightM, lowM, highM) };
  return last.multipliers;
}

/** Neighbouring rain heights of one multiplier (all those far above the path have 1) count as one. */
function grouped(meanRainHeightM: number, lowM: number, highM: number): Multipliers {
  const multipliers: { g: number; probability: number }[] = [];
  for (const [aboveMeanM, probability] of RAIN_HEIGHT_DISTRIBUTION) {
    const g = pathMultiplier(meanRainHeightM + aboveMeanM, lowM, highM);
    const last = multipliers.at(-1);
    if (last?.g === g) last.probability += probability;
    else if (g > 0) multipliers.push({ g, probability });
  }
  return multipliers;
}

/**
 * Percent of the average year in which precipitation takes more than an attenuation A (> 0 dB). Lean.
 *
 *     p(A) = sum_i P_i T(A/g_i),   g_i > 0
 *
 * P_i is the probability of the i-th rain height, g_i the path's multiplier for it, T the share of time in which rain
 * alone takes so much.
 * @see Rec. ITU-R P.530-18 section 2.4.2. The sum by analogy with attachment C.3 of P.2001, see METHOD.
 */
export function precipitationPercent(distribution: PrecipitationDistribution, attenuationDb: number): number {
  if (distribution.zone === "none") return 0;
  if (distribution.zone === "rain only") return rainTableTime(distribution, attenuationDb);
  let sum = 0;
  for (const { g, probability } of distribution.multipliers) {
    sum += probability * rainTableTime(distribution, attenuationDb / g);
  }
  return sum;
}

/**
 * Share of the average year in which rain and wet snow take more than a margin; above 1 % and below 0.001 % as for
 * rain. A path above all precipitation gets 0 %.
 * @see Rec. ITU-R P.530-18 section 2.4.2, the sum of `precipitationPercent`
 */
export function precipitationTimeForMargin(
  distribution: PrecipitationDistribution,
  marginDb: number,
  rare: RareOutage,
): TimeShare {
  if (!(marginDb > 0)) return MORE_THAN_RANGE;
  if (distribution.zone === "none" || !(distribution.law.A001Db > 0)) return NO_RAIN;
  if (distribution.zone === "rain only") return rainTimeForMargin(distribution.law, marginDb, rare);
  const timePercent = precipitationPercent(distribution, marginDb);
  if (timePercent > GREATEST_RAIN_PERCENT) return MORE_THAN_RANGE;
  if (timePercent >= LEAST_RAIN_PERCENT) return { timePercent };
  // Inside the range the table with its own end holds, so that no figure there hangs on the continuation.
  return rare === "bound" ? RARER_THAN_RANGE : belowRange(continuedPercent(distribution, marginDb));
}

/** The same with the law of rain in place of the table's end. */
function continuedPercent(distribution: PrecipitationDistribution, attenuationDb: number): number {
  const { law, multipliers } = distribution;
  const tableEndsDb = distribution.attenuationDb.at(-1)!;
  let sum = 0;
  for (const { g, probability } of multipliers) {
    const ofRainDb = attenuationDb / g;
    if (ofRainDb > law.greatestDb) continue;
    sum +=
      probability *
      (ofRainDb > tableEndsDb ? percentByLaw(law, ofRainDb) : rainTableTime(distribution, ofRainDb));
  }
  return sum;
}

function zoneOf(lowM: number, highM: number, meanRainHeightM: number): PrecipitationZone {
  if (highM <= meanRainHeightM - 3600) return "rain only";
  return lowM >= meanRainHeightM + 2400 ? "none" : "combined";
}

function rainOnlyTable(law: RainDistribution, probabilityPercent: number, stopAtSmallStep: boolean) {
  const logT = [Math.log10(probabilityPercent)];
  const attenuationDb = [0];
  for (let n = 1; logT.at(-1)! >= -3; n++) {
    const logTn = logT[0]! - 0.1 * n;
    const before = attenuationDb.at(-1)!;
    const attenuation = rainAttenuationAtLog(law, logTn);
    logT.push(logTn);
    attenuationDb.push(attenuation);
    if (stopAtSmallStep && attenuation - before <= 0.1) break;
  }
  return { logT, attenuationDb };
}

const NEGLIGIBLE_DB = 20;

/**
 * Share of time of a rain-only attenuation, percent: log-linear in the table, beyond its end
 *
 *     T = 10^(A_last - A + log T_last)
 */
function rainTableTime({ logT, attenuationDb }: PrecipitationDistribution, attenuation: number): number {
  const last = attenuationDb.length - 1;
  // A decade a decibel: after so many it is nothing beside any share that is asked for.
  if (attenuation > attenuationDb[last]! + NEGLIGIBLE_DB) return 0;
  if (attenuation > attenuationDb[last]!)
    return Math.exp(Math.LN10 * (attenuationDb[last]! - attenuation + logT[last]!));
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (attenuationDb[middle]! < attenuation) low = middle;
    else high = middle;
  }
  const spanDb = attenuationDb[high]! - attenuationDb[low]!;
  const share = spanDb > 0 ? (attenuation - attenuationDb[low]!) / spanDb : 1;
  return Math.exp(Math.LN10 * (logT[low]! + share * (logT[high]! - logT[low]!)));
}
