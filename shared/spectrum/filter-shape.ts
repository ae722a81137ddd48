/** Shapes of a transmitted spectrum and of a receive filter: a raised cosine, or points of a mask. Both are even. */
import { notPositive, outside } from "../propagation/outcome.js";
import type { RefusalReason } from "../propagation/remark.js";

/** A point of a mask. */
export interface MaskPoint {
  /** From the centre, Hz, >= 0. */
  readonly offsetHz: number;
  /** Below the density, or the passing, at the centre; -400 to 400 dB. */
  readonly attenuationDb: number;
}

export type FilterShape =
  /** By symbol rate Rs and roll-off a, 0 to 1: flat to Rs (1 - a)/2, nothing beyond Rs (1 + a)/2. */
  | { readonly kind: "raised-cosine"; readonly symbolRateHz: number; readonly rollOff: number }
  /** Straight in dB between points, offsets not falling (a step: one offset twice); flat inside the first. */
  | { readonly kind: "points"; readonly points: readonly MaskPoint[] };

/** A shape in smooth pieces. */
export interface Pieces {
  /** Where the pieces meet, Hz from the centre, from the lowest to the highest, not falling. */
  readonly edgesHz: readonly number[];
  /** Relative density, 1 at the centre of a raised cosine; at an edge either side's. */
  readonly density: (offsetHz: number) => number;
}

/** No piece falls by more, dB: so the quadrature of a product of two stays exact to rounding. */
const LARGEST_FALL_DB = 20;

const GREATEST_DB = 400;

/** The reason why a shape is none; undefined for a good one. @param name what the refusal calls it */
export function shapeRefusal(shape: FilterShape, name: string): RefusalReason | undefined {
  if (shape.kind === "raised-cosine") {
    const { symbolRateHz, rollOff } = shape;
    return (
      notPositive({ [`${name} symbolRateHz`]: symbolRateHz }) ??
      outside({ [`${name} rollOff`]: rollOff }, 0, 1)
    );
  }
  let before = 0;
  for (const { offsetHz, attenuationDb } of shape.points) {
    if (!(offsetHz >= before && Number.isFinite(offsetHz))) return { code: "points-not-rising" };
    const unusable = outside({ [`${name} attenuationDb`]: attenuationDb }, -GREATEST_DB, GREATEST_DB);
    if (unusable) return unusable;
    before = offsetHz;
  }
  return before > 0 ? undefined : { code: "points-without-width" };
}

/**
 * The shape in pieces.
 *
 *     raised cosine:  1,   then (1 + cos(pi (|f| - Rs (1 - a)/2)/(a Rs)))/2,   then 0
 *     points:         10^(-A(f)/10),   A straight between the points
 *
 * @param beyond what a mask is beyond its last point: nothing, or held at that point
 */
export function piecesOf(shape: FilterShape, beyond: "nothing" | "held"): Pieces {
  return shape.kind === "points" ? ofPoints(shape.points, beyond) : ofRaisedCosine(shape);
}

function ofRaisedCosine(shape: { readonly symbolRateHz: number; readonly rollOff: number }): Pieces {
  const { symbolRateHz: Rs, rollOff: a } = shape;
  const flatHz = (Rs * (1 - a)) / 2;
  const endHz = (Rs * (1 + a)) / 2;
  const density = (offsetHz: number) => {
    const f = Math.abs(offsetHz);
    if (f <= flatHz) return 1;
    if (f >= endHz) return 0;
    // (1 + cos t)/2 as cos^2(t/2): near the end it keeps its digits.
    return Math.sin((0.5 * Math.PI * (endHz - f)) / (a * Rs)) ** 2;
  };
  return { edgesHz: [-endHz, -flatHz, flatHz, endHz], density };
}

function ofPoints(points: readonly MaskPoint[], beyond: "nothing" | "held"): Pieces {
  const lastHz = points.at(-1)!.offsetHz;
  const density = (offsetHz: number) => {
    const f = Math.abs(offsetHz);
    if (f > lastHz && beyond === "nothing") return 0;
    return Math.exp(-0.1 * Math.LN10 * attenuationDb(points, f));
  };
  const upper = edgesOfPoints(points);
  return { edgesHz: [...upper.map((edge) => -edge).reverse(), ...upper], density };
}

function edgesOfPoints(points: readonly MaskPoint[]): number[] {
  const edges: number[] = [];
  let before: MaskPoint | undefined;
  for (const point of points) {
    if (before !== undefined) {
      const fallDb = Math.abs(point.attenuationDb - before.attenuationDb);
      const parts = Math.ceil(fallDb / LARGEST_FALL_DB);
      const span = point.offsetHz - before.offsetHz;
      for (let i = 1; i < parts && span > 0; i++) edges.push(before.offsetHz + (span * i) / parts);
    }
    edges.push(point.offsetHz);
    before = point;
  }
  return edges;
}

function attenuationDb(points: readonly MaskPoint[], f: number): number {
  let before = points[0]!;
  for (const point of points) {
    if (f <= point.offsetHz) {
      const span = point.offsetHz - before.offsetHz;
      const share = span > 0 ? (f - before.offsetHz) / span : 1;
      return before.attenuationDb + share * (point.attenuationDb - before.attenuationDb);
    }
    before = point;
  }
  return before.attenuationDb;
}
