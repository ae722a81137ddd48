/** The ground under a hop: a surveyed profile where the design names one, otherwise the terrain. */
import { basename } from "node:path";
import type { Hop } from "../../shared/design/design.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import { inverse } from "../../shared/geodesy/geodesic.js";
import { reversedProfile, type TerrainProfile } from "../../shared/terrain/profile.js";
import { reasonOf } from "../files/hop-files.js";
import type { TerrainStore } from "../terrain/store.js";
import { readSurvey } from "../terrain/survey-file.js";

/** The ground from what is in memory; undefined when a file has to be read first. */
export function groundNow(hop: Hop, terrain: TerrainStore | undefined): GroundInput | undefined {
  const [from, to] = positionsOf(hop);
  if (!from || !to)
    return {
      groundM: [undefined, undefined],
      profileKind: "terrain",
      problem: "the sites' positions are not known",
    };
  if (hop.surveyFile !== undefined) return undefined;
  if (!terrain)
    return {
      groundM: [undefined, undefined],
      profileKind: "terrain",
      problem: "the network names no terrain",
    };
  const profile = terrain.profileSync(from, to);
  return profile && terrainGround(profile);
}

/** @param shownAs the survey as it is to be named in results; read from wherever the hop says */
export async function ground(
  hop: Hop,
  terrain: TerrainStore | undefined,
  shownAs = basename(hop.surveyFile ?? ""),
): Promise<GroundInput> {
  const now = groundNow(hop, terrain);
  if (now) return now;
  const [from, to] = positionsOf(hop);
  if (hop.surveyFile !== undefined) return surveyGround(hop, shownAs, from!, to!);
  return terrainGround(await terrain!.profile(from!, to!));
}

function positionsOf(hop: Hop) {
  return [hop.ends[0].site.position, hop.ends[1].site.position] as const;
}

/** Ground levels of the sites are the ends of the profile; a gap there leaves them unknown. */
function terrainGround(profile: TerrainProfile): GroundInput {
  return { profile, groundM: endHeights(profile), profileKind: "terrain" };
}

function endHeights(profile: TerrainProfile): readonly [number | undefined, number | undefined] {
  const known = (heightM: number | undefined) =>
    heightM !== undefined && Number.isFinite(heightM) ? heightM : undefined;
  return [known(profile.heightM[0]), known(profile.heightM.at(-1))];
}

type Position = { readonly latitudeDeg: number; readonly longitudeDeg: number };

async function surveyGround(hop: Hop, shownAs: string, from: Position, to: Position): Promise<GroundInput> {
  const { surveyFile, surveyReversed, surveySource = "map" } = hop;
  try {
    const { distanceM } = inverse({ from, to });
    const { profile: asSurveyed, fit } = await readSurvey(surveyFile!, shownAs, distanceM, surveySource);
    const profile = surveyReversed ? reversedProfile(asSurveyed) : asSurveyed;
    return { profile, groundM: endHeights(profile), profileKind: "survey", survey: fit };
  } catch (error) {
    const problem = `the survey ${shownAs} cannot be used: ${reasonOf(error)}`;
    return { groundM: [undefined, undefined], profileKind: "survey", problem };
  }
}
