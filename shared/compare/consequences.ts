/** Which figures changed by more than they are printed with, and whether that is better or worse. */
import type { Hop } from "../design/design.js";
import type { HopResult } from "../evaluate/result.js";
import { type Figure, type FigureKind, figuresOf } from "./figures.js";

export type Verdict = "worse" | "better" | "changed";

export interface FigureChange {
  readonly kind: FigureKind;
  readonly label: string;
  /** As printed; undefined: could not be computed. */
  readonly was?: string;
  readonly is?: string;
  /** As printed, with its sign; undefined where one side is missing. */
  readonly difference?: string;
  /** The same as a number, in dB, radii, percent, bit/s or metres. */
  readonly by?: number;
  readonly verdict: Verdict;
  /** Set where one of the figures is an estimate: see `ESTIMATE_REMARK`. */
  readonly estimated?: true;
}

export interface EvaluatedHop {
  readonly hop: Hop;
  readonly result: HopResult;
}

/** @param siteNow the new name of a site of the old side */
export function figureChanges(
  was: EvaluatedHop,
  is: EvaluatedHop,
  siteNow: (site: string) => string,
): FigureChange[] {
  const before = new Map(
    figuresOf(was.hop, was.result).map((figure) => [`${figure.kind} ${siteNow(figure.place)}`, figure]),
  );
  const after = figuresOf(is.hop, is.result);
  const changed: { readonly figure: Figure; readonly change: FigureChange }[] = [];
  for (const figure of after) {
    const key = `${figure.kind} ${figure.place}`;
    const change = changeOf(before.get(key), figure);
    if (change) changed.push({ figure, change });
    before.delete(key);
  }
  for (const figure of before.values()) {
    // A criterion that the objective asks no more is a decision, not a loss.
    if (figure.kind === "clearance" && after.some(({ kind }) => kind === "clearance")) continue;
    changed.push({
      figure,
      change: {
        kind: figure.kind,
        label: figure.label,
        was: figure.text,
        verdict: figure.better === "more" ? "worse" : "changed",
        estimated: figure.estimated,
      },
    });
  }
  return oneOfEqual(changed);
}

/** Figures of a hop that has no counterpart: of both directions the weaker one. */
export function figuresAlone({ hop, result }: EvaluatedHop, side: "was" | "is"): FigureChange[] {
  const all = figuresOf(hop, result);
  const margins = all.filter(({ kind }) => kind === "margin").toSorted((a, b) => a.value - b.value);
  return all
    .filter(({ kind, place }) => (kind !== "level" && kind !== "margin") || place === margins[0]?.place)
    .map(({ kind, label, text, estimated }) => ({
      kind,
      label,
      [side]: text,
      verdict: "changed",
      estimated,
    }));
}

function changeOf(was: Figure | undefined, is: Figure): FigureChange | undefined {
  const { kind, label, estimated = was?.estimated } = is;
  if (!was) return { kind, label, is: is.text, verdict: "changed", estimated };
  const by = is.value - was.value;
  const step = Math.max(was.step, is.step);
  // Half of a millionth for what binary fractions lose.
  if (Math.abs(by) < step * (1 - 5e-7)) return undefined;
  const texts = { kind, label, was: was.text, is: is.text, estimated };
  if (!isCertain(was, is, by)) return { ...texts, verdict: "changed" };
  const verdict = is.better === "neither" ? "changed" : by > 0 ? "better" : "worse";
  return { ...texts, difference: is.difference(by), by, verdict };
}

/** Whether a difference has the sign that it seems to have: what is only bounded may lie on either side of a figure. */
function isCertain(was: Figure, is: Figure, by: number): boolean {
  if (was.bound === is.bound) return true;
  const grows = (was.bound ?? "at most") === "at most" && (is.bound ?? "at least") === "at least";
  const falls = (was.bound ?? "at least") === "at least" && (is.bound ?? "at most") === "at most";
  return by > 0 ? grows : falls;
}

/** Both directions changed alike, to a twentieth: the weaker one is told for both. */
function oneOfEqual(
  changed: readonly { readonly figure: Figure; readonly change: FigureChange }[],
): FigureChange[] {
  return changed
    .filter(({ figure, change }) => {
      if (figure.kind !== "level" && figure.kind !== "margin") return true;
      return !changed.some(
        (other) =>
          other.figure.kind === figure.kind &&
          other.change !== change &&
          alike(other.change, change, figure.step) &&
          (other.figure.value < figure.value ||
            (other.figure.value === figure.value && other.figure.place < figure.place)),
      );
    })
    .map(({ change }) => change);
}

function alike(a: FigureChange, b: FigureChange, step: number): boolean {
  if (a.by === undefined || b.by === undefined) return false;
  // Gains and losses of the two frequencies differ by little; telling both would hide the one that counts.
  return Math.abs(a.by - b.by) < Math.max(step / 2, 0.05 * Math.abs(a.by));
}
