import type { AnyMapFact, MapFact } from "../../propagation/maps.js";
import type { TerrainProfile } from "../../terrain/profile.js";
import type { SurveyFit } from "../../terrain/survey.js";
import type { ReadFrom } from "../account/input.js";

/** What the host knows of the ground of one hop; read by it, never here. */
export interface GroundInput {
  /** From the first end of the hop to the second; undefined: no terrain and no survey at hand. */
  readonly profile?: TerrainProfile;
  /** Ground level at the two sites after the terrain, m above sea level. */
  readonly groundM: readonly [number | undefined, number | undefined];
  readonly profileKind: "terrain" | "survey";
  /** Why there is no profile, one sentence. */
  readonly problem?: string;
  /** How a survey that was used lies on the path. */
  readonly survey?: SurveyFit;
  /** What the user's maps and the terrain say of the climate at the path's middle; only what the design lacks. */
  readonly climate?: readonly ClimateReading[];
}

/** A climate figure that was read, not stated. */
export type ClimateReading = MapReading<MapFact>;

/** A figure of the air that was read, not stated. */
export interface MapReading<Fact extends AnyMapFact> {
  readonly fact: Fact;
  readonly value: number;
  readonly origin: "map" | "terrain";
  /** File and date, or what was sampled. */
  readonly from: ReadFrom;
}
