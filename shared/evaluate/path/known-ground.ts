/** What is known of the ground of a path, and what follows where it is not: unknown ground is not clear ground. */
import type { Hop } from "../../design/design.js";
import { type Bridge, bridged } from "../../terrain/bridge.js";
import type { TerrainProfile } from "../../terrain/profile.js";
import { countsAll, type Step } from "../account/lack.js";
import type { Verdict } from "../account/outage-result.js";
import type { HopResult } from "../account/result.js";
import { missing, note, type Trace } from "../account/trace.js";
import type { Course } from "./geometry.js";
import type { GroundInput } from "./ground.js";

/** Whoever hands a profile in has brought it to the length of the path; one that is not is of another path. */
const PROFILE_LENGTH_TOLERANCE = 0.02;

/** The profile with the gaps bridged that the network lets be. */
export function profileOver(
  hop: Hop,
  ground: GroundInput,
  course: Course | undefined,
  trace: Trace,
): { readonly profile?: TerrainProfile; readonly bridges?: readonly Bridge[] } {
  const profile = usableProfile(ground, course, trace);
  if (profile === undefined) return {};
  const known = bridgedFor(hop, profile);
  for (const { fromM, toM } of known.bridges) note(trace, { code: "ground-bridged", fromM, toM });
  const { gaps } = known.profile;
  if (gaps.length > 0) {
    const reason = { code: "heights-unknown", of: ground.profileKind, gaps } as const;
    missing(trace, { code: "terrain", of: ["profile"], reason });
  }
  return known;
}

/** The profile as it counts for a hop: drawings show what is judged. */
export function bridgedFor(
  { bridgeGapsM, ends }: Pick<Hop, "bridgeGapsM" | "ends">,
  profile: TerrainProfile,
): { readonly profile: TerrainProfile; readonly bridges: readonly Bridge[] } {
  if (bridgeGapsM === undefined || profile.gaps.length === 0) return { profile, bridges: [] };
  return bridged(profile, bridgeGapsM, [ends[0].site.groundM, ends[1].site.groundM]);
}

function usableProfile(
  ground: GroundInput,
  course: Course | undefined,
  trace: Trace,
): TerrainProfile | undefined {
  const { profile } = ground;
  // Between two samples of a raster there is none; two surveyed points are a line.
  if (profile === undefined || profile.heightM.length < (profile.straight ? 2 : 3)) {
    const reason = { code: "no-profile", why: ground.problem } as const;
    missing(trace, { code: "terrain", of: ["profile"], reason });
    return undefined;
  }
  const lengthM = profile.distanceM.at(-1)!;
  if (course !== undefined && Math.abs(lengthM / course.distanceM - 1) > PROFILE_LENGTH_TOLERANCE) {
    const reason = {
      code: "profile-of-other-length",
      profileM: lengthM,
      pathM: course.distanceM,
    } as const;
    missing(trace, { code: "terrain", of: ["profile"], reason });
    return undefined;
  }
  return profile;
}

/** @returns undefined when all is known, and while the path itself is not */
export function unknownOf(
  course: Course | undefined,
  profile: TerrainProfile | undefined,
): HopResult["unknownGround"] {
  if (course === undefined) return undefined;
  if (profile === undefined || profile.heightM.every(Number.isNaN)) return "all";
  return profile.gaps.length > 0 ? "part" : undefined;
}

/** Whether figures are of the whole path and of all that is stated: what is not known would only take from them. */
export function isWhole(
  { unknownGround, missing }: Pick<HopResult, "unknownGround" | "missing">,
  steps: readonly Step[],
): boolean {
  return unknownGround === undefined && countsAll(missing, steps);
}

/** What was judged, as it counts where not all is known. */
export function judgedOver<T extends { readonly verdict?: Verdict }>(
  whole: boolean,
  found: T | undefined,
): T | undefined {
  return !whole && found?.verdict === "met" ? { ...found, verdict: "open" } : found;
}
