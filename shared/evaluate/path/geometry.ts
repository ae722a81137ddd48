import type { Hop } from "../../design/design.js";
import { elevationAngles, slantDistanceM } from "../../geodesy/elevation.js";
import { inverse } from "../../geodesy/geodesic.js";
import type { EndGeometry } from "../account/path-result.js";
import { cite, missing, type Trace, use } from "../account/trace.js";
import type { GroundInput } from "./ground.js";

/** Where the hop runs in the plan. */
export interface Course {
  readonly distanceM: number;
  readonly azimuthDeg: readonly [number, number];
  /** Mean of both ends, for the climate's dependence on latitude. */
  readonly latitudeDeg: number;
}

/** Where it runs in the vertical plane. */
export interface Heights {
  readonly groundM: readonly [number, number];
  readonly antennaAslM: readonly [number, number];
  readonly slantDistanceM: number;
  readonly ends: readonly [EndGeometry, EndGeometry];
}

/** @returns undefined when a position is missing or both ends stand at one place */
export function courseOf(hop: Hop, trace: Trace): Course | undefined {
  const from = hop.ends[0].site.position;
  const to = hop.ends[1].site.position;
  if (from === undefined || to === undefined) return undefined;
  if (Math.abs(from.latitudeDeg) > 90 || Math.abs(to.latitudeDeg) > 90) {
    missing(trace, { code: "refusal", of: ["path"], reason: { code: "latitude-beyond-pole" } });
    return undefined;
  }
  const { distanceM, azimuthFromDeg, azimuthToDeg } = inverse({ from, to });
  cite(trace, "geodesic");
  if (!(distanceM > 0)) {
    const sites = [hop.ends[0].site.name, hop.ends[1].site.name] as const;
    missing(trace, { code: "refusal", of: ["path"], reason: { code: "same-place", sites } });
    return undefined;
  }
  use(trace, { code: "path-length", lengthM: distanceM }, "design");
  return {
    distanceM,
    azimuthDeg: [azimuthFromDeg, azimuthToDeg],
    latitudeDeg: (from.latitudeDeg + to.latitudeDeg) / 2,
  };
}

/** @returns undefined when ground or antenna height of an end is not known; the trace says which */
export function heightsOf(
  hop: Hop,
  ground: GroundInput,
  course: Course,
  kFactor: number,
  trace: Trace,
): Heights | undefined {
  const ground1 = groundAt(hop, ground, 0, trace);
  const ground2 = groundAt(hop, ground, 1, trace);
  const above1 = hop.ends[0].antennaHeightM;
  const above2 = hop.ends[1].antennaHeightM;
  if (ground1 === undefined || ground2 === undefined || above1 === undefined || above2 === undefined)
    return undefined;
  const antenna1 = ground1.groundM + above1;
  const antenna2 = ground2.groundM + above2;
  const side = { distanceM: course.distanceM, height1M: antenna1, height2M: antenna2, k: kFactor };
  const { elevation1Deg, elevation2Deg } = elevationAngles(side);
  cite(trace, "elevation");
  const straightM = slantDistanceM(course.distanceM, antenna1, antenna2);
  use(trace, { code: "straight-distance", lengthM: straightM }, "design");
  return {
    groundM: [ground1.groundM, ground2.groundM],
    antennaAslM: [antenna1, antenna2],
    slantDistanceM: straightM,
    ends: [
      {
        site: hop.ends[0].site.name,
        ...ground1,
        antennaHeightM: above1,
        azimuthDeg: course.azimuthDeg[0],
        elevationDeg: elevation1Deg,
      },
      {
        site: hop.ends[1].site.name,
        ...ground2,
        antennaHeightM: above2,
        azimuthDeg: course.azimuthDeg[1],
        elevationDeg: elevation2Deg,
      },
    ],
  };
}

type Ground = Pick<EndGeometry, "groundM" | "groundFrom" | "terrainGroundM">;

/** The design's own ground level goes before the terrain's. */
function groundAt(hop: Hop, ground: GroundInput, end: 0 | 1, trace: Trace): Ground | undefined {
  const { site } = hop.ends[end];
  const ofTerrain = finite(ground.groundM[end]) ?? finite(profileEnd(ground, end));
  if (site.groundM !== undefined) {
    use(trace, { code: "ground", site: site.name, heightM: site.groundM }, "design");
    return { groundM: site.groundM, groundFrom: "design", terrainGroundM: ofTerrain };
  }
  if (ofTerrain === undefined) {
    missing(trace, {
      code: "terrain",
      of: ["heights"],
      reason: { code: "ground-level-unknown", site: site.name, of: ground.profileKind },
    });
    return undefined;
  }
  use(trace, { code: "ground", site: site.name, heightM: ofTerrain }, ground.profileKind);
  return { groundM: ofTerrain, groundFrom: ground.profileKind };
}

function profileEnd(ground: GroundInput, end: 0 | 1): number | undefined {
  return end === 0 ? ground.profile?.heightM[0] : ground.profile?.heightM.at(-1);
}

function finite(value: number | undefined): number | undefined {
  return value !== undefined && Number.isFinite(value) ? value : undefined;
}
