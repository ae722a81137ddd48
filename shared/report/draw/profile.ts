/**
 * The path drawn from the side. The Earth's curve is added to the ground (for the median k), so that the ray is a
 * straight line; heights on the axis hold at the two ends.
 */
import { extent } from "d3-array";
import { scaleLinear } from "d3-scale";
import { area, line } from "d3-shape";
import type { Hop } from "../../design/design.js";
import type { ClearanceResult, HopResult } from "../../evaluate/result.js";
import { fixed, fresnel, fresnelAsked, kFactor, kilometres, metres } from "../../format/numbers.js";
import type { TerrainProfile } from "../../terrain/profile.js";
import { coordinate, element, escaped } from "../document/markup.js";
import { LabelRows } from "./labels.js";
import { groundAt, isGrave, type Label, labelsOf, obstacleLabels } from "./profile-labels.js";
import {
  antennaHeightsM,
  bulgeM,
  drawnKFactor,
  type ProfilePoint,
  profileLine,
  sameK,
} from "./profile-points.js";

export interface DrawnProfile {
  readonly svg: string;
  /** What it shows, in words. */
  readonly alt: string;
  readonly caption: string;
}

/** Beyond it the parabola of the Earth's curve means nothing, and neither would the drawing. */
const LONGEST_DRAWN_M = 1_000_000;

/** Nothing on the Earth stands so high; a drawing of a slip of the keyboard shows nothing else. */
const BEYOND_ANY_HEIGHT_M = 100_000;

const WIDTH = 960;
const PLOT = { left: 54, right: 940, top: 50, bottom: 372 };
const ROW = 16;

/**
 * @param accepted the design accepts what is not met: shown as such
 * @returns undefined when there is no ground to draw: no known height, a path without length or beyond 1000 km, a height beyond 100 km
 */
export function drawProfile(
  hop: Hop,
  result: HopResult,
  profile: TerrainProfile,
  accepted = false,
): DrawnProfile | undefined {
  const k = drawnKFactor(hop);
  const whole = profileLine(hop, result, profile, k);
  if (
    whole === undefined ||
    whole.lengthM > LONGEST_DRAWN_M ||
    !whole.points.some(({ groundM }) => groundM !== undefined)
  )
    return undefined;
  const lengthM = whole.lengthM;
  const points = thinned(whole.points);
  const criticals = labelsOf(result, lengthM, k, accepted);
  const labels = [...criticals, ...obstacleLabels(hop, whole.points, criticals, lengthM, k)];
  const x = scaleLinear([0, lengthM], [PLOT.left, PLOT.right]);
  const rows = new LabelRows(PLOT.left + 4, PLOT.right - 4);
  const placed = labels.map((label) => ({
    ...label,
    ...rows.place(x(label.distanceM), label.text, isGrave(label)),
  }));
  // The lowest part of the land is kept free for the labels.
  const y = heightScale(points, labels, result, PLOT.bottom - 14 - rows.count * ROW);
  if (y === undefined) return undefined;
  const scales: Scales = { x, y, lengthM };
  const lowK = lowestAskedK(result, k);
  const parts = [
    grid(scales, result.ends[0]),
    zone(points, scales),
    land(points, scales),
    lowK === undefined ? "" : lowKLines(points, lowK, scales),
    gaps(result, scales),
    asked(points, result, k, scales),
    ray(points, scales),
    obstacles(hop, points, scales, k),
    ends(result, scales),
    ...placed.map((label) => critical(label, scales)),
    legend(result, k, lowK),
  ];
  const svg = element("svg", { viewBox: `0 0 ${WIDTH} 440`, width: WIDTH, height: 440 }, ...parts);
  return { svg, alt: altText(result, lengthM), caption: captionText(lengthM, k) };
}

type Scale = ((value: number) => number) & { ticks(count?: number): number[] };

interface Scales {
  readonly x: Scale;
  readonly y: Scale;
  readonly lengthM: number;
}

const MOST_POINTS = 900;

