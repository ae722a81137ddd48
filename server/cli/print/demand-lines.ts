/** What stands under a demand: its routes, what takes its time, what failures do to it. */
import type { WorstFailure } from "../../../shared/demands/failure-effects.js";
import type { DemandResult } from "../../../shared/demands/result.js";
import { yearlyBounded } from "../../../shared/format/bounds.js";
import {
  causesOf,
  clockHeld,
  type Held,
  NONE,
  routeWords,
  wholeAvailabilityHeld,
  worstFailureWords,
} from "../../../shared/words/demand-figures.js";
import { routeProblemWords, secondProblemWords, someOf } from "../../../shared/words/demands.js";
import { safe } from "./safe.js";
import { wrapped } from "./wrap.js";

/** `99.98 % of 99.95 % met` */
export function heldWords(held: Held | undefined): string {
  if (held === undefined) return NONE;
  const { found, asked, verdict } = held;
  return `${found}${asked === undefined ? "" : ` of ${asked}`}${verdict === undefined ? "" : ` ${verdict}`}`;
}

/** Lines with their ends, each with an indent. */
export function* demandLines(
  one: DemandResult,
  worst: WorstFailure | undefined,
  width: number,
  mostElements = 3,
): Iterable<string> {
  for (const line of linesOf(one, worst, mostElements))
    yield `${wrapped(safe(line), width - INDENT.length, INDENT)}\n`;
}

const INDENT = "    ";

function* linesOf(
  one: DemandResult,
  worst: WorstFailure | undefined,
  mostElements: number,
): Iterable<string> {
  const { demand, route, problem, second, secondProblem, outage, short } = one;
  if (problem) yield `no route: ${routeProblemWords(problem, demand)}`;
  if (route) yield routeWords(route);
  if (second) yield `second route ${routeWords(second)}${secondProblem ? "" : " met"}`;
  if (secondProblem)
    yield `second route missed: ${secondProblemWords(secondProblem, demand.secondRoute?.disjoint ?? "hop")}`;
  if (short.length > 0) yield `no mode carries all that is committed: ${someOf(short)}`;
  if (outage) {
    const causes = causesOf(outage).map((parts) => parts.join(" "));
    // Of what no mode carries fading is no cause.
    const why = short.length > 0 ? "" : `: ${causes.join(", ")}`;
    yield `out ${yearlyBounded({ timePercent: outage.propagationPercent })}${why}`;
  }
  const whole = wholeAvailabilityHeld(one);
  if (whole?.asked !== undefined) yield `with equipment: ${heldWords(whole)}`;
  const clock = clockHeld(one);
  if (clock) yield `clock: ${heldWords(clock)}`;
  if (route) yield `failures: ${worstFailureWords(worst, mostElements)}`;
}
