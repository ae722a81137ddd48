import { type Bounds, meetingTurns, pathBounds, pixelSizeM, rasterBounds, turnToNearest } from "./bounds.js";
import type { Crs } from "./crs.js";
import type { Path } from "./path.js";
import type { LatLon } from "./profile.js";
import { projectionOf, projectPath } from "./projection.js";
import { type Placement, pixelTransform, type Raster, shiftedPlacement } from "./raster.js";
import { covers, fillFromRaster, markPending, type Sampling, type Span, UNCOVERED } from "./sample.js";

/** What must be known of a raster to tell whether, and with which of its pages, it serves a path. */
export interface MosaicMember {
  readonly width: number;
  readonly height: number;
  readonly placement: Placement;
  readonly crs: Crs;
  readonly pageWidth: number;
  readonly pageHeight: number;
}

/** A member with its box and its fineness, made once. */
export interface PlacedMember<M extends MosaicMember = MosaicMember> {
  readonly member: M;
  readonly bounds: Bounds;
  /** Square root of a pixel's area on the ground, metres: the smaller, the finer. */
  readonly finenessM: number;
}

/** One page of a member: a rectangle of pixels that is read and kept together. */
export interface Page {
  readonly column: number;
  readonly row: number;
  readonly width: number;
  readonly height: number;
}

/** Undefined when the raster has no place on the globe. */
export function placeMember<M extends MosaicMember>(member: M): PlacedMember<M> | undefined {
  const { width, height, placement, crs } = member;
  const bounds = rasterBounds(width, height, placement, crs);
  if (!bounds) return undefined;
  const size = pixelSizeM(width, height, placement, crs);
  return { member, bounds, finenessM: Math.sqrt(size.alongRowM * size.alongColumnM) };
}

/** The members whose box meets the path's, in the order given. */
export function membersAlong<M extends MosaicMember>(
  members: readonly PlacedMember<M>[],
  from: LatLon,
  to: LatLon,
): PlacedMember<M>[] {
  const box = pathBounds(from, to);
  return members.filter((m) => meetingTurns(m.bounds, box).length > 0);
}

/**
 * The step at which no row and no column of the raster's pixel centres is passed over without a sample: about 90 m
 * for 3 arc seconds along a meridian, less across it where the columns stand closer.
 */
export function matchingStepM(member: MosaicMember, from: LatLon, to: LatLon, lengthM: number): number {
  const projection = projectionOf(member.crs);
  const begin = turnToNearest(from.longitudeDeg);
  const [x1, y1] = projection.forward(begin, from.latitudeDeg);
  const [x2, y2] = projection.forward(begin + turnToNearest(to.longitudeDeg - begin), to.latitudeDeg);
  const t = pixelTransform(member.placement);
  const columns = Math.abs(t.columnPerX * (x2 - x1) + t.columnPerY * (y2 - y1));
  const rows = Math.abs(t.rowPerX * (x2 - x1) + t.rowPerY * (y2 - y1));
  const crossed = Math.max(columns, rows, 1);
  return Number.isFinite(crossed) ? lengthM / crossed : Math.max(lengthM, 1);
}

export interface MosaicHeights<M extends MosaicMember> {
  /** Metres; NaN where there is no height. */
  readonly heightM: Float64Array;
  /** Index into the members given, or UNCOVERED, VOID (see sample.ts). */
  readonly origin: Int16Array;
  /** Pages that must be brought into memory before the answer is whole. */
  readonly missing: readonly { member: M; page: Page }[];
}

/**
 * Heights along a path from the first member that has one at each point: where it is void or ends, the next is asked.
 * @param members best first
 * @param raster gives a page that is in memory, or undefined; the page is then named in `missing`
 */
export function mosaicHeights<M extends MosaicMember>(
  members: readonly PlacedMember<M>[],
  path: Path,
  from: LatLon,
  to: LatLon,
  raster: (member: M, page: Page) => Raster | undefined,
): MosaicHeights<M> {
  const { count, latitudeDeg, longitudeDeg } = path;
  const heightM = new Float64Array(count).fill(Number.NaN);
  const origin = new Int16Array(count).fill(UNCOVERED);
  const missing: { member: M; page: Page }[] = [];
  const box = pathBounds(from, to);
  let x: Float64Array | undefined;
  let y: Float64Array | undefined;
  let remaining = count;

  for (let index = 0; index < members.length && remaining > 0; index++) {
    const { member, bounds } = members[index]!;
    let points: Sampling = { count, x: longitudeDeg, y: latitudeDeg, heightM, origin };
    let turns = [0];
    if (member.crs.degrees) turns = meetingTurns(bounds, box);
    else {
      x ??= new Float64Array(count);
      y ??= new Float64Array(count);
      const spacingM = count > 1 ? path.lengthM / (count - 1) : 0;
      projectPath(projectionOf(member.crs), count, spacingM, longitudeDeg, latitudeDeg, x, y);
      points = { ...points, x, y };
    }
    for (const turn of turns) {
      for (const { page, ...span } of pagesFor(member, points, turn)) {
        const held = raster(member, page);
        if (held) remaining -= fillFromRaster(held, points, index, turn, span);
        else {
          const placement = shiftedPlacement(member.placement, page.column, page.row);
          const marked = markPending(page.width, page.height, placement, points, turn, span);
          if (marked > 0) missing.push({ member, page });
          remaining -= marked;
        }
      }
    }
  }
  return { heightM, origin, missing };
}

/** A page, and the span of the path's points within which all that lie in it are. */
interface Crossed extends Span {
  readonly page: Page;
}

/** The pages in which points without a height lie; a member of one page is not searched. */
function pagesFor(member: MosaicMember, points: Sampling, turn: number): readonly Crossed[] {
  const { width, height, pageWidth, pageHeight } = member;
  const { count } = points;
  if (pageWidth >= width - 1 && pageHeight >= height - 1)
    return [{ page: { column: 0, row: 0, width, height }, first: 0, end: count }];
  const t = pixelTransform(member.placement);
  const pages = new Map<number, { readonly page: Page; readonly first: number; end: number }>();
  const across = Math.ceil((width - 1) / pageWidth);
  const down = Math.ceil((height - 1) / pageHeight);
  for (let i = 0; i < count; i++) {
    const x = points.x[i]! + turn;
    const y = points.y[i]!;
    if (points.origin[i]! >= 0 || !covers(width, height, t, x, y)) continue;
    const column = t.column0 + t.columnPerX * x + t.columnPerY * y;
    const row = t.row0 + t.rowPerX * x + t.rowPerY * y;
    const pageColumn = Math.min(across - 1, Math.max(0, Math.floor(column / pageWidth)));
    const pageRow = Math.min(down - 1, Math.max(0, Math.floor(row / pageHeight)));
    const key = pageRow * across + pageColumn;
    const known = pages.get(key);
    if (known !== undefined) {
      known.end = i + 1;
      continue;
    }
    const left = pageColumn * pageWidth;
    const top = pageRow * pageHeight;
    const page = {
      column: left,
      row: top,
      width: Math.min(pageWidth + 1, width - left),
      height: Math.min(pageHeight + 1, height - top),
    };
    pages.set(key, { page, first: i, end: i + 1 });
  }
  return [...pages.values()];
}
