/** Shares of time of a result in the one form in which they are written (`format/bounds.ts`). */
import type { Share } from "../../format/bounds.js";
import type { AtMost, Bound } from "../account/outage-result.js";
import type { HopResult } from "../account/result.js";

interface Lost {
  readonly yearPercent: number;
  readonly worstMonthPercent?: number;
  readonly bound?: Bound;
  readonly atMost?: AtMost;
}

/** Of the average year. */
export function yearShare({ yearPercent, bound, atMost }: Lost): Share {
  return { timePercent: yearPercent, bound, atMostPercent: atMost?.yearPercent };
}

/** Of the average worst month; undefined: not computed. */
export function monthShare({ worstMonthPercent, bound, atMost }: Lost): Share | undefined {
  if (worstMonthPercent === undefined) return undefined;
  return { timePercent: worstMonthPercent, bound, atMostPercent: atMost?.worstMonthPercent };
}

/** Rain of a hop, both directions. */
export function rainShare(found: NonNullable<HopResult["availability"]>): Share {
  return { timePercent: found.rainPercent, bound: found.rainBound, atMostPercent: found.rainAtMostPercent };
}
