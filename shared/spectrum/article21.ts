/** Limits of power and EIRP of a terrestrial station. Radio Regulations Article 21, section II. */
import type { MethodReference } from "../propagation/method.js";

export const METHOD: MethodReference = {
  recommendation: "Radio Regulations",
  section: "Article 21",
  title: "Limits of power and EIRP of terrestrial stations",
  status: "from memory",
  note:
    "From memory, not checked against the Regulations. The rule of the orbit (21.2, 21.4) stands with the same figures in 47 CFR " +
    "101.145, which was read; +55 dBW, +13 and +10 dBW and the rule from 25.25 to 27.5 GHz have no witness.",
  checked: { by: "the figures as remembered, and that they join", tolerance: "exact" },
};

/** What a station at a frequency may radiate. */
export interface Article21Limits {
  /** 21.3, EIRP, dBW. */
  readonly eirpDbw: number;
  /** 21.5, power into the antenna, dBW. */
  readonly powerDbw: number;
  /** 21.2: above this EIRP the beam keeps away from the geostationary orbit; absent where there is no such rule. */
  readonly orbit?: {
    readonly aboveEirpDbw: number;
    /** Absent: of the whole EIRP; else of what falls into any such bandwidth. */
    readonly inBandwidthHz?: number;
    readonly leastAngleDeg: number;
  };
}

/**
 * Limits at a frequency.
 *
 *     EIRP +55 dBW (21.3)
 *     power into the antenna +13 dBW from 1 to 10 GHz, +10 dBW above (21.5)
 *     beam off the orbit (21.2): 1 to 10 GHz 2 degrees above +35 dBW, 10 to 15 GHz 1.5 degrees above +45 dBW,
 *     25.25 to 27.5 GHz 1.5 degrees above +24 dBW in any 1 MHz
 *
 * @param frequencyHz below 1 GHz there are none: undefined
 * @see Radio Regulations Article 21. From memory, see METHOD
 */
export function article21Limits(frequencyHz: number): Article21Limits | undefined {
  const f = frequencyHz / 1e9;
  if (!(f >= 1)) return undefined;
  const station = { eirpDbw: 55, powerDbw: f <= 10 ? 13 : 10 };
  if (f <= 10) return { ...station, orbit: { aboveEirpDbw: 35, leastAngleDeg: 2 } };
  if (f <= 15) return { ...station, orbit: { aboveEirpDbw: 45, leastAngleDeg: 1.5 } };
  if (f >= 25.25 && f <= 27.5) {
    return { ...station, orbit: { aboveEirpDbw: 24, inBandwidthHz: 1e6, leastAngleDeg: 1.5 } };
  }
  return station;
}

/**
 * Greatest EIRP toward the orbit where its angle cannot be kept (21.4), dBW.
 *
 *     1 to 10 GHz:    +47 up to 0.5 degrees, rising by 8 dB a degree to +55 at 1.5 degrees
 *     10 to 15 GHz:   +45 up to 1.5 degrees, then +55
 *
 * @param orbitAngleDeg between the beam's axis and the nearest point of the orbit, refraction counted, >= 0
 * @returns undefined where 21.4 says nothing; there 21.2 and 21.3 alone hold
 * @see Radio Regulations Article 21.4. From memory, see METHOD
 */
export function eirpNearOrbitDbw(frequencyHz: number, orbitAngleDeg: number): number | undefined {
  const f = frequencyHz / 1e9;
  if (f >= 1 && f <= 10) return Math.min(55, Math.max(47, 47 + 8 * (orbitAngleDeg - 0.5)));
  if (f > 10 && f <= 15) return orbitAngleDeg <= 1.5 ? 45 : 55;
  return undefined;
}
