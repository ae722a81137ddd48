/**
 * Judges the figures of a run: beside their bounds, and beside those that were recorded last. Times are compared as
 * ratios to a fixed piece of work of the same run, so that a slower machine is no slower product.
 */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { writeWhole } from "../../server/files/write-whole.js";
import type { DemandFigures } from "./demands.js";
import type { DiffRun } from "./differences.js";
import type { InterferenceFigures } from "./interference.js";
import { type ColdCheck, type NamedEdits, quantile } from "./report.js";

export interface BenchFigure {
  /** The same from run to run. */
  readonly name: string;
  readonly value: number;
  readonly unit: "ms" | "MB";
  /** What it should not exceed; undefined: nothing was asked. */
  readonly bound?: number;
}

export interface Recorded {
  /** The fixed piece of work in that run, ms. */
  readonly yardstickMs: number;
  readonly figures: Readonly<Record<string, number>>;
}

export interface JudgedFigure extends BenchFigure {
  /** Times: in pieces of fixed work. Memory: as it is. */
  readonly relative: number;
  /** To what was recorded; undefined: nothing was. */
  readonly change?: number;
  readonly isSlower: boolean;
}

/** So much more than was recorded is told as slower: runs of a quiet machine differ by a tenth. */
const SLOWER = 1.2;
/** Nobody feels less, and a clock of a busy machine shows more. */
const LEAST_MS = 3;

export const RECORDED = join(import.meta.dirname, "../../tests/bench/recorded.json");

export function judged(
  figures: readonly BenchFigure[],
  yardstickMs: number,
  recorded: Recorded | undefined,
): readonly JudgedFigure[] {
  return figures.map((figure) => {
    const { name, value, unit } = figure;
    const relative = unit === "ms" ? value / yardstickMs : value;
    const was = recorded?.figures[name];
    if (recorded === undefined || was === undefined) return { ...figure, relative, isSlower: false };
    const change = relative / (unit === "ms" ? was / recorded.yardstickMs : was);
    const isFelt = unit === "MB" || value >= LEAST_MS;
    return { ...figure, relative, change, isSlower: isFelt && change > SLOWER };
  });
}

export function judgedTable(all: readonly JudgedFigure[]): string {
  const rows = all.map(({ name, value, unit, bound, relative, change, isSlower }) => [
    name,
    `${shown(value)} ${unit}`,
    bound === undefined ? "–" : `${shown(bound)} ${unit}${value > bound ? ", missed" : ""}`,
    unit === "ms" ? relative.toFixed(3) : "–",
    change === undefined ? "not recorded" : `${change.toFixed(2)}${isSlower ? ", slower" : ""}`,
  ]);
  const head = ["figure", "now", "bound", "in pieces of fixed work", "to what was recorded"];
  return [head, head.map(() => "---"), ...rows].map((cells) => `| ${cells.join(" | ")} |`).join("\n");
}

function shown(value: number): string {
  return value >= 100 ? value.toFixed(0) : value.toFixed(1);
}

/** @throws SyntaxError when it is no JSON */
export function readRecorded(path: string): Recorded | undefined {
  return existsSync(path) ? (JSON.parse(readFileSync(path, "utf8")) as Recorded) : undefined;
}

/** Figures of parts that did not run stay, as they would come out on the machine of this run. */
export function record(path: string, figures: readonly BenchFigure[], yardstickMs: number): void {
  const before = readRecorded(path);
  const units = new Map(figures.map(({ name, unit }) => [name, unit]));
  const kept = Object.entries(before?.figures ?? {}).filter(([name]) => !units.has(name));
  const scale = before === undefined ? 1 : yardstickMs / before.yardstickMs;
  const all = [
    ...kept.map(([name, value]) => [name, name.endsWith("memory") ? value : value * scale] as const),
    ...figures.map(({ name, value }) => [name, value] as const),
  ].sort(([a], [b]) => (a < b ? -1 : 1));
  const rounded = all.map(([name, value]) => [name, Number(value.toPrecision(4))]);
  const recorded: Recorded = {
    yardstickMs: Number(yardstickMs.toPrecision(4)),
    figures: Object.fromEntries(rounded),
  };
  writeWhole(path, `${JSON.stringify(recorded, null, 2)}\n`);
}

