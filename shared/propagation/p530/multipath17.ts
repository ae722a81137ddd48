import type { MethodReference } from "../method.js";
import { figures, negative, notFinite, notPositive, type Outcome, outsideRange, refuse } from "../outcome.js";
import { HIGHEST_OCCURRENCE_PERCENT, SHORTEST_PATH_M } from "./multipath.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-17",
  section: "2.3.1",
  title: "Deep multipath fading from the refractivity gradient dN1",
  status: "read in implementations",
  note:
    "Editions 13 to 17, superseded by P.530-18. Initial planning: the constants also stand in the reference code of P.2001. " +
    "Detailed: read in one implementation.",
  checked: {
    by: "two independent computations of each step",
    vectors: ["multipath-p530-17"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

export interface Multipath17Steps {
  readonly K: number;
  readonly epMrad: number;
  readonly hLM: number;
  readonly p0Percent: number;
}

export interface Multipath17Inputs {
  /** Refractivity gradient in the lowest 65 m not exceeded for 1 % of an average year, N/km (mostly negative). */
  readonly dN1: number;
  /** sa, standard deviation of terrain heights in 110 km x 110 km, m: the detailed method; absent: initial planning. */
  readonly terrainRoughnessM?: number;
  readonly distanceM: number;
  readonly frequencyHz: number;
  /** Antenna centres, m above sea level. */
  readonly antenna1AslM: number;
  readonly antenna2AslM: number;
}

/**
 * Multipath occurrence factor p0 of the older editions, for those who hold dN1 rather than logK and dN75: pw at A = 0.
 * Initial planning, without the terrain roughness sa:
 *
 *     K = 10^(-4.6 - 0.0027 dN1)
 *     pw = K d^3.1 (1 + ep)^-1.29 f^0.8 10^(-0.00089 hL - A/10)
 *
 * Detailed, with it:
 *
 *     K = 10^(-4.4 - 0.0027 dN1) (10 + sa)^-0.46
 *     pw = K d^3.4 (1 + ep)^-1.03 f^0.8 10^(-0.00076 hL - A/10)
 *
 * d in km, f in GHz, ep = |hr - he|/d in mrad, hL = min(he, hr) in m above sea level.
 * @returns occurrencePercent, 0 (and `needed` false) on paths up to 5 km; refused above 1000 %
 * @see Rec. ITU-R P.530-17 section 2.3.1. Read in implementations. The tested range (7.5 to 185 km, 0.45 to 37 GHz,
 *   up to 37 mrad) is from memory.
 */
export function multipathOccurrence17(
  inputs: Multipath17Inputs,
): Outcome<
  { readonly occurrencePercent: number; readonly needed: boolean; readonly steps: Multipath17Steps },
  Multipath17Steps
> {
  const { dN1, terrainRoughnessM, distanceM, frequencyHz, antenna1AslM, antenna2AslM } = inputs;
  const unusable =
    notPositive({ distanceM, frequencyHz }) ??
    negative({ terrainRoughnessM: terrainRoughnessM ?? 0 }) ??
    notFinite({ dN1, antenna1AslM, antenna2AslM });
  if (unusable) return refuse(unusable);
  const steps =
    terrainRoughnessM === undefined ? planningSteps(inputs) : detailedSteps(inputs, terrainRoughnessM);
  const needed = distanceM > SHORTEST_PATH_M;
  if (needed && !(steps.p0Percent <= HIGHEST_OCCURRENCE_PERCENT)) {
    return refuse({ code: "beyond-fit" }, steps);
  }
  const validity = needed
    ? [
        outsideRange(distanceM / 1000, 7.5, 185, "path length", "km"),
        outsideRange(frequencyHz / 1e9, 0.45, 37, "frequency", "GHz"),
        outsideRange(steps.epMrad, 0, 37, "path inclination", "mrad"),
      ]
    : [];
  return figures({ occurrencePercent: needed ? steps.p0Percent : 0, needed, steps }, validity);
}

function planningSteps(inputs: Multipath17Inputs): Multipath17Steps {
  const { d, f, epMrad, hLM } = geometry(inputs);
  const K = 10 ** (-4.6 - 0.0027 * inputs.dN1);
  const p0Percent = K * d ** 3.1 * (1 + epMrad) ** -1.29 * f ** 0.8 * 10 ** (-0.00089 * hLM);
  return { K, epMrad, hLM, p0Percent };
}

function detailedSteps(inputs: Multipath17Inputs, sa: number): Multipath17Steps {
  const { d, f, epMrad, hLM } = geometry(inputs);
  const K = 10 ** (-4.4 - 0.0027 * inputs.dN1) * (10 + sa) ** -0.46;
  const p0Percent = K * d ** 3.4 * (1 + epMrad) ** -1.03 * f ** 0.8 * 10 ** (-0.00076 * hLM);
  return { K, epMrad, hLM, p0Percent };
}

function geometry(inputs: Multipath17Inputs) {
  const d = inputs.distanceM / 1000;
  return {
    d,
    f: inputs.frequencyHz / 1e9,
    epMrad: Math.abs(inputs.antenna1AslM - inputs.antenna2AslM) / d,
    hLM: Math.min(inputs.antenna1AslM, inputs.antenna2AslM),
  };
}
