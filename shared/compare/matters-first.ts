/** What matters most comes first: what a reviewer must stop for, then what got worse by how much. */
import type { HopChange } from "./change-set.js";
import type { FigureChange } from "./consequences.js";
import { isWorse } from "./findings.js";

export function mattersFirst(a: HopChange, b: HopChange): number {
  return weightOf(b) - weightOf(a) || lossOf(b) - lossOf(a) || (a.hop < b.hop ? -1 : a.hop > b.hop ? 1 : 0);
}

function weightOf({ findings, worse, status, edited, figures }: HopChange): number {
  const open = findings.filter(isWorse);
  if (open.some(({ severity }) => severity === "error")) return 6;
  if (open.some(({ severity }) => severity === "warning")) return 5;
  if (worse) return 4;
  if (status !== "changed") return 3;
  if (figures.length > 0 || findings.some((one) => one.status !== "still there")) return 2;
  return edited ? 1 : 0;
}

/** Losses of unlike figures on one scale: a decibel of margin counts like 0.1 F1, or a tenth more of outage. */
function lossOf({ figures }: HopChange): number {
  return figures.reduce((worst, change) => Math.max(worst, lossInDecibels(change)), 0);
}

function lossInDecibels({ kind, by = 0, verdict, is }: FigureChange): number {
  if (verdict !== "worse") return 0;
  if (is === undefined) return 100;
  if (kind === "margin" || kind === "standby") return -by;
  if (kind === "clearance") return -by * 10;
  return 0.1;
}
