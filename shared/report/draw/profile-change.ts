/** The path of a hop before and after a change, drawn over each other from the side. */
import { extent } from "d3-array";
import { scaleLinear } from "d3-scale";
import { area, line } from "d3-shape";
import type { Hop } from "../../design/design.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { fixed, fresnel, kFactor, kilometres } from "../../format/numbers.js";
import type { TerrainProfile } from "../../terrain/profile.js";
import { coordinate, element, escaped } from "../document/markup.js";
import { worstClearance } from "../pages/figures.js";
import type { DrawnProfile } from "./profile.js";
import { drawnKFactor, drawnLine, type ProfileLine, type ProfilePoint } from "./profile-points.js";

export interface ProfileSide {
  readonly hop: Hop;
  readonly result: HopResult;
  readonly profile: TerrainProfile;
}

const WIDTH = 960;
const HEIGHT = 330;
const PLOT = { left: 54, right: 940, top: 46, bottom: 270 };
/** Beyond it the drawing shows a slip of the keyboard and nothing else. */
const BEYOND_M = 100_000;
const LONGEST_M = 1_000_000;
const MOST_POINTS = 900;

/** @returns undefined unless both sides have ground and ray to draw */
export function drawProfileChange(
  was: ProfileSide | undefined,
  is: ProfileSide | undefined,
): DrawnProfile | undefined {
  if (!was || !is) return undefined;
  const from = is.result.ends[0];
  const [before, now] = [lineOf(was, from), lineOf(is, from)];
  if (!before || !now) return undefined;
  const x = scaleLinear([0, Math.max(before.lengthM, now.lengthM)], [PLOT.left, PLOT.right]);
  const heights = [...before.points, ...now.points].flatMap(({ groundM, bulgeM, rayM }) => [
    ...(groundM === undefined ? [] : [groundM + bulgeM]),
    ...(rayM === undefined ? [] : [rayM]),
  ]);
  const [low, high] = extent(heights) as [number, number];
  if (!(Math.max(high, -low) < BEYOND_M)) return undefined;
  const spare = Math.max(0, 40 - (high - low)) / 2;
  const y = scaleLinear([low - spare, high + spare], [PLOT.bottom - 10, PLOT.top]);
  const scales = { x, y };
  const parts = [
    axes(scales, from),
    land(now, scales),
    ground(before, scales, "was"),
    ray(before, scales, "was"),
    ray(now, scales, "ray"),
    critical(was.result, before, scales, from, "info"),
    critical(is.result, now, scales, from, "good"),
    names(is.result),
    legend(),
  ];
  const svg = element("svg", { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, width: WIDTH, height: HEIGHT }, ...parts);
  return {
    svg,
    alt: `Profile before and after the change. ${told(was.result, is.result)}`,
    caption: told(was.result, is.result),
  };
}

/** Points counted from the same site on both sides, whichever end the text names first. */
function lineOf({ hop, result, profile }: ProfileSide, from: string): ProfileLine | undefined {
  const whole = drawnLine(hop, result, profile, drawnKFactor(hop));
  if (!whole || whole.lengthM > LONGEST_M || !whole.points.some(({ groundM }) => groundM !== undefined))
    return undefined;
  const every = Math.ceil(whole.points.length / MOST_POINTS);
  const thin = every > 1 ? thinned(whole.points, every) : whole.points;
  if (result.ends[0] === from || result.ends[1] !== from) return { ...whole, points: thin };
  const points = thin.map((point) => ({ ...point, distanceM: whole.lengthM - point.distanceM })).reverse();
  return { ...whole, points };
}

/** The highest of each stretch, so that no summit is lost, and both ends. */
function thinned(points: readonly ProfilePoint[], every: number): ProfilePoint[] {
  const kept: ProfilePoint[] = [points[0]!];
  for (let from = 1; from < points.length - 1; from += every) {
    const stretch = points.slice(from, Math.min(from + every, points.length - 1));
    kept.push(stretch.reduce((a, b) => ((b.groundM ?? -Infinity) > (a.groundM ?? -Infinity) ? b : a)));
  }
  return [...kept, points.at(-1)!];
}

interface Scales {
  readonly x: ((value: number) => number) & { ticks(count?: number): number[] };
  readonly y: ((value: number) => number) & { ticks(count?: number): number[] };
}

const known = ({ groundM }: ProfilePoint) => groundM !== undefined;

