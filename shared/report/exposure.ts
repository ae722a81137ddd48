/** How far in front of an antenna nobody may stand while it transmits. */
import type { Hop } from "../design/design.js";
import type { DirectionResult } from "../evaluate/result.js";

/** Whole body, averaged over 30 min, 2 to 300 GHz, W/m2: ICNIRP 2020, from memory, not checked against it. */
export const EXPOSURE_LIMITS_W_PER_M2 = { generalPublic: 10, occupational: 50 } as const;

/** A slip of the keyboard, not a transmitter. */
const BEYOND_ANY_POWER_DBM = 150;

export interface KeepOut {
  readonly site: string;
  /** All carriers that transmit at once, each at its greatest power. */
  readonly eirpDbm: number;
  readonly carriers: number;
  /** The other hop on the same antenna, whose carriers are added. */
  readonly otherBand?: { readonly hop: string; readonly carriers: number };
  /** On the axis of the antenna, m. */
  readonly generalPublicM: number;
  readonly occupationalM: number;
}

/**
 * Distance on the axis at which the power density falls to the limit, R = sqrt(EIRP/(4 pi S)): the far-field law,
 * taken up to the antenna, where it says too much rather than too little. The greatest power of any mode; all
 * carriers of the arrangement that transmit in the normal state are added, and those of the other band on the same
 * antenna; the limit is the same from 2 to 300 GHz. Other antennas of the site are not.
 * @param otherBand the hop of the other band that transmits from the same antenna
 * @returns undefined for a power that no transmitter has
 * @see far-field law of a radiator
 */
export function keepOut(hop: Hop, direction: DirectionResult, otherBand?: Transmitter): KeepOut | undefined {
  const own = { hop, direction };
  const all = otherBand === undefined ? [own] : [own, otherBand];
  const eirpDbm = 10 * Math.log10(all.reduce((sum, one) => sum + 10 ** (eirpOf(one) / 10), 0));
  // A power of -Infinity or beyond the numbers is no transmitter's either.
  if (!(Math.abs(eirpDbm) <= BEYOND_ANY_POWER_DBM)) return undefined;
  return {
    site: direction.from,
    eirpDbm,
    carriers: own.direction.carriers.length,
    otherBand: otherBand && { hop: otherBand.hop.name, carriers: otherBand.direction.carriers.length },
    generalPublicM: farFieldDistanceM(eirpDbm, EXPOSURE_LIMITS_W_PER_M2.generalPublic),
    occupationalM: farFieldDistanceM(eirpDbm, EXPOSURE_LIMITS_W_PER_M2.occupational),
  };
}

/** What one hop sends from one end. */
export interface Transmitter {
  readonly hop: Hop;
  readonly direction: DirectionResult;
}

/** All carriers of a hop, each in its strongest mode and over its own arm; a unit on standby may send more. */
function eirpOf({ direction: { carriers, greatestEirpDbm } }: Transmitter): number {
  const together = carriers.reduce((sum, one) => sum + 10 ** (one.greatestEirpDbm / 10), 0);
  return Math.max(greatestEirpDbm, 10 * Math.log10(together));
}

/**
 * @param limitWPerM2 > 0
 * @example farFieldDistanceM(70, 10) // 8.92 m: 1 W with 40 dBi against 10 W/m2
 */
export function farFieldDistanceM(eirpDbm: number, limitWPerM2: number): number {
  const eirpW = 10 ** (eirpDbm / 10 - 3);
  return Math.sqrt(eirpW / (4 * Math.PI * limitWPerM2));
}
