/** What a drawn profile shows from end to end: axes, ground, ray, Fresnel zone and where nothing is known. */
import { area, line } from "d3-shape";
import type { ClearanceResult } from "../../evaluate/account/path-result.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { fixed } from "../../format/numbers.js";
import { coordinate, element } from "../document/markup.js";
import { bulgeM, type ProfilePoint, sameK } from "./profile-points.js";
import { type Plot, path, type Scale, text } from "./sheet.js";

export interface Scales {
  readonly x: Scale;
  readonly y: Scale;
  readonly lengthM: number;
  readonly plot: Plot;
}

/** Of many points the lowest and the highest in each stretch, so that no summit is lost. */
export function thinned(points: readonly ProfilePoint[], most: number): readonly ProfilePoint[] {
  if (points.length <= most) return points;
  const size = Math.ceil(points.length / (most / 2));
  const kept: ProfilePoint[] = [points[0]!];
  for (let from = 1; from < points.length - 1; from += size) {
    const stretch = points.slice(from, Math.min(from + size, points.length - 1));
    const low = stretch.reduce((a, b) => ((b.groundM ?? Infinity) < (a.groundM ?? Infinity) ? b : a));
    const high = stretch.reduce((a, b) => ((b.groundM ?? -Infinity) > (a.groundM ?? -Infinity) ? b : a));
    const unknown = stretch.find(({ groundM }) => groundM === undefined);
    const some = [...new Set([low, high, ...(unknown ? [unknown] : [])])];
    kept.push(...some.sort((a, b) => a.distanceM - b.distanceM));
  }
  kept.push(points.at(-1)!);
  return kept;
}

export function grid({ x, y, plot }: Scales, from: string): string {
  const parts: string[] = [];
  const { left, right, top, bottom } = plot;
  for (const tick of y.ticks(6)) {
    const at = y(tick);
    if (at < top - 1 || at > bottom) continue;
    parts.push(element("path", { class: "grid", d: `M${left} ${coordinate(at)}H${right}` }));
    parts.push(text(left - 8, at + 4, String(tick), "quiet", "end"));
  }
  // A figure takes some 40 units, and its neighbours shall stand apart.
  const ticks = x.ticks(Math.min(8, Math.floor((right - left) / 60)));
  const digits = ticks.length > 1 && ticks[1]! - ticks[0]! < 1000 ? (ticks[1]! - ticks[0]! < 100 ? 2 : 1) : 0;
  for (const tick of ticks) {
    const at = x(tick);
    parts.push(element("path", { class: "axis", d: `M${coordinate(at)} ${bottom}v5` }));
    parts.push(text(at, bottom + 19, fixed(tick / 1000, digits), "quiet", "middle"));
  }
  parts.push(element("path", { class: "axis", d: `M${left} ${bottom}H${right}` }));
  parts.push(text(right, bottom + 35, `km from ${from}`, "quiet", "end"));
  parts.push(text(6, top - 12, "m a.s.l.", "quiet small"));
  return parts.join("");
}

export function zone(points: readonly ProfilePoint[], { x, y }: Scales): string {
  const shape = area<ProfilePoint>(
    (point) => x(point.distanceM),
    (point) => y(point.rayM! - point.fresnelRadiusM!),
    (point) => y(point.rayM! + point.fresnelRadiusM!),
  ).digits(1);
  return path("zone", shape(zonePoints(points)));
}

/** The zone is smooth, and drawn with fewer points than the ground. */
function zonePoints(points: readonly ProfilePoint[]): readonly ProfilePoint[] {
  const known = points.filter(
    ({ rayM, fresnelRadiusM }) => rayM !== undefined && fresnelRadiusM !== undefined,
  );
  const every = Math.ceil(known.length / MOST_ZONE_POINTS);
  return known.filter((_, index) => index % every === 0 || index === known.length - 1);
}

const MOST_ZONE_POINTS = 150;

export function land(points: readonly ProfilePoint[], { x, y, plot }: Scales): string {
  const top = (point: ProfilePoint) => y(point.groundM! + point.bulgeM);
  const at = (point: ProfilePoint) => x(point.distanceM);
  const fill = area<ProfilePoint>(at, plot.bottom, top).defined(defined).digits(1);
  const edge = line<ProfilePoint>(at, top).defined(defined).digits(1);
  return path("land", fill(points)) + path("land-edge", edge(points));
}