/**
 * A fixed piece of work, of what the product does most: figures in arrays, small objects in maps, texts that are cut up.
 * @returns the least of nine, ms: what else the machine does only adds
 */
export function yardstick(): number {
  const times = Array.from({ length: 9 }, () => {
    const start = performance.now();
    if (!(fixedWork() > 0)) throw new Error("the fixed work came to nothing");
    return performance.now() - start;
  });
  return Math.min(...times);
}

function fixedWork(): number {
  const heights = new Float64Array(200_000);
  for (let i = 0; i < heights.length; i++) heights[i] = 100 * Math.sin(i / 50) + 20 * Math.sin(i / 7);
  let most = 0;
  for (let pass = 1; pass <= 20; pass++)
    for (let i = pass; i < heights.length; i++)
      most = Math.max(most, Math.atan2(heights[i]! - heights[i - pass]!, 30 * pass));
  const by = new Map<string, { readonly at: number; readonly words: readonly string[] }>();
  for (let i = 0; i < 100_000; i++) {
    const text = `hop SITE-${i % 5000} at ${i} m`;
    by.set(text.slice(0, 12), { at: i, words: text.split(" ") });
  }
  return most + by.size;
}

/** For 10,000 hops by themselves, and with what they do to each other. */
const MOST_COLD = { alone: { wall: 5000, memory: 1331 }, together: { wall: 35_000, memory: 2048 } };

export function checkFigures({ isAlone, hops, wallMs, peakRssMb }: ColdCheck): BenchFigure[] {
  const bounds = hops === 10_000 ? MOST_COLD[isAlone ? "alone" : "together"] : undefined;
  const name = isAlone ? `check ${hops} hops alone` : `check ${hops}`;
  return [
    { name, value: wallMs, unit: "ms", ...(bounds && { bound: bounds.wall }) },
    {
      name: `${name} memory`,
      value: peakRssMb,
      unit: "MB",
      ...(bounds && { bound: bounds.memory }),
    },
  ];
}

export function diffFigures({ what, wallMs }: DiffRun): BenchFigure[] {
  return [{ name: `diff ${what}`, value: wallMs, unit: "ms", bound: 3000 }];
}

/** With all hops in one file, until an edit is shown. */
const ONE_FILE_MS = 300;

/** Until what an edit means is shown; of an edit that many hops rest on where it was made. */
const SHOWN_MS: Readonly<Record<string, number>> = {
  "an antenna height": 50,
  "the same, a key each 200 ms": 100,
  "a threshold in the catalogue": 300,
};

export function editFigures({ design, times, peakRssMb }: NamedEdits): BenchFigure[] {
  return [
    ...times.flatMap(({ what, shownMs, settledMs }): BenchFigure[] => [
      {
        name: `${design}: ${what} shown`,
        value: quantile(shownMs, 0.5),
        unit: "ms",
        bound: design.endsWith(" in one file") ? ONE_FILE_MS : SHOWN_MS[what],
      },
      { name: `${design}: ${what} settled`, value: quantile(settledMs, 0.5), unit: "ms" },
    ]),
    { name: `${design}: server memory`, value: peakRssMb, unit: "MB", bound: 1024 },
  ].filter(({ value }) => Number.isFinite(value)) as BenchFigure[];
}

export function interferenceJudged({ hops, coldMs, peakRssMb, edits }: InterferenceFigures): BenchFigure[] {
  return [
    { name: `interference ${hops}`, value: coldMs, unit: "ms", bound: 30_000 },
    { name: `interference ${hops} memory`, value: peakRssMb, unit: "MB", bound: 1536 },
    ...edits.map(
      ({ what, ms }): BenchFigure => ({
        name: `interference ${hops}: ${what}`,
        value: quantile(ms, 0.5),
        unit: "ms",
        bound: 150,
      }),
    ),
  ];
}

export function demandsJudged({ hops, coldMs, editMs, settledMs }: DemandFigures): BenchFigure[] {
  return [
    { name: `demands ${hops}`, value: coldMs, unit: "ms", bound: 60_000 },
    { name: `demands ${hops}: edit`, value: quantile(editMs, 0.5), unit: "ms", bound: 150 },
    { name: `demands ${hops}: edit, all findings`, value: quantile(settledMs, 0.5), unit: "ms" },
  ];
}
