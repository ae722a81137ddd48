import type { Hop } from "../design/design.js";
import { decibels } from "../format/numbers.js";
import { arrangementByName } from "../radio/arrangements.js";
import type { TerrainProfile } from "../terrain/profile.js";
import { clearanceFor, type Top } from "./clearance.js";
import { hangable, obstructionOf, rayPath } from "./criteria.js";
import type { Course, Heights } from "./geometry.js";
import { diffractionLossDb } from "./path-loss.js";
import type { ClearanceResult, DiversityPath } from "./result.js";
import { newTrace, note, type Trace } from "./trace.js";

/** Which ends of a ray stand on their second antenna, in the order of the hop's ends. */
export type OnSecond = readonly [boolean, boolean];

/** The ground under the path, as the rays over the second antennas need it. */
export interface SecondRays {
  /** Diffraction loss over other antennas than the first two, dB; 0 for a clear ray. */
  diffractionDb(second: OnSecond, frequencyHz: number): number;
}

type Ground = {
  readonly course: Course;
  readonly heights: Heights;
  readonly profile: TerrainProfile;
  readonly tops: readonly Top[];
  readonly kFactor: number;
};

/** @returns undefined when no end has a second antenna with a height, or the arrangement uses none */
export function secondRays(hop: Hop, ground: Ground): SecondRays | undefined {
  if (!ends(hop).some(({ heightM }) => heightM !== undefined)) return undefined;
  return {
    diffractionDb(second, frequencyHz) {
      const heights = heightsOver(hop, ground.heights, second);
      const { course, profile, tops, kFactor } = ground;
      const obstruction = heights && obstructionOf(hop, course, heights, profile, tops, kFactor);
      if (heights === undefined || obstruction === undefined) return 0;
      // The trace tells the main ray's figures.
      return diffractionLossDb(hop, heights, frequencyHz, obstruction, newTrace()) ?? 0;
    },
  };
}

/**
 * The ray that each second antenna receives, from the far end's first one: its clearance by the objective's own
 * criteria for it, else by those of the first, and what diffraction takes from it beyond the first antenna's.
 */
export function diversityPaths(
  hop: Hop,
  ground: Ground,
  rays: SecondRays | undefined,
  trace: Trace,
): DiversityPath[] | undefined {
  if (rays === undefined) return undefined;
  const found = ([0, 1] as const).flatMap((end): DiversityPath[] => {
    const { site } = hop.ends[end];
    const second: OnSecond = [end === 0, end === 1];
    const heights = heightsOver(hop, ground.heights, second);
    if (heights === undefined) return [];
    const frequencyHz = hop.ends[1 - end]!.transmitFrequencyHz;
    const known = frequencyHz !== undefined && frequencyHz > 0;
    const lossDb = known ? rays.diffractionDb(second, frequencyHz) : undefined;
    const moreLossDb = known ? lossDb! - rays.diffractionDb([false, false], frequencyHz) : undefined;
    if (moreLossDb !== undefined && moreLossDb >= 0.05)
      note(
        trace,
        `The ray to the diversity antenna at ${site.name} loses ${decibels(moreLossDb)} more by diffraction than the first antenna's; diversity counts it like so much less gain.`,
      );
    const clearance = clearancesOver(hop, ground, heights, end);
    return [{ site: site.name, clearance, diffractionLossDb: lossDb, moreLossDb }];
  });
  return found.length > 0 ? found : undefined;
}

function clearancesOver(
  hop: Hop,
  { course, profile, tops }: Ground,
  heights: Heights,
  end: 0 | 1,
): ClearanceResult[] {
  const path = rayPath(hop, course, heights);
  const { diversityClearance, clearance = [] } = hop.objective ?? {};
  if (path === undefined) return [];
  const [first, other] = hop.ends.map((one, i) => (i === end ? one.diversityAntenna : one.antenna));
  return (diversityClearance ?? clearance).flatMap((criterion) => {
    const found = criterion.kFactor > 0 ? clearanceFor(criterion, path, profile, tops) : undefined;
    return found === undefined ? [] : [hangable(found, [first, other])];
  });
}

/** Heights with a second antenna in place of the first; undefined where such an end has none. */
function heightsOver(hop: Hop, heights: Heights, second: OnSecond): Heights | undefined {
  const antennaAslM = ends(hop).map(({ heightM }, i) =>
    second[i]
      ? heightM === undefined
        ? undefined
        : heights.groundM[i as 0 | 1] + heightM
      : heights.antennaAslM[i as 0 | 1],
  );
  const [first, other] = antennaAslM;
  return first === undefined || other === undefined ? undefined : { ...heights, antennaAslM: [first, other] };
}

/** Height above ground of each end's second antenna where it is used. */
function ends(hop: Hop): readonly { readonly heightM: number | undefined }[] {
  const used = (arrangementByName(hop.arrangement.name)?.antennas ?? 1) > 1;
  return hop.ends.map(({ diversityAntenna, diversityHeightM }) => ({
    heightM: used && diversityAntenna !== undefined ? diversityHeightM : undefined,
  }));
}
