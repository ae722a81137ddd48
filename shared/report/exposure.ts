/** How far in front of an antenna nobody may stand while it transmits. */
import type { HopResult } from "../evaluate/account/result.js";

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
 * carriers of the arrangement that transmit in the normal state are added, each over its own arm, and those of the other band on the same
 * antenna; the limit is the same from 2 to 300 GHz. Other antennas of the site are not.
 * @param otherBand the hop of the other band that transmits from the same antenna
 * @returns undefined for a power that no transmitter has
 * @see far-field law of a radiator
 */
export function keepOut(own: Transmitter, otherBand?: Transmitter): KeepOut | undefined {
  const all = (otherBand === undefined ? [own] : [own, otherBand]).map(carriersDbm);
  const eirpDbm = 10 * Math.log10(all.flat().reduce((sum, dbm) => sum + 10 ** (dbm / 10), 0));
  // Nothing, a power of -Infinity or one beyond the numbers is no transmitter's either.
  if (!(Math.abs(eirpDbm) <= BEYOND_ANY_POWER_DBM)) return undefined;
  return {
    site: own.site,
    eirpDbm,
    carriers: all[0]!.length,
    otherBand: otherBand && { hop: otherBand.result.hop, carriers: all[1]!.length },
    generalPublicM: farFieldDistanceM(eirpDbm, EXPOSURE_LIMITS_W_PER_M2.generalPublic),
    occupationalM: farFieldDistanceM(eirpDbm, EXPOSURE_LIMITS_W_PER_M2.occupational),
  };
}

/** What one hop sends from one end. */
export interface Transmitter {
  readonly result: Pick<HopResult, "hop" | "carriers">;
  readonly site: string;
}

/** Each carrier on the air in its strongest mode, over its own arm or that of its standby, whichever gives more. */
function carriersDbm({ result, site }: Transmitter): number[] {
  return result.carriers.flatMap(({ ends }) => ends.find((end) => end.site === site)?.licensedEirpDbm ?? []);
}

/**
 * @param limitWPerM2 > 0
 * @example farFieldDistanceM(70, 10) // 8.92 m: 1 W with 40 dBi against 10 W/m2
 */
export function farFieldDistanceM(eirpDbm: number, limitWPerM2: number): number {
  const eirpW = 10 ** (eirpDbm / 10 - 3);
  return Math.sqrt(eirpW / (4 * Math.PI * limitWPerM2));
}
