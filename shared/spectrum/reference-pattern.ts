/**
 * What the reference patterns of Rec. ITU-R F.699 and F.1245 share: the dish, the main beam, and the form of the rest.
 *
 *     x = D/lambda,   20 log x = G - 7.7                       where only one of D and G is known
 *     G1 = 2 + 15 log x                                        dBi, first side lobe
 *     phi < phi_m = (20/x) sqrt(G - G1):   G - 2.5e-3 (x phi)^2
 *
 * and from there, phi in degrees, by bands of phi: the shelf G1, the law c - 25 log phi, the floor.
 */
import { SPEED_OF_LIGHT_M_PER_S } from "../propagation/constants.js";
import {
  type Figures,
  figures,
  notPositive,
  type Outcome,
  outsideRange,
  type Refusal,
  refuse,
} from "../propagation/outcome.js";

/** An antenna as the patterns take it; at least one of gain and diameter. */
export interface ReferenceDish {
  readonly frequencyHz: number;
  /** Greatest gain, dBi, > 0. */
  readonly gainDbi?: number;
  readonly diameterM?: number;
}

/** A pattern ready for any angle; angles in degrees off the axis, gains in dBi. */
export interface ReferencePattern {
  readonly gainDbi: number;
  /** x = D/lambda. */
  readonly diameterInWavelengths: number;
  /** G1. */
  readonly firstLobeDbi: number;
  /** phi_m, where the main beam ends. */
  readonly mainBeamDeg: number;
  /** Where the law begins; from phi_m to here the shelf G1 stands. */
  readonly lawFromDeg: number;
  /** Of the law c - 25 log phi. */
  readonly lawDbi: number;
  /** Where the floor begins. */
  readonly floorFromDeg: number;
  readonly floorDbi: number;
  /** phi_r of the ripple of F.1245 recommends 3; absent: no ripple. */
  readonly rippleDeg?: number;
}

/** Of the two Recommendations: from where on and how far down the law runs. */
export type SideLobes = Pick<ReferencePattern, "lawDbi" | "floorFromDeg" | "floorDbi" | "rippleDeg"> & {
  /** phi_r; the law begins here, or at phi_m where that is greater. */
  readonly shelfToDeg: number;
};

/**
 * The dish and its main beam, with the side lobes that a Recommendation gives for its x.
 * @param lowestGHz the Recommendation's range of frequency; outside it a remark, and the nearest law
 * @returns refused without gain and diameter, and where the first side lobe would be above the gain (G < G1): the
 *   pattern does not apply
 */
export function referencePattern(
  dish: ReferenceDish,
  lowestGHz: number,
  sideLobes: (x: number, frequencyGHz: number) => SideLobes | undefined,
): Outcome<{ readonly pattern: ReferencePattern }> {
  const size = sizeOf(dish);
  if (!size.ok) return size;
  const { gainDbi, x } = size;
  const frequencyGHz = dish.frequencyHz / 1e9;
  const firstLobeDbi = 2 + 15 * Math.log10(x);
  if (gainDbi < firstLobeDbi) return refuse({ code: "gain-below-first-side-lobe" });
  const given = sideLobes(x, frequencyGHz);
  if (given === undefined) return refuse({ code: "antenna-too-small" });
  const { shelfToDeg, ...lobes } = given;
  const mainBeamDeg = (20 / x) * Math.sqrt(gainDbi - firstLobeDbi);
  const lawFromDeg = Math.max(mainBeamDeg, shelfToDeg);
  const pattern = { gainDbi, diameterInWavelengths: x, firstLobeDbi, mainBeamDeg, lawFromDeg, ...lobes };
  return figures({ pattern }, [outsideRange(frequencyGHz, lowestGHz, 86, "frequency", "GHz")]);
}

function sizeOf({ frequencyHz, gainDbi, diameterM }: ReferenceDish): Size {
  const known = { ...(gainDbi !== undefined && { gainDbi }), ...(diameterM !== undefined && { diameterM }) };
  const unusable = notPositive({ frequencyHz, ...known });
  if (unusable) return refuse(unusable);
  if (diameterM === undefined) {
    if (gainDbi === undefined) return refuse({ code: "neither-gain-nor-diameter" });
    return figures({ gainDbi, x: 10 ** ((gainDbi - 7.7) / 20) });
  }
  const x = (diameterM * frequencyHz) / SPEED_OF_LIGHT_M_PER_S;
  return figures({ gainDbi: gainDbi ?? 7.7 + 20 * Math.log10(x), x });
}

type Size = Figures<{ readonly gainDbi: number; readonly x: number }> | Refusal<never>;

/**
 * Gain of a reference pattern in a direction, dBi. Lean: no checks.
 *
 * A boundary angle belongs to the outer branch. Never above the greatest gain: for x below about 2 the floor is (our
 * limit).
 * @param angleDeg phi, 0 to 180
 */
export function referenceGainDbi(pattern: ReferencePattern, angleDeg: number): number {
  const { rippleDeg } = pattern;
  return rippleDeg === undefined
    ? withoutRippleDbi(pattern, angleDeg)
    : rippledGainDbi(pattern, angleDeg, rippleDeg);
}

/**
 * Greatest gain of a reference pattern in any direction at least `angleDeg` off the axis, dBi: what an interferer can
 * have at most while only its azimuth is known. The patterns rise a little where their branches meet, and have lobes in
 * recommends 3 of F.1245.
 * @param angleDeg 0 to 180
 * @nofigure
 */
export function greatestGainBeyondDbi(pattern: ReferencePattern, angleDeg: number): number {
  let greatest = withoutRippleDbi(pattern, angleDeg);
  for (const joint of [pattern.mainBeamDeg, pattern.lawFromDeg, pattern.floorFromDeg]) {
    if (joint > angleDeg && joint <= 180) greatest = Math.max(greatest, withoutRippleDbi(pattern, joint));
  }
  return greatest;
}

function withoutRippleDbi(pattern: ReferencePattern, angleDeg: number): number {
  const { gainDbi, diameterInWavelengths: x, mainBeamDeg, firstLobeDbi } = pattern;
  if (angleDeg < mainBeamDeg) return gainDbi - 2.5e-3 * (x * angleDeg) ** 2;
  return Math.min(gainDbi, angleDeg < pattern.lawFromDeg ? firstLobeDbi : beyondShelf(pattern, angleDeg));
}

function beyondShelf({ floorFromDeg, floorDbi, lawDbi }: ReferencePattern, angleDeg: number): number {
  return angleDeg < floorFromDeg ? lawDbi - 25 * Math.log10(angleDeg) : floorDbi;
}

/**
 * With the ripple of F.1245 recommends 3, the angle in radians as it stands:
 *
 *     F(phi) = 10 log(0.9 sin^2(3 pi phi/(2 phi_r)) + 0.1)
 *     phi < phi_r:  the larger of the main beam and G1 + F;   beyond: law and floor + F
 */
function rippledGainDbi(pattern: ReferencePattern, angleDeg: number, rippleDeg: number): number {
  const { gainDbi, diameterInWavelengths: x, firstLobeDbi } = pattern;
  const ripple = 10 * Math.log10(0.9 * Math.sin((1.5 * Math.PI * angleDeg) / rippleDeg) ** 2 + 0.1);
  const gain =
    angleDeg < rippleDeg
      ? Math.max(gainDbi - 2.5e-3 * (x * angleDeg) ** 2, firstLobeDbi + ripple)
      : beyondShelf(pattern, angleDeg) + ripple;
  return Math.min(gainDbi, gain);
}