/** Of many points the lowest and the highest in each stretch, so that no summit is lost. */
function thinned(points: readonly ProfilePoint[]): readonly ProfilePoint[] {
  if (points.length <= MOST_POINTS) return points;
  const size = Math.ceil(points.length / (MOST_POINTS / 2));
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

function heightScale(
  points: readonly ProfilePoint[],
  labels: readonly Label[],
  result: HopResult,
  bottom: number,
): Scale | undefined {
  const heights = points.flatMap(({ groundM, bulgeM: bulge, rayM, fresnelRadiusM = 0 }) => [
    ...(groundM === undefined ? [] : [groundM + bulge]),
    ...(rayM === undefined ? [] : [rayM + fresnelRadiusM, rayM - fresnelRadiusM]),
  ]);
  heights.push(...labels.map(({ drawnM }) => drawnM), ...(antennaHeightsM(result) ?? []));
  const [low, high] = extent(heights) as [number, number];
  if (!(Math.max(high, -low) < BEYOND_ANY_HEIGHT_M)) return undefined;
  // A flat path must not look like mountains.
  const spare = Math.max(0, 40 - (high - low)) / 2;
  return scaleLinear([low - spare, high + spare], [bottom, PLOT.top]);
}

function grid({ x, y }: Scales, from: string): string {
  const parts: string[] = [];
  const [top, bottom] = [PLOT.top, PLOT.bottom];
  for (const tick of y.ticks(6)) {
    const at = y(tick);
    if (at < top - 1 || at > bottom) continue;
    parts.push(element("path", { class: "grid", d: `M${PLOT.left} ${coordinate(at)}H${PLOT.right}` }));
    parts.push(text(PLOT.left - 8, at + 4, String(tick), "quiet", "end"));
  }
  const ticks = x.ticks(8);
  const digits = ticks.length > 1 && ticks[1]! - ticks[0]! < 1000 ? (ticks[1]! - ticks[0]! < 100 ? 2 : 1) : 0;
  for (const tick of ticks) {
    const at = x(tick);
    parts.push(element("path", { class: "axis", d: `M${coordinate(at)} ${bottom}v5` }));
    parts.push(text(at, bottom + 19, fixed(tick / 1000, digits), "quiet", "middle"));
  }
  parts.push(element("path", { class: "axis", d: `M${PLOT.left} ${bottom}H${PLOT.right}` }));
  parts.push(text(PLOT.right, bottom + 35, `km from ${from}`, "quiet", "end"));
  parts.push(text(8, top - 16, "m above sea", "quiet small", "start"));
  return parts.join("");
}

function zone(points: readonly ProfilePoint[], { x, y }: Scales): string {
  const known = points.filter(
    ({ rayM, fresnelRadiusM }) => rayM !== undefined && fresnelRadiusM !== undefined,
  );
  const shape = area<ProfilePoint>(
    (point) => x(point.distanceM),
    (point) => y(point.rayM! - point.fresnelRadiusM!),
    (point) => y(point.rayM! + point.fresnelRadiusM!),
  ).digits(1);
  return path("zone", shape(known));
}

function land(points: readonly ProfilePoint[], { x, y }: Scales): string {
  const defined = ({ groundM }: ProfilePoint) => groundM !== undefined;
  const top = (point: ProfilePoint) => y(point.groundM! + point.bulgeM);
  const at = (point: ProfilePoint) => x(point.distanceM);
  const fill = area<ProfilePoint>(at, PLOT.bottom, top).defined(defined).digits(1);
  const edge = line<ProfilePoint>(at, top).defined(defined).digits(1);
  return path("land", fill(points)) + path("land-edge", edge(points));
}

/** The ground as it stands against the ray when k is small, and the part of the zone asked for then. */
function lowKLines(
  points: readonly ProfilePoint[],
  criterion: ClearanceResult,
  { x, y, lengthM }: Scales,
): string {
  const at = (point: ProfilePoint) => x(point.distanceM);
  const ground = line<ProfilePoint>(at, (point) =>
    y(point.groundM! + bulgeM(point.distanceM, lengthM, criterion.kFactor)),
  )
    .defined(({ groundM }) => groundM !== undefined)
    .digits(1);
  return (
    path("low-k", ground(points)) +
    path("low-k", belowRay(points, criterion.requiredFraction, { x, y, lengthM }))
  );
}

function asked(points: readonly ProfilePoint[], result: HopResult, k: number, scales: Scales): string {
  const criterion = askedAt(result, k);
  return criterion ? path("asked", belowRay(points, criterion.requiredFraction, scales)) : "";
}

function belowRay(points: readonly ProfilePoint[], fraction: number, { x, y }: Scales): string | null {
  const known = points.filter(
    ({ rayM, fresnelRadiusM }) => rayM !== undefined && fresnelRadiusM !== undefined,
  );
  const shape = line<ProfilePoint>(
    (point) => x(point.distanceM),
    (point) => y(point.rayM! - fraction * point.fresnelRadiusM!),
  ).digits(1);
  return shape(known);
}

/** The largest part asked for at the k of the drawing. */
function askedAt(result: HopResult, k: number): ClearanceResult | undefined {
  const same = result.clearance.filter((one) => !one.forInformation && sameK(one.kFactor, k));
  return same.toSorted((a, b) => b.requiredFraction - a.requiredFraction)[0];
}

/** The criterion of the smallest k, where it is another than the drawing's. */
function lowestAskedK(result: HopResult, k: number): ClearanceResult | undefined {
  const others = result.clearance.filter((one) => !one.forInformation && !sameK(one.kFactor, k));
  return others.toSorted((a, b) => a.kFactor - b.kFactor)[0];
}

function ray(points: readonly ProfilePoint[], { x, y }: Scales): string {
  const known = points.filter(({ rayM }) => rayM !== undefined);
  const first = known[0];
  const last = known.at(-1);
  if (!first || !last) return "";
  const d = `M${coordinate(x(first.distanceM))} ${coordinate(y(first.rayM!))}L${coordinate(x(last.distanceM))} ${coordinate(y(last.rayM!))}`;
  return path("ray", d);
}

function gaps(result: HopResult, { x, lengthM }: Scales): string {
  return (result.profile?.gaps ?? [])
    .map(({ fromM, toM }) => {
      const from = x(Math.max(0, fromM));
      const to = Math.max(from + 2, x(Math.min(lengthM, toM)));
      const box = element("rect", {
        class: "gap",
        x: from,
        y: PLOT.top,
        width: to - from,
        height: PLOT.bottom - PLOT.top,
      });
      const sides = path(
        "gap-edge",
        `M${coordinate(from)} ${PLOT.top}V${PLOT.bottom}M${coordinate(to)} ${PLOT.top}V${PLOT.bottom}`,
      );
      return box + sides;
    })
    .join("");
}

function obstacles(hop: Hop, points: readonly ProfilePoint[], { x, y, lengthM }: Scales, k: number): string {
  return hop.obstacles
    .map(({ distanceM, heightM }) => {
      const groundM = groundAt(points, distanceM);
      if (groundM === undefined || !(distanceM > 0 && distanceM < lengthM)) return "";
      const foot = groundM + bulgeM(distanceM, lengthM, k);
      const at = coordinate(x(distanceM));
      return path("obstacle", `M${at} ${coordinate(y(foot))}V${coordinate(y(foot + heightM))}`);
    })
    .join("");
}

/** Masts with their antennas, and over the plot what stands at each end. */
function ends(result: HopResult, { x, y, lengthM }: Scales): string {
  const sides = [
    { at: x(0), anchor: "start", textX: PLOT.left + 46, name: result.ends[0] },
    { at: x(lengthM), anchor: "end", textX: PLOT.right, name: result.ends[1] },
  ] as const;
  return sides
    .map(({ at, anchor, textX, name }, index) => {
      const end = result.geometry?.[index];
      const title = text(textX, 18, name, "strong", anchor);
      if (!end) return title;
      const foot = y(end.groundM);
      const head = y(end.groundM + end.antennaHeightM);
      const note = `antenna ${metres(end.antennaHeightM)} above ground at ${metres(end.groundM)}`;
      return [
        title,
        text(textX, 34, note, "quiet", anchor),
        path("mast", `M${coordinate(at)} ${coordinate(foot)}V${coordinate(head)}`),
        element("circle", { class: "antenna", cx: at, cy: head, r: 4.5 }),
      ].join("");
    })
    .join("");
}

function critical(label: Label & { row: number; x: number }, { x, y }: Scales): string {
  const at = x(label.distanceM);
  const top = y(label.drawnM);
  const base = PLOT.bottom - 8 - label.row * ROW;
  return [
    path("leader", `M${coordinate(at)} ${coordinate(top)}L${coordinate(at)} ${coordinate(base - 11)}`),
    element("circle", { class: `mark ${label.tone}`, cx: at, cy: top, r: 3.5 }),
    text(label.x, base, label.text, isGrave(label) ? `strong ${label.tone}` : "small", "middle"),
  ].join("");
}

function legend(result: HopResult, k: number, lowK: ClearanceResult | undefined): string {
  const here = askedAt(result, k);
  const items: [string, string][] = [["land", `ground, ${kFactor(k)}`]];
  if (result.geometry) items.push(["ray", "ray"]);
  if (result.clearance.length > 0) items.push(["zone", "first Fresnel zone"]);
  if (here) items.push(["asked", `${fresnelAsked(here.requiredFraction)} asked`]);
  if (lowK)
    items.push(["low-k", `${kFactor(lowK.kFactor)}: ground, ${fresnelAsked(lowK.requiredFraction)} asked`]);
  if ((result.profile?.gaps.length ?? 0) > 0) items.push(["gap", "no heights"]);
  let at = PLOT.left;
  return items
    .map(([kind, words]) => {
      const swatch = ["land", "zone", "gap"].includes(kind)
        ? element("rect", { class: kind, x: at, y: 419, width: 22, height: 11 })
        : path(kind, `M${at} 424.5h22`);
      const label = text(at + 28, 429, words, "small quiet", "start");
      at += 28 + words.length * 5.9 + 22;
      return swatch + label;
    })
    .join("");
}

function captionText(lengthM: number, k: number): string {
  return `Heights rise by the Earth's curve for ${kFactor(k)}, by ${metres(bulgeM(lengthM / 2, lengthM, k))} at mid-path, so that the ray is straight; the axis holds at the ends. Heights are drawn larger than lengths.`;
}

function altText(result: HopResult, lengthM: number): string {
  const [from, to] = result.ends;
  const worst = result.clearance[0];
  const said = worst ? `; at ${kilometres(worst.distanceM)} ${fresnel(worst.fraction)} are free` : "";
  return `Profile of the path from ${from} to ${to}, ${kilometres(lengthM)}${said}`;
}

function text(
  x: number,
  y: number,
  words: string,
  style: string,
  anchor: "start" | "middle" | "end",
): string {
  return element("text", { class: style, x, y, "text-anchor": anchor }, escaped(words));
}

function path(style: string, d: string | null): string {
  return d ? element("path", { class: style, d }) : "";
}
