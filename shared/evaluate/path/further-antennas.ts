import type { Hop, HopEnd } from "../../design/design.js";
import { type FurtherRay, furtherRays } from "../../equipment/rays.js";
import { type Stand, standsOf } from "../../equipment/stands.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import { SINGLE } from "../../radio/arrangements.js";
import type { ClearanceResult, FurtherPath } from "../account/path-result.js";
import { missing, newTrace, note, type Trace } from "../account/trace.js";
import { clearanceFor } from "./clearance.js";
import { hangable, obstructionOf, rayPath } from "./criteria.js";
import type { Heights } from "./geometry.js";
import type { GroundPath } from "./ground-path.js";
import { diffractionLossDb } from "./path-loss.js";

/** Which antenna of each end a ray hangs on, from 1, in the order of the hop's ends. */
type RayEnds = readonly [number, number];

/** The ground under the path, as the rays over further antennas need it. */
export interface FurtherGround {
  /** Diffraction loss between two antennas, dB; 0 for a clear ray, undefined where the method gives none. */
  diffractionDb(antennas: RayEnds, frequencyHz: number): number | undefined;
}

/** @returns undefined when no end has a further antenna in use */
export function furtherGround(hop: Hop, ground: GroundPath, trace: Trace): FurtherGround | undefined {
  if (hop.ends.every((end) => standsAt(hop, end).length === 1)) return undefined;
  const known = new Map<string, number | undefined>();
  return {
    diffractionDb(antennas, frequencyHz) {
      const key = `${antennas.join()} ${frequencyHz}`;
      if (!known.has(key)) known.set(key, lossOver(hop, ground, antennas, frequencyHz));
      const lossDb = known.get(key);
      if (lossDb === undefined)
        missing(trace, {
          code: "refusal",
          of: ["level"],
          reason: { code: "no-diffraction-figure", further: true },
        });
      return lossDb;
    },
  };
}

function lossOver(hop: Hop, ground: GroundPath, antennas: RayEnds, frequencyHz: number): number | undefined {
  const heights = heightsOver(hop, ground.heights, antennas);
  const obstruction = heights && obstructionOf(hop, { ...ground, heights });
  // The trace tells the main ray's figures.
  return obstruction === undefined ? 0 : diffractionLossDb(hop, obstruction, frequencyHz, newTrace());
}

/**
 * The rays over further antennas: their clearance by the objective's criteria, of space diversity by its own ones where
 * it states them, and what diffraction takes from them beyond what it takes from the first antennas' ray.
 */
export function furtherPaths(
  hop: Hop,
  ground: GroundPath,
  between: FurtherGround | undefined,
  trace: Trace,
): FurtherPath[] | undefined {
  if (between === undefined) return undefined;
  const found = furtherRays(hop).flatMap((ray): FurtherPath[] => {
    const { antennas, name, of } = ray;
    const heights = heightsOver(hop, ground.heights, antennas);
    if (heights === undefined) return [];
    const losses = frequenciesOver(hop, ray).flatMap((hz) => {
      const lossDb = between.diffractionDb(antennas, hz);
      const firstDb = between.diffractionDb([1, 1], hz);
      return lossDb === undefined || firstDb === undefined ? [] : [{ lossDb, moreDb: lossDb - firstDb }];
    });
    const worst = losses.toSorted((a, b) => b.lossDb - a.lossDb)[0];
    if (worst !== undefined && worst.moreDb >= 0.05)
      note(trace, { code: "further-ray-loses-more", of, ray: name, moreDb: worst.moreDb });
    const clearance = clearancesOver(hop, ground, heights, ray);
    return [{ antennas, name, of, clearance, diffractionLossDb: worst?.lossDb, moreLossDb: worst?.moreDb }];
  });
  return found.length > 0 ? found : undefined;
}

/** Of diversity and standby what the end with the further antenna receives, of carriers what both send. */
function frequenciesOver(hop: Hop, { of, antennas }: FurtherRay): number[] {
  const sent = hop.ends.flatMap(({ transmitFrequencyHz: hz }, index) =>
    of === "carriers" || antennas[index] === 1 ? (hz ?? []) : [],
  );
  return sent.filter((hz) => hz > 0);
}

function clearancesOver(
  hop: Hop,
  { course, profile, tops }: GroundPath,
  heights: Heights,
  { of, stands }: FurtherRay,
): ClearanceResult[] {
  const path = rayPath(hop, course, heights);
  const { diversityClearance, clearance = [] } = hop.objective ?? {};
  if (path === undefined) return [];
  const criteria = of === "diversity" ? (diversityClearance ?? clearance) : clearance;
  return criteria.flatMap((criterion) => {
    const found = clearanceFor(criterion, path, profile, tops);
    return found === undefined ? [] : [hangable(found, [stands[0].antenna, stands[1].antenna])];
  });
}

function standsAt(hop: Hop, end: HopEnd): readonly Stand[] {
  return standsOf(end, factsAt(hop, end) ?? SINGLE);
}

/** Heights of the antennas that a ray hangs on; undefined where one of them is not stated. */
function heightsOver(hop: Hop, heights: Heights, antennas: RayEnds): Heights | undefined {
  const [first, other] = hop.ends.map((end, index) => {
    if (antennas[index] === 1) return heights.antennaAslM[index as 0 | 1];
    const heightM = standsAt(hop, end)[antennas[index]! - 1]?.heightM;
    return heightM === undefined ? undefined : heights.groundM[index as 0 | 1] + heightM;
  });
  return first === undefined || other === undefined ? undefined : { ...heights, antennaAslM: [first, other] };
}
