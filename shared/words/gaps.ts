/** Stretches of a path without heights, in words. */

import type { ProfileSummary } from "../evaluate/account/path-result.js";
import { kilometres } from "../format/numbers.js";

type Kind = ProfileSummary["kind"];
type Gap = ProfileSummary["gaps"][number];

const REASONS: Readonly<Record<Kind, Readonly<Record<Gap["reason"], string>>>> = {
  terrain: { void: "void in the raster", uncovered: "no raster" },
  survey: { void: "no row of the survey", uncovered: "beyond the survey" },
};

/** So many stretches are named; the others are counted. */
export const STRETCHES_TOLD = 3;

/** For example `from 1.97 km to 2.71 km (void in the raster), at 4.00 km (no raster) and 2 more`. */
export function gapsTold(gaps: readonly Gap[], kind: Kind): string {
  return someTold(gaps.map((gap) => `${stretchTold(gap)} (${REASONS[kind][gap.reason]})`));
}

/** What they come of, each reason once. */
export function gapReasons(gaps: readonly Gap[], kind: Kind): string {
  return [...new Set(gaps.map(({ reason }) => REASONS[kind][reason]))].join(" and ");
}

export function stretchTold({ fromM, toM }: { readonly fromM: number; readonly toM: number }): string {
  return fromM === toM ? `at ${kilometres(fromM)}` : `from ${kilometres(fromM)} to ${kilometres(toM)}`;
}

export function someTold(stretches: readonly string[]): string {
  const more = stretches.length > STRETCHES_TOLD ? ` and ${stretches.length - STRETCHES_TOLD} more` : "";
  return stretches.slice(0, STRETCHES_TOLD).join(", ") + more;
}
