/** How the received level goes up and down with the height of an antenna while a surface reflects. */
import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import type { Hop } from "../../design/design.js";
import type { ReflectionEnd, ReflectionResult } from "../../evaluate/account/reflection-result.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { fixed, kFactor, metres } from "../../format/numbers.js";
import { reflectionGeometry } from "../../propagation/p530/reflection.js";
import { coordinate, element } from "../document/markup.js";
import { path, type Scale, text } from "./sheet.js";

const WIDTH = 480;
const HEIGHT = 224;
const PLOT = { left: 46, right: 468, top: 14, bottom: 176 };
const POINTS = 241;

/** Deeper cancellation is drawn to here: how deep it really gets depends on what no drawing knows. */
const DEEPEST_DB = -25;

interface Ripple {
  readonly site: string;
  readonly heightM: number;
  readonly diversityHeightM?: number;
  readonly fromM: number;
  readonly toM: number;
  /** Level against the direct ray alone; undefined where the two rays do not meet. */
  readonly levelDb: (heightM: number, k: number) => number | undefined;
}

/**
 * The two-ray sum over the antenna height of the end that carries the remedy: the end with a diversity antenna, else
 * the one where the least change helps. The reflected ray keeps the strength it has at the height of the design.
 * @returns undefined where the reflection has no end to show it at
 */
export function drawRipple(
  hop: Hop,
  result: HopResult,
  one: ReflectionResult,
): { readonly svg: string; readonly alt: string; readonly caption: string } | undefined {
  const ripple = rippleOf(hop, result, one);
  if (ripple === undefined) return undefined;
  const { site, heightM, diversityHeightM, fromM, toM } = ripple;
  const x = scaleLinear([fromM, toM], [PLOT.left, PLOT.right]);
  const lowestDb = Math.max(DEEPEST_DB, -one.deepestFadeDb - 2);
  const y = scaleLinear([lowestDb, one.highestGainDb + 1], [PLOT.bottom, PLOT.top]);
  const steep = one.kRange[1];
  const here = ripple.levelDb(heightM, one.kFactor);
  const there = diversityHeightM === undefined ? undefined : ripple.levelDb(diversityHeightM, one.kFactor);
  const parts = [
    axes(x, y, site),
    path("low-k", curve(ripple, steep, lowestDb, x, y)),
    path("ripple", curve(ripple, one.kFactor, lowestDb, x, y)),
    here === undefined ? "" : mark(x(heightM), y(Math.max(here, lowestDb)), "antenna"),
    there === undefined ? "" : mark(x(diversityHeightM!), y(Math.max(there, lowestDb)), "second"),
    legend(one.kFactor, steep, there !== undefined),
  ];
  const svg = element("svg", { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, width: WIDTH, height: HEIGHT }, ...parts);
  return {
    svg,
    alt: `Level of direct and reflected ray at ${site} against the antenna's height, ${metres(heightM)} in the design`,
    caption: `Level of both rays against the direct ray alone, at ${site}; ${one.surface} at its smoothest. ${remedy(ripple, one)}`,
  };
}

function rippleOf(hop: Hop, result: HopResult, one: ReflectionResult): Ripple | undefined {
  const { distanceM, geometry } = result;
  const index = endWithRemedy(hop, one);
  if (distanceM === undefined || geometry === undefined || index === undefined) return undefined;
  const heightM = geometry[index].antennaHeightM;
  const { lobeSpacingM, site } = one.ends[index];
  const { diversityHeightM } = hop.ends[index];
  const frequencyHz = Math.max(...hop.ends.map(({ transmitFrequencyHz = 0 }) => transmitFrequencyHz));
  const surfaceM = (at: 0 | 1, aboveGroundM: number) => geometry[at].groundM + aboveGroundM - one.surfaceAslM;
  const farM = surfaceM(index === 0 ? 1 : 0, geometry[index === 0 ? 1 : 0].antennaHeightM);
  const heights = [heightM, ...(diversityHeightM === undefined ? [] : [diversityHeightM])];
  const fromM = Math.max(0, Math.min(...heights) - 1.5 * lobeSpacingM!);
  const toM = Math.max(...heights) + 1.5 * lobeSpacingM!;
  if (!(toM - fromM > 0 && toM - fromM < 10_000)) return undefined;
  const levelDb = (aboveGroundM: number, k: number) => {
    const found = reflectionGeometry({
      distanceM,
      frequencyHz,
      k,
      antenna1AboveSurfaceM: surfaceM(index, aboveGroundM),
      antenna2AboveSurfaceM: farM,
    });
    if (!found.ok) return undefined;
    const turn = 2 * Math.PI * found.pathDifferenceWavelengths;
    // The reflection turns the wave over: whole wavelengths of difference cancel.
    const power = 1 + one.effectiveRatio ** 2 - 2 * one.effectiveRatio * Math.cos(turn);
    return 10 * Math.log10(Math.max(power, 1e-6));
  };
  return { site, heightM, diversityHeightM, fromM, toM, levelDb };
}

