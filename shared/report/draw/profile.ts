/**
 * The path drawn from the side. The Earth's curve is added to the ground (for the median k), so that the ray is a
 * straight line; heights on the axis hold at the two ends.
 */

import { extent } from "d3-array";
import { scaleLinear } from "d3-scale";
import type { Hop } from "../../design/design.js";
import type { ClearanceResult } from "../../evaluate/account/path-result.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { withinReason } from "../../evaluate/reason.js";
import { fresnel, fresnelAsked, kFactor, kilometres, metres } from "../../format/numbers.js";
import type { TerrainProfile } from "../../terrain/profile.js";
import { coordinate, element } from "../document/markup.js";
import { LabelRows, textWidth } from "./labels.js";
import { furtherAntennas, furtherRayLines, furtherRayWords } from "./profile-further.js";
import {
  asked,
  askedAt,
  bridges,
  cover,
  gaps,
  grid,
  land,
  lowestAskedK,
  lowKLines,
  ray,
  type Scales,
  thinned,
  zone,
} from "./profile-ground.js";
import { groundAt, isGrave, type Label, labelsOf, obstacleLabels } from "./profile-labels.js";
import { antennaHeightsM, bulgeM, drawnKFactor, drawnLine, type ProfilePoint } from "./profile-points.js";
import { reflectedRays, reflectionLabels } from "./profile-reflection.js";
import { type LegendItem, legendBelow, path, type Scale, type Sheet, text } from "./sheet.js";

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

const WIDE: Sheet = {
  width: 960,
  plot: { left: 54, right: 940, top: 50, bottom: 372 },
  narrow: false,
  mostPoints: 900,
};

/** For a screen or a panel in which the wide one would shrink its words beyond reading. */
export const NARROW: Sheet = {
  width: 440,
  plot: { left: 42, right: 428, top: 54, bottom: 314 },
  narrow: true,
  mostPoints: 360,
};

const ROW = 16;

/**
 * @param accepted the design accepts what is not met: shown as such
 * @returns undefined when there is no ground to draw: no known height, a path without length or beyond 1000 km, a height beyond 100 km
 */
export function drawProfile(
  stated: Hop,
  result: HopResult,
  profile: TerrainProfile,
  accepted = false,
  sheet = WIDE,
): DrawnProfile | undefined {
  // What was not believed is not drawn.
  const { hop } = withinReason(stated);
  const k = drawnKFactor(hop);
  const whole = drawnLine(hop, result, profile, k);
  if (
    whole === undefined ||
    whole.lengthM > LONGEST_DRAWN_M ||
    !whole.points.some(({ groundM }) => groundM !== undefined)
  )
    return undefined;
  const { plot } = sheet;
  const lengthM = whole.lengthM;
  const points = thinned(whole.points, sheet.mostPoints);
  const criticals = labelsOf(result, lengthM, k, accepted);
  const labels = [
    ...criticals,
    ...reflectionLabels(result, lengthM, k),
    ...obstacleLabels(hop, whole.points, criticals, lengthM, k),
  ];
  const x = scaleLinear([0, lengthM], [plot.left, plot.right]);
  const rows = new LabelRows(plot.left + 4, plot.right - 4);
  const placed = labels.map((label) => {
    const words = fitting(label, plot.right - plot.left - 8);
    return { ...label, words, ...rows.place(x(label.distanceM), words, isGrave(label)) };
  });
  // The lowest part of the land is kept free for the labels.
  const y = heightScale(points, labels, hop, result, plot.bottom - 14 - rows.count * ROW, plot.top);
  if (y === undefined) return undefined;
  const scales: Scales = { x, y, lengthM, plot };
  const lowK = lowestAskedK(result, k);
  const hasCover = points.some(({ coverM }) => coverM !== undefined);
  const legend = legendBelow(legendItems(hop, result, k, lowK, hasCover), plot.bottom + 47, plot);
  const height = plot.bottom + 50 + legend.height;
  const parts = [
    grid(scales, result.ends[0]),
    zone(points, scales),
    land(points, scales),
    cover(points, scales),
    bridges(points, result, scales),
    lowK === undefined ? "" : lowKLines(points, lowK, scales),
    gaps(result, scales),
    asked(points, result, k, scales),
    reflectedRays(result, scales, k),
    furtherRayLines(hop, result, scales),
    ray(points, scales),
    obstacles(hop, points, scales, k),
    ends(result, scales, sheet.narrow),
    ...placed.map((label) => critical(label, scales)),
    legend.svg,
  ];
  const svg = element(
    "svg",
    { viewBox: `0 0 ${sheet.width} ${height}`, width: sheet.width, height },
    ...parts,
  );
  return { svg, alt: altText(result, lengthM), caption: captionText(lengthM, k) };
}

