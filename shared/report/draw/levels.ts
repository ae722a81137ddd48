/** The level diagram drawn: the running level over the elements, numbered as in the table beside it. */
import { extent } from "d3-array";
import { scaleLinear } from "d3-scale";
import type { DirectionResult } from "../../evaluate/account/level-result.js";
import { dbm, decibels } from "../../format/numbers.js";
import { coordinate, element, escaped } from "../document/markup.js";

const WIDTH = 480;
const PLOT = { left: 46, right: 468, top: 14, bottom: 180 };

/** Keeps the word under the threshold's line off the axis. */
const ROOM_BELOW_DB = 12;

/** A slip of the keyboard, not a level. */
const BEYOND_ANY_LEVEL_DBM = 10_000;

/** What stands below the received level; each undefined where it is not known. */
interface Below {
  readonly noiseDbm: number;
  /** The sum, behind the filters. */
  readonly interferenceDbm?: number;
}

/** Further below the noise the sum is no line: it would only make the rest small. */
const DEEPEST_BELOW_NOISE_DB = 15;

/** @returns undefined without a level diagram, or with levels that no signal has */
export function drawLevels(
  direction: DirectionResult,
  below?: Below,
): { readonly svg: string; readonly alt: string } | undefined {
  const { levels, modes, from, to } = direction;
  if (levels.length < 2) return undefined;
  const mode = modes.at(-1);
  // As it is with interference: the margin above it is the one that counts.
  const thresholdDbm = mode && mode.thresholdDbm + (mode.degradationDb ?? 0);
  const lines = linesBelow(below);
  const [low, high] = extent([
    ...levels.map(({ levelDbm }) => levelDbm),
    ...(thresholdDbm === undefined ? [] : [thresholdDbm]),
    ...lines.map(({ dbm: at }) => at),
  ]) as [number, number];
  if (!(Math.max(high, -low) < BEYOND_ANY_LEVEL_DBM)) return undefined;
  const y = scaleLinear([low - ROOM_BELOW_DB, high], [PLOT.bottom, PLOT.top]).nice(5);
  const x = scaleLinear([0, levels.length], [PLOT.left, PLOT.right]);
  const parts: string[] = [];
  for (const tick of y.ticks(5)) {
    parts.push(element("path", { class: "grid", d: `M${PLOT.left} ${coordinate(y(tick))}H${PLOT.right}` }));
    parts.push(label(PLOT.left - 7, y(tick) + 4, String(tick).replace("-", "\u2212"), "quiet small", "end"));
  }
  for (const [index, line] of lines.entries()) {
    const at = y(line.dbm);
    parts.push(element("path", { class: line.style, d: `M${PLOT.left} ${coordinate(at)}H${PLOT.right}` }));
    // Nothing else is so low where the signal has just been sent.
    parts.push(label(PLOT.left + 4, index === 0 ? at - 4 : at + 13, line.words, "quiet small halo", "start"));
  }
  const last = levels.at(-1)!;
  const end = y(last.levelDbm);
  if (thresholdDbm !== undefined) {
    const at = y(thresholdDbm);
    const left = x(levels.length - 1);
    parts.push(
      element("rect", {
        class: "margin",
        x: left,
        y: Math.min(at, end),
        width: PLOT.right - left,
        height: Math.abs(at - end),
      }),
    );
    parts.push(
      element("path", {
        class: "threshold",
        d: `M${coordinate(x(levels.length - 3))} ${coordinate(at)}H${PLOT.right}`,
      }),
    );
    parts.push(label(PLOT.right, at + 13, "threshold", "small error halo", "end"));
  }
  let d = "";
  levels.forEach(({ levelDbm }, index) => {
    d += `${index === 0 ? "M" : "L"}${coordinate(x(index))} ${coordinate(y(levelDbm))}H${coordinate(x(index + 1))}`;
    parts.push(label(x(index + 0.5), PLOT.bottom + 17, String(index + 1), "quiet small", "middle"));
  });
  parts.push(element("path", { class: "step", d }));
  parts.push(label(8, PLOT.bottom + 17, "dBm", "quiet small", "start"));
  const svg = element("svg", { viewBox: `0 0 ${WIDTH} 206`, width: WIDTH, height: 206 }, ...parts);
  const margin =
    thresholdDbm === undefined ? "" : `, ${decibels(last.levelDbm - thresholdDbm)} above the threshold`;
  const told = lines.map(({ words, dbm: at }) => `, ${words} ${dbm(at)}`).join("");
  return {
    svg,
    alt: `Level from ${from} to ${to}: from ${dbm(levels[0]!.levelDbm)} to ${dbm(last.levelDbm)}${margin}${told}`,
  };
}

interface Line {
  readonly words: string;
  readonly style: string;
  readonly dbm: number;
}

/** The higher one first. */
function linesBelow(below: Below | undefined): Line[] {
  if (below === undefined) return [];
  const { noiseDbm, interferenceDbm } = below;
  const isDrawn = interferenceDbm !== undefined && interferenceDbm > noiseDbm - DEEPEST_BELOW_NOISE_DB;
  const noise: Line = { words: "noise", style: "axis", dbm: noiseDbm };
  if (!isDrawn) return [noise];
  const sum: Line = { words: "interference", style: "low-k", dbm: interferenceDbm };
  return [noise, sum].toSorted((a, b) => b.dbm - a.dbm);
}

function label(
  x: number,
  y: number,
  words: string,
  style: string,
  anchor: "start" | "middle" | "end",
): string {
  return element("text", { class: style, x, y, "text-anchor": anchor }, escaped(words));
}
