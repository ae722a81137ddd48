/** Which figures changed by more than they are printed with, and whether that is better or worse. */
import type { Hop } from "../design/design.js";
import type { HopResult } from "../evaluate/account/result.js";
import { pairedCarriers } from "./carriers.js";
import { type Figure, type FigureKind, figuresOf, LEVEL_STEP_DB, levelOf } from "./figures.js";
import { type GuideChange, guideChange } from "./guides.js";

type Verdict = "worse" | "better" | "changed";

export interface FigureChange {
  readonly kind: FigureKind;
  readonly label: string;
  /** Receiving site, of a level or margin. */
  readonly site?: string;
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
  /** What the difference rests on: a waveguide that is only estimated, or that is gone. */
  readonly remark?: string;
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
  const guide = guideChange(was.hop, is.hop, siteNow);
  const changed: FigureChange[] = [];
  // A criterion that the objective asks now, or asks no more, is a decision, not a change of the hop.
  const asked = [[...before.values()], after].every((side) => side.some(({ kind }) => kind === "clearance"));
  for (const figure of after) {
    const key = `${figure.kind} ${figure.place}`;
    const then = before.get(key);
    before.delete(key);
    if (then === undefined && isNothing(figure)) continue;
    if (then === undefined && asked && figure.kind === "clearance") continue;
    const change = changeOf(then, figure);
    if (change) changed.push(change);
  }
  for (const figure of before.values()) {
    if ((asked && figure.kind === "clearance") || isNothing(figure)) continue;
    changed.push({
      ...named(figure),
      was: figure.text,
      verdict: figure.better === "more" ? "worse" : "changed",
    });
  }
  return [...changed, ...carrierLevels(was, is, siteNow)].map((change) => overGuides(change, guide));
}

const OVER_GUIDES: ReadonlySet<FigureKind> = new Set(["level", "margin", "availability"]);

/** What is better only because a waveguide was forgotten, or was estimated before, is no gain. */
function overGuides(change: FigureChange, { undecided, remark }: GuideChange): FigureChange {
  if (!OVER_GUIDES.has(change.kind) || remark === undefined) return change;
  return {
    ...change,
    remark,
    verdict: undecided && change.verdict === "better" ? "changed" : change.verdict,
  };
}

/** Levels of carriers that arrive otherwise than the judged one on either side: those on other arms or antennas. */
function carrierLevels(
  was: EvaluatedHop,
  is: EvaluatedHop,
  siteNow: (site: string) => string,
): FigureChange[] {
  const judged = ({ result }: EvaluatedHop, site: string, now: (site: string) => string) =>
    result.directions.find(({ to }) => now(to) === site)?.judged?.receivedLevelDbm;
  return pairedCarriers(was.result, is.result, siteNow).flatMap(({ carrier, was: before, is: now }) => {
    const [then, after] = [before?.received?.judgedDbm, now.received?.judgedDbm];
    if (then === undefined || after === undefined) return [];
    const apart = (levelDbm: number, side: EvaluatedHop, name: (site: string) => string) =>
      Math.abs(levelDbm - (judged(side, now.site, name) ?? Number.POSITIVE_INFINITY)) >= LEVEL_STEP_DB;
    if (!apart(then, was, siteNow) && !apart(after, is, (site) => site)) return [];
    const label = `Received level at ${now.site}, judged mode, ${carrier}`;
    return changeOf(levelOf(label, now.site, then), levelOf(label, now.site, after)) ?? [];
  });
}

/** Figures of a hop that has no counterpart. */
export function figuresAlone({ hop, result }: EvaluatedHop, side: "was" | "is"): FigureChange[] {
  return figuresOf(hop, result)
    .filter((figure) => !isNothing(figure))
    .map((figure) => ({ ...named(figure), [side]: figure.text, verdict: "changed" }));
}

/** A threshold that is not raised is worth no word where there is nothing to hold it against. */
function isNothing({ kind, value, step }: Figure): boolean {
  return kind === "degradation" && value < step / 2;
}

/** Figures of a receiving end. */
const ENDS: ReadonlySet<FigureKind> = new Set(["level", "margin", "degradation"]);

function named({
  kind,
  label,
  place,
  estimated,
}: Figure): Pick<FigureChange, "kind" | "label" | "site" | "estimated"> {
  return { kind, label, site: ENDS.has(kind) ? place : undefined, estimated };
}

function changeOf(was: Figure | undefined, is: Figure): FigureChange | undefined {
  const name = { ...named(is), estimated: is.estimated ?? was?.estimated };
  if (!was) return { ...name, is: is.text, verdict: "changed" };
  const by = is.value - was.value;
  const step = Math.max(was.step, is.step);
  const otherMode = was.mode !== is.mode;
  const texts = otherMode
    ? { ...name, was: inMode(was), is: inMode(is) }
    : { ...name, was: was.text, is: is.text };
  if (isLess(by, step)) {
    // A figure that was only bounded says something else though its digits are the same.
    return was.bound === is.bound ? undefined : { ...texts, verdict: "changed" };
  }
  if (isOfNoNote(was, is, by)) return { ...texts, difference: is.difference(by), by, verdict: "changed" };
  if (!isCertain(was, is, by)) return { ...texts, verdict: "changed" };
  const gain = is.better === "less" ? -by : by;
  const verdict =
    is.better === "neither" ? "changed" : gain > 0 ? (otherMode ? "changed" : "better") : "worse";
  return { ...texts, difference: is.difference(by), by, verdict };
}

/** Far on the safe side of what is asked, on both sides, and nearly the same. */
function isOfNoNote(was: Figure, is: Figure, by: number): boolean {
  const isFar = ({ value, asked }: Figure) => asked !== undefined && value >= asked.least + asked.note;
  return isFar(was) && isFar(is) && isLess(by, is.asked!.note);
}

/** Half of a millionth for what binary fractions lose. */
function isLess(by: number, than: number): boolean {
  return Math.abs(by) < than * (1 - 5e-7);
}

/** A figure of a lower mode is no gain: which mode each is of stands beside it. */
function inMode({ text, mode }: Figure): string {
  return mode === undefined ? text : `${text} with ${mode}`;
}

/** Whether a difference has the sign that it seems to have: what is only bounded may lie on either side of a figure. */
function isCertain(was: Figure, is: Figure, by: number): boolean {
  if (was.bound === is.bound) return true;
  const grows = (was.bound ?? "at most") === "at most" && (is.bound ?? "at least") === "at least";
  const falls = (was.bound ?? "at least") === "at least" && (is.bound ?? "at most") === "at most";
  return by > 0 ? grows : falls;
}
