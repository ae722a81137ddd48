/** Smooth earth, effective heights and roughness for ducting. Rec. ITU-R P.452-18 Attachment 2; eq (168) to (171). */
import type { SmoothLine } from "../p526/index.js";
import type { Horizons } from "./horizons.js";
import type { ClearAirPath } from "./path.js";

export interface DuctingHeights {
  /** Smooth earth at the ends, m above sea level, not above the ground there. */
  readonly hstM: number;
  readonly hsrM: number;
  /** Antennas above it, m. */
  readonly hteM: number;
  readonly hreM: number;
  /** Roughness of the terrain between the horizons, m. */
  readonly hmM: number;
}

/**
 *     hst := min(hst, h_0),   hsr := min(hsr, h_n)                                          (168)
 *     m = (hsr - hst)/d                                                                     (169)
 *     hte = hts - hst,   hre = hrs - hsr                                                    (170)
 *     hm = max[h_i - (hst + m d_i)], from the horizon of t to that of r, both included      (171)
 *
 * @param line the straight line fitted to the terrain, eq (161) to (164)
 * @see Rec. ITU-R P.452-18 section 4.4 and Attachment 2; eq (168) to (171)
 */
export function ductingHeights(
  { distanceM, heightM }: Pick<ClearAirPath, "distanceM" | "heightM">,
  htsM: number,
  hrsM: number,
  line: SmoothLine,
  { horizonT, horizonR }: Horizons,
): DuctingHeights {
  const last = distanceM.length - 1;
  const hstM = Math.min(line.height1M, heightM[0]!);
  const hsrM = Math.min(line.height2M, heightM[last]!);
  const m = (hsrM - hstM) / distanceM[last]!;
  let hmM = Number.NEGATIVE_INFINITY;
  // By rounding the two horizons may change places where the terrain is one straight edge.
  const to = Math.max(horizonT, horizonR);
  for (let i = Math.min(horizonT, horizonR); i <= to; i++) {
    const above = heightM[i]! - (hstM + m * distanceM[i]!);
    if (above > hmM) hmM = above;
  }
  return { hstM, hsrM, hteM: htsM - hstM, hreM: hrsM - hsrM, hmM };
}
