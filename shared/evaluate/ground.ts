import type { TerrainProfile } from "../terrain/profile.js";

/** What the host knows of the ground of one hop; read by it, never here. */
export interface GroundInput {
  /** From the first end of the hop to the second; undefined: no terrain and no survey at hand. */
  readonly profile?: TerrainProfile;
  /** Ground level at the two sites after the terrain, m above sea level. */
  readonly groundM: readonly [number | undefined, number | undefined];
  readonly profileKind: "terrain" | "survey";
  /** Why there is no profile, one sentence. */
  readonly problem?: string;
}

export const NO_GROUND: GroundInput = { groundM: [undefined, undefined], profileKind: "terrain" };