const defined = ({ groundM }: ProfilePoint) => groundM !== undefined;

/** Trees and buildings of a survey, from the ground up. */
export function cover(points: readonly ProfilePoint[], { x, y }: Scales): string {
  if (!points.some(({ coverM }) => coverM !== undefined)) return "";
  const shape = area<ProfilePoint>(
    (point) => x(point.distanceM),
    (point) => y(point.groundM! + point.bulgeM),
    (point) => y(point.groundM! + point.bulgeM + (point.coverM ?? 0)),
  )
    .defined(defined)
    .digits(1);
  return path("cover", shape(points));
}

/** Ground that a straight line stands in for. */
export function bridges(
  points: readonly ProfilePoint[],
  { profile }: HopResult,
  { x, y, plot }: Scales,
): string {
  const top = (point: ProfilePoint) => y(point.groundM! + point.bulgeM);
  const shape = area<ProfilePoint>((point) => x(point.distanceM), plot.bottom, top)
    .defined(defined)
    .digits(1);
  return (profile?.bridges ?? [])
    .map(({ fromM, toM }) => points.filter(({ distanceM }) => distanceM >= fromM && distanceM <= toM))
    .map((within) => path("bridge", shape(within)))
    .join("");
}

/** The ground as it stands against the ray when k is small, and the part of the zone asked for then. */
export function lowKLines(
  points: readonly ProfilePoint[],
  criterion: ClearanceResult,
  scales: Scales,
): string {
  const { x, y, lengthM } = scales;
  const at = (point: ProfilePoint) => x(point.distanceM);
  const ground = line<ProfilePoint>(at, (point) =>
    y(point.groundM! + bulgeM(point.distanceM, lengthM, criterion.kFactor)),
  )
    .defined(({ groundM }) => groundM !== undefined)
    .digits(1);
  return path("low-k", ground(points)) + path("low-k", belowRay(points, criterion.requiredFraction, scales));
}

export function asked(points: readonly ProfilePoint[], result: HopResult, k: number, scales: Scales): string {
  const criterion = askedAt(result, k);
  return criterion ? path("asked", belowRay(points, criterion.requiredFraction, scales)) : "";
}

function belowRay(points: readonly ProfilePoint[], fraction: number, { x, y }: Scales): string | null {
  const shape = line<ProfilePoint>(
    (point) => x(point.distanceM),
    (point) => y(point.rayM! - fraction * point.fresnelRadiusM!),
  ).digits(1);
  return shape(zonePoints(points));
}

/** The largest part asked for at the k of the drawing. */
export function askedAt(result: HopResult, k: number): ClearanceResult | undefined {
  const same = result.clearance.filter((one) => !one.forInformation && sameK(one.kFactor, k));
  return same.toSorted((a, b) => b.requiredFraction - a.requiredFraction)[0];
}

/** The criterion of the smallest k, where it is another than the drawing's. */
export function lowestAskedK(result: HopResult, k: number): ClearanceResult | undefined {
  const others = result.clearance.filter((one) => !one.forInformation && !sameK(one.kFactor, k));
  return others.toSorted((a, b) => a.kFactor - b.kFactor)[0];
}

export function ray(points: readonly ProfilePoint[], { x, y }: Scales): string {
  const known = points.filter(({ rayM }) => rayM !== undefined);
  const first = known[0];
  const last = known.at(-1);
  if (!first || !last) return "";
  const d = `M${coordinate(x(first.distanceM))} ${coordinate(y(first.rayM!))}L${coordinate(x(last.distanceM))} ${coordinate(y(last.rayM!))}`;
  return path("ray", d);
}

export function gaps(result: HopResult, { x, lengthM, plot }: Scales): string {
  return (result.profile?.gaps ?? [])
    .map(({ fromM, toM }) => {
      const from = x(Math.max(0, fromM));
      const to = Math.max(from + 2, x(Math.min(lengthM, toM)));
      const box = element("rect", {
        class: "gap",
        x: from,
        y: plot.top,
        width: to - from,
        height: plot.bottom - plot.top,
      });
      const sides = path(
        "gap-edge",
        `M${coordinate(from)} ${plot.top}V${plot.bottom}M${coordinate(to)} ${plot.top}V${plot.bottom}`,
      );
      return box + sides;
    })
    .join("");
}