/** The label in full where the plot is wide enough for it. */
function fitting(label: Label, room: number): string {
  return textWidth(label.text, isGrave(label)) <= room ? label.text : label.brief;
}

function heightScale(
  points: readonly ProfilePoint[],
  labels: readonly Label[],
  hop: Hop,
  result: HopResult,
  bottom: number,
  top: number,
): Scale | undefined {
  const heights = points.flatMap(({ groundM, coverM = 0, bulgeM: bulge, rayM, fresnelRadiusM = 0 }) => [
    ...(groundM === undefined ? [] : [groundM + bulge, groundM + coverM + bulge]),
    ...(rayM === undefined ? [] : [rayM + fresnelRadiusM, rayM - fresnelRadiusM]),
  ]);
  heights.push(...labels.map(({ drawnM }) => drawnM), ...(antennaHeightsM(result) ?? []));
  heights.push(...furtherAntennas(hop, result).map(({ aslM }) => aslM));
  const [low, high] = extent(heights) as [number, number];
  if (!(Math.max(high, -low) < BEYOND_ANY_HEIGHT_M)) return undefined;
  // A flat path must not look like mountains.
  const spare = Math.max(0, 40 - (high - low)) / 2;
  return scaleLinear([low - spare, high + spare], [bottom, top]);
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
function ends(result: HopResult, { x, y, lengthM, plot }: Scales, narrow: boolean): string {
  const sides = [
    { at: x(0), anchor: "start", textX: narrow ? plot.left : plot.left + 46, name: result.ends[0] },
    { at: x(lengthM), anchor: "end", textX: plot.right, name: result.ends[1] },
  ] as const;
  return sides
    .map(({ at, anchor, textX, name }, index) => {
      const end = result.geometry?.[index];
      const title = text(textX, narrow ? 14 : 18, name, "strong", anchor);
      if (!end) return title;
      const foot = y(end.groundM);
      const head = y(end.groundM + end.antennaHeightM);
      const [antenna, ground] = [metres(end.antennaHeightM), metres(end.groundM)];
      const note = narrow ? `${antenna} on ${ground}` : `antenna ${antenna} above ground at ${ground} a.s.l.`;
      return [
        title,
        text(textX, narrow ? 29 : 34, note, "quiet", anchor),
        path("mast", `M${coordinate(at)} ${coordinate(foot)}V${coordinate(head)}`),
        element("circle", { class: "antenna", cx: at, cy: head, r: 4.5 }),
      ].join("");
    })
    .join("");
}

function critical(label: Label & { words: string; row: number; x: number }, { x, y, plot }: Scales): string {
  const at = x(label.distanceM);
  const top = y(label.drawnM);
  const base = plot.bottom - 8 - label.row * ROW;
  return [
    path("leader", `M${coordinate(at)} ${coordinate(top)}L${coordinate(at)} ${coordinate(base - 11)}`),
    element("circle", { class: `mark ${label.tone}`, cx: at, cy: top, r: 3.5 }),
    text(label.x, base, label.words, isGrave(label) ? `strong ${label.tone}` : "small", "middle"),
  ].join("");
}

function legendItems(
  hop: Hop,
  result: HopResult,
  k: number,
  lowK: ClearanceResult | undefined,
  hasCover: boolean,
): LegendItem[] {
  const here = askedAt(result, k);
  const items: LegendItem[] = [{ kind: "land", words: `ground, ${kFactor(k)}`, area: true }];
  if (hasCover) items.push({ kind: "cover", words: "trees and buildings as surveyed", area: true });
  if (result.geometry) items.push({ kind: "ray", words: "ray" });
  if (furtherAntennas(hop, result).length > 0) items.push({ kind: "diversity", words: furtherRayWords(hop) });
  if (result.clearance.length > 0) items.push({ kind: "zone", words: "first Fresnel zone", area: true });
  if (here) items.push({ kind: "asked", words: `${fresnelAsked(here.requiredFraction)} asked` });
  if (lowK) {
    const words = `${kFactor(lowK.kFactor)}: ground, ${fresnelAsked(lowK.requiredFraction)} asked`;
    items.push({ kind: "low-k", words });
  }
  if (result.reflections?.some(({ onSurface }) => onSurface))
    items.push({ kind: "reflected", words: "reflected ray" });
  if (result.profile?.bridges) items.push({ kind: "bridge", words: "no heights, bridged", area: true });
  if ((result.profile?.gaps.length ?? 0) > 0) items.push({ kind: "gap", words: "no heights", area: true });
  return items;
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