function endWithRemedy(hop: Hop, { ends }: ReflectionResult): 0 | 1 | undefined {
  const usable = ([0, 1] as const).filter((index) => (ends[index].lobeSpacingM ?? 0) > 0);
  const spacing = (end: ReflectionEnd) => end.lobeSpacingM!;
  return (
    usable.find((index) => hop.ends[index].diversityHeightM !== undefined) ??
    usable.toSorted((a, b) => spacing(ends[a]) - spacing(ends[b]))[0]
  );
}

function remedy({ site, diversityHeightM }: Ripple, { ends }: ReflectionResult): string {
  const own = ends.find((end) => end.site === site)!;
  const maximum =
    own.heightOfMaximumM === undefined ? "" : `The nearest maximum is at ${metres(own.heightOfMaximumM)}. `;
  return diversityHeightM === undefined
    ? `${maximum}A second antenna ${metres(own.bestSpacingM!)} above or below has a maximum where this one has a cancellation.`
    : `${maximum}The spacing that helps most is ${metres(own.bestSpacingM!)}.`;
}

function curve(ripple: Ripple, k: number, lowestDb: number, x: Scale, y: Scale): string | null {
  const { fromM, toM, levelDb } = ripple;
  const points = Array.from({ length: POINTS }, (_, i) => {
    const heightM = fromM + ((toM - fromM) * i) / (POINTS - 1);
    return { heightM, levelDb: levelDb(heightM, k) };
  });
  return line<(typeof points)[number]>(
    (point) => x(point.heightM),
    (point) => y(Math.max(point.levelDb!, lowestDb)),
  )
    .defined((point) => point.levelDb !== undefined)
    .digits(1)(points);
}

function axes(x: Scale, y: Scale, site: string): string {
  const parts: string[] = [];
  for (const tick of y.ticks(5)) {
    parts.push(path("grid", `M${PLOT.left} ${coordinate(y(tick))}H${PLOT.right}`));
    parts.push(text(PLOT.left - 7, y(tick) + 4, String(tick).replace("-", "\u2212"), "quiet small", "end"));
  }
  const ticks = x.ticks(6);
  const digits = ticks.length > 1 && ticks[1]! - ticks[0]! < 1 ? 1 : 0;
  for (const tick of ticks) {
    parts.push(path("axis", `M${coordinate(x(tick))} ${PLOT.bottom}v4`));
    parts.push(text(x(tick), PLOT.bottom + 17, fixed(tick, digits), "quiet small", "middle"));
  }
  parts.push(path("axis", `M${PLOT.left} ${PLOT.bottom}H${PLOT.right}`));
  parts.push(text(PLOT.right, PLOT.bottom + 31, `antenna height at ${site}, m`, "quiet small", "end"));
  parts.push(text(8, PLOT.bottom + 17, "dB", "quiet small"));
  return parts.join("");
}

function mark(cx: number, cy: number, kind: "antenna" | "second"): string {
  return element("circle", { class: kind === "antenna" ? "antenna" : "mark info", cx, cy, r: 5 });
}

function legend(k: number, steep: number, second: boolean): string {
  const y = HEIGHT - 4;
  const parts = [
    path("ripple", `M${PLOT.left} ${y - 4}h18`) + text(PLOT.left + 23, y, kFactor(k), "small quiet"),
    path("low-k", `M${PLOT.left + 76} ${y - 4}h18`) + text(PLOT.left + 99, y, kFactor(steep), "small quiet"),
    mark(PLOT.left + 160, y - 4, "antenna") + text(PLOT.left + 169, y, "as designed", "small quiet"),
  ];
  if (second)
    parts.push(
      mark(PLOT.left + 258, y - 4, "second") + text(PLOT.left + 267, y, "diversity antenna", "small quiet"),
    );
  return parts.join("");
}
