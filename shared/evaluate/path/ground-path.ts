import type { TerrainProfile } from "../../terrain/profile.js";
import type { Top } from "./clearance.js";
import type { Course, Heights } from "./geometry.js";

/** A hop's way over ground that is known: what clearance, diffraction and reflection are computed from. */
export interface GroundPath {
  readonly course: Course;
  readonly heights: Heights;
  readonly profile: TerrainProfile;
  /** Of what stands on the ground. */
  readonly tops: readonly Top[];
  /** Median effective earth radius factor. */
  readonly kFactor: number;
}
