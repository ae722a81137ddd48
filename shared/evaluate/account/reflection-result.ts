import type { SurfaceKind } from "../../design/design.js";

/** What one surface does to the received level. */
export interface ReflectionResult {
  readonly surface: SurfaceKind;
  readonly fromM: number;
  readonly toM: number;
  readonly surfaceAslM: number;
  /** Where it reflects, from the first end, at the k of `kFactor`. */
  readonly pointM: number;
  readonly kFactor: number;
  /** Whether the point lies on the surface for any k of `kRange`. */
  readonly onSurface: boolean;
  readonly kRange: readonly [number, number];
  /** Whether terrain stands in the reflected ray; undefined where some of the ground is not known and the rest does not. */
  readonly shielded?: boolean;
  readonly grazingMrad: number;
  readonly divergence: number;
  /** Reflected against direct ray at the receiver's port, antennas included, 0..1. */
  readonly effectiveRatio: number;
  readonly antennaDiscriminationDb: number;
  /** Deepest cancellation and highest addition of the two rays. */
  readonly deepestFadeDb: number;
  readonly deepestFadeBound?: "at least";
  readonly highestGainDb: number;
  readonly pathDifferenceWavelengths: number;
  /** Change of the path difference over `kRange`; above 1 a cancellation occurs in the course of the year. */
  readonly spanWavelengths: number;
  /** Each end with the other as it is. */
  readonly ends: readonly [ReflectionEnd, ReflectionEnd];
}

export interface ReflectionEnd {
  readonly site: string;
  /** Height between two maxima of the level. */
  readonly lobeSpacingM?: number;
  /** Best vertical spacing of a diversity antenna: half of that. */
  readonly bestSpacingM?: number;
  /** Antenna height above ground of the nearest maximum at `kFactor`; undefined below ground. */
  readonly heightOfMaximumM?: number;
}
