/** Lays the results of a run out as Markdown. */

import type { DemandFigures } from "./demands.js";
import type { DiffRun } from "./differences.js";
import type { EditReport } from "./edits.js";
import type { InterferenceFigures } from "./interference.js";
import type { Phases } from "./phases.js";

export interface ColdCheck {
  /** Whether no hop hears another. */
  readonly isAlone: boolean;
  readonly hops: number;
  readonly wallMs: number;
  /** Of all threads. */
  readonly processorMs: number;
  readonly peakRssMb: number;
}

export function phasesTable(all: readonly Phases[]): string {
  const rows = all.map(({ hops, textBytes, ms, peakRssMb, findings, profilePoints }) => {
    const total = Object.values(ms).reduce((sum, one) => sum + one, 0);
    return [
      thousands(hops),
      ...Object.values(ms).map(whole),
      whole(total),
      whole((1000 * total) / hops),
      whole(peakRssMb),
      (textBytes / 1e6).toFixed(1),
      (profilePoints / 1e6).toFixed(1),
      thousands(findings),
    ];
  });
  const head = ["hops", ...Object.keys(all[0]?.ms ?? {}).map((phase) => `${phase} ms`), "total ms"];
  return table([...head, "µs a hop", "peak MB", "text MB", "million points", "findings"], rows);
}

export function coldCheckTable(all: readonly ColdCheck[]): string {
  const rows = all.map(({ isAlone, hops, wallMs, processorMs, peakRssMb }) => [
    thousands(hops),
    isAlone ? "alone" : "with interference",
    (wallMs / 1000).toFixed(2),
    (processorMs / 1000).toFixed(2),
    whole((1000 * wallMs) / hops),
    whole(peakRssMb),
  ]);
  return table(["hops", "which", "s", "of processors", "µs a hop", "peak MB"], rows);
}

export function diffTable(all: readonly DiffRun[]): string {
  const rows = all.map(({ what, wallMs, peakRssMb }) => [what, (wallMs / 1000).toFixed(2), whole(peakRssMb)]);
  return table(["changed", "s", "peak MB"], rows);
}

export interface NamedEdits extends EditReport {
  readonly design: string;
}

export function editsTable(all: readonly NamedEdits[]): string {
  const rows = all.flatMap(({ design, times }) =>
    times.map(({ what, shownMs, settledMs }) => [
      design,
      what,
      String(shownMs.length),
      oneDigit(quantile(shownMs, 0.5)),
      oneDigit(quantile(shownMs, 0.95)),
      whole(quantile(settledMs, 0.5)),
      whole(quantile(settledMs, 0.95)),
    ]),
  );
  return table(
    ["design", "edit", "edits", "shown p50 ms", "shown p95 ms", "all settled p50 ms", "p95 ms"],
    rows,
  );
}

export function serverTable(all: readonly NamedEdits[]): string {
  const rows = all.map(({ design, loadMs, peakRssMb }) => [
    design,
    (loadMs / 1000).toFixed(1),
    whole(peakRssMb),
  ]);
  return table(["design", "opened and evaluated, s", "peak MB"], rows);
}

export function interferenceTable(all: readonly InterferenceFigures[]): string {
  const rows = all.map((one) => [
    thousands(one.hops),
    thousands(one.rows),
    (one.coldMs / 1000).toFixed(1),
    (one.processorMs / 1000).toFixed(1),
    whole(one.peakRssMb),
    whole(one.heapMb),
    thousands(one.entries),
    whole(one.mostAtOne),
    whole((1000 * one.coldMs) / one.entries),
    (one.bruteMs / 1000).toFixed(0),
    (one.bruteMs / one.coldMs).toFixed(0),
    ...one.edits.map(({ ms }) => `${whole(quantile(ms, 0.5))} / ${whole(quantile(ms, 0.95))}`),
  ]);
  const head = [
    "hops",
    "rows of others",
    "cold s (bound 30, aim 10)",
    "processor s",
    "peak MB (bound 1,500)",
    "of it interference MB",
    "entries",
    "most at one",
    "µs an entry",
    "all pairs s",
    "times as long",
    ...all[0]!.edits.map(({ what }) => `${what} p50 / p95 ms (bound 150, aim 60)`),
  ];
  return table(head, rows);
}

export function demandsTable(all: readonly DemandFigures[]): string {
  const at = (ms: readonly number[]) => `${whole(quantile(ms, 0.5))} / ${whole(quantile(ms, 0.95))}`;
  return table(
    [
      "hops",
      "demands",
      "failures",
      "cold s (bound 60, aim 20)",
      "MB",
      "edit, demands alone p50 / p95 ms (bound 150)",
      "edit, all findings p50 / p95 ms",
    ],
    all.map((one) => [
      thousands(one.hops),
      thousands(one.demands),
      thousands(one.failures),
      (one.coldMs / 1000).toFixed(1),
      whole(one.heapMb),
      at(one.editMs),
      at(one.settledMs),
    ]),
  );
}

/** The smallest value that this share of all does not exceed. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  return [line(head), line(head.map(() => "---")), ...rows.map(line)].join("\n");
}

/** Nothing was measured: a dash. */
const figure = (digits: number) => (value: number) => (Number.isNaN(value) ? "–" : value.toFixed(digits));
const whole = figure(0);
const oneDigit = figure(1);
const thousands = (value: number) => String(value).replace(/\B(?=(\d{3})+$)/g, ",");
