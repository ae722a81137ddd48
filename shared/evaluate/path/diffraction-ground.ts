import type { PathProfile } from "../../propagation/p526/index.js";
import { closeToEnds, withPointsAt } from "../../terrain/between.js";
import { firstAtOrBeyond, type TerrainProfile } from "../../terrain/profile.js";
import type { Top } from "./clearance.js";

/**
 * The ground as the method of diffraction takes it: what stands on it as cover at its very place, a survey with as many
 * points on its straight lines as the Earth's bulge needs.
 * @param groundM at the two sites: the method needs a height there, where the profile may have none
 */
export function diffractionGround(
  profile: TerrainProfile,
  groundM: readonly [number, number],
  tops: readonly Top[],
): PathProfile {
  const lengthM = profile.distanceM.at(-1)!;
  const fine = profile.straight ? withPointsAt(profile, closeToEnds(lengthM)) : profile;
  const places = tops.map(({ distanceM }) => distanceM).sort((a, b) => a - b);
  const { distanceM, heightM, coverM } = tops.length > 0 ? withPointsAt(fine, places) : fine;
  const last = heightM.length - 1;
  const ground = heightM.slice();
  if (Number.isNaN(ground[0]!)) ground[0] = groundM[0];
  if (Number.isNaN(ground[last]!)) ground[last] = groundM[1];
  if (tops.length === 0) return { distanceM, heightM: ground, coverHeightM: coverM };
  const coverHeightM = coverM?.slice() ?? new Float64Array(ground.length);
  for (const top of tops) {
    const i = firstAtOrBeyond(distanceM, top.distanceM);
    if (distanceM[i] === top.distanceM) coverHeightM[i] = Math.max(coverHeightM[i]!, top.topM - ground[i]!);
  }
  return { distanceM, heightM: ground, coverHeightM };
}
