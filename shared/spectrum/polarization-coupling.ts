/** What two antennas take of each other's power by angle and polarization. */
import type { MethodReference } from "../propagation/method.js";

export const METHOD: MethodReference = {
  recommendation: "Coupling of polarizations",
  section: "",
  title: "Coupling of two antennas by angle and polarization",
  status: "from memory",
  note:
    "Common practice, from memory, not checked against a Recommendation: parallel counts co and co, crossed the two leakages in power. " +
    "That crossed never couples above parallel is a rule of our own.",
  checked: { by: "worked figures and limits", tolerance: "1e-12 dB" },
};

/** Polarizations of transmitter and receiver: the same, at right angles, or one of them slant against the other. */
export type PolarizationRelation = "parallel" | "crossed" | "oblique";

/** One antenna in one direction, dB below its greatest co-polar gain. */
export interface Discrimination {
  readonly coDb: number;
  readonly crossDb: number;
}

/**
 * Discrimination of both antennas together, dB below their two greatest gains. Lean: no checks.
 *
 *     parallel:   D = co_t + co_r
 *     crossed:    D = -10 log[10^(-(x_t + co_r)/10) + 10^(-(co_t + x_r)/10)],   at least that of parallel
 *     oblique:    half of the power as parallel, half as crossed
 *
 * Cross and cross is left out for parallel. The sum for crossed holds where both antennas discriminate; where one no
 * longer does it would exceed the parallel one by up to 3.01 dB, an artifact of the bookkeeping: hence the limit.
 * Oblique is by decomposition of a linear polarization at 45 degrees.
 * @see common practice, from memory; the limit is our own
 * @example pairDiscriminationDb("crossed", { coDb: 0, crossDb: 30 }, { coDb: 0, crossDb: 30 }) // 26.99
 */
export function pairDiscriminationDb(
  relation: PolarizationRelation,
  transmitter: Discrimination,
  receiver: Discrimination,
): number {
  const parallelDb = transmitter.coDb + receiver.coDb;
  if (relation === "parallel") return parallelDb;
  const leaks = powerSum(transmitter.crossDb + receiver.coDb, transmitter.coDb + receiver.crossDb);
  const crossedDb = Math.max(parallelDb, leaks);
  return relation === "crossed" ? crossedDb : powerSum(parallelDb, crossedDb) + 10 * Math.log10(2);
}

/** `-10 log(10^(-a/10) + 10^(-b/10))`, the stronger one taken out. */
function powerSum(aDb: number, bDb: number): number {
  const least = Math.min(aDb, bDb);
  return least - 10 * Math.log10(1 + 10 ** (-Math.abs(aDb - bDb) / 10));
}

/**
 * Cross-polar discrimination in a direction where the catalogue has no cross-polar pattern, dB below the co-polar gain
 * on the axis: inside the 3 dB beam the antenna's stated XPD below its co-polar gain, outside it none.
 * @param inputs.xpdDb stated on the axis; absent: none anywhere
 * @param inputs.beamwidthDeg full width at 3 dB; absent: no inside
 * @see common practice, from memory; it steps at the edge of the beam, a measured cross-polar column does not
 */
export function crossDiscriminationDb(inputs: {
  readonly coDb: number;
  readonly angleDeg: number;
  readonly xpdDb?: number;
  readonly beamwidthDeg?: number;
}): number {
  const { coDb, angleDeg, xpdDb = 0, beamwidthDeg } = inputs;
  const inside = beamwidthDeg !== undefined && angleDeg <= beamwidthDeg / 2;
  return inside ? coDb + Math.max(0, xpdDb) : coDb;
}