function land({ points }: ProfileLine, { x, y }: Scales): string {
  const at = (point: ProfilePoint) => x(point.distanceM);
  const top = (point: ProfilePoint) => y(point.groundM! + point.bulgeM);
  const fill = area<ProfilePoint>(at, PLOT.bottom, top).defined(known).digits(1);
  const edge = line<ProfilePoint>(at, top).defined(known).digits(1);
  return path("land", fill(points)) + path("land-edge", edge(points));
}

function ground({ points }: ProfileLine, { x, y }: Scales, style: string): string {
  const edge = line<ProfilePoint>(
    (point) => x(point.distanceM),
    (point) => y(point.groundM! + point.bulgeM),
  )
    .defined(known)
    .digits(1);
  return path(style, edge(points));
}

function ray({ points }: ProfileLine, { x, y }: Scales, style: string): string {
  const [first, last] = [points[0], points.at(-1)];
  if (first?.rayM === undefined || last?.rayM === undefined) return "";
  const at = ({ distanceM, rayM }: ProfilePoint) => `${coordinate(x(distanceM))} ${coordinate(y(rayM!))}`;
  return path(style, `M${at(first)}L${at(last)}`);
}

/** Where the clearance that has least to spare is. */
function critical(
  result: HopResult,
  whole: ProfileLine,
  { x, y }: Scales,
  from: string,
  tone: "good" | "info",
): string {
  const worst = worstClearance(result);
  if (!worst) return "";
  const distanceM = result.ends[0] === from ? worst.distanceM : whole.lengthM - worst.distanceM;
  const nearest = whole.points.reduce((a, b) =>
    Math.abs(b.distanceM - distanceM) < Math.abs(a.distanceM - distanceM) ? b : a,
  );
  const at = { cx: x(distanceM), cy: y(worst.obstacleM + nearest.bulgeM), r: 3.5 };
  return element("circle", { class: `mark ${tone}`, ...at });
}

function axes({ x, y }: Scales, from: string): string {
  const parts: string[] = [];
  for (const tick of y.ticks(5)) {
    const at = y(tick);
    if (at < PLOT.top - 1 || at > PLOT.bottom) continue;
    parts.push(path("grid", `M${PLOT.left} ${coordinate(at)}H${PLOT.right}`));
    parts.push(text(PLOT.left - 8, at + 4, String(tick), "quiet", "end"));
  }
  const ticks = x.ticks(8);
  const digits = ticks.length > 1 && ticks[1]! - ticks[0]! < 1000 ? 1 : 0;
  for (const tick of ticks) {
    parts.push(path("axis", `M${coordinate(x(tick))} ${PLOT.bottom}v5`));
    parts.push(text(x(tick), PLOT.bottom + 19, fixed(tick / 1000, digits), "quiet", "middle"));
  }
  parts.push(path("axis", `M${PLOT.left} ${PLOT.bottom}H${PLOT.right}`));
  parts.push(text(PLOT.right, PLOT.bottom + 35, `km from ${from}`, "quiet", "end"));
  parts.push(text(8, PLOT.top - 14, "m above sea", "quiet small", "start"));
  return parts.join("");
}

function names({ ends }: HopResult): string {
  return (
    text(PLOT.left + 46, 18, ends[0], "strong", "start") + text(PLOT.right, 18, ends[1], "strong", "end")
  );
}

function legend(): string {
  const items = [
    ["was", "ground and ray before"],
    ["land-edge", "ground now"],
    ["ray", "ray now"],
  ] as const;
  let at = PLOT.left;
  return items
    .map(([style, words]) => {
      const row =
        path(style, `M${coordinate(at)} ${HEIGHT - 14}h22`) +
        text(at + 28, HEIGHT - 10, words, "small quiet", "start");
      at += 50 + words.length * 6.2;
      return row;
    })
    .join("");
}

function told(was: HopResult, is: HopResult): string {
  const [before, now] = [worstClearance(was), worstClearance(is)];
  if (!before || !now) return "Points mark where the path comes nearest to the ground.";
  const said = ({ fraction, kFactor: k, distanceM }: typeof now, ends: readonly string[]) =>
    `${fresnel(fraction)} (${kFactor(k)}) ${kilometres(distanceM)} from ${ends[0]}`;
  return `Least clearance before: ${said(before, was.ends)}; now: ${said(now, is.ends)}. The Earth's curve is added to the ground.`;
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
