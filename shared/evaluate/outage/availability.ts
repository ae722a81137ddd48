import type { Hop } from "../../design/design.js";
import { largerShare } from "../../propagation/p530/total.js";
import { carriers } from "../../radio/arrangements.js";
import type { DirectionResult, ModeResult } from "../account/level-result.js";
import type { AtMost, CauseOutage, Verdict } from "../account/outage-result.js";
import type { HopResult } from "../account/result.js";
import { cite, note, type Trace } from "../account/trace.js";
import { judgedMode, sameMode } from "../level/judged-mode.js";
import { outageTime } from "./outage-time.js";
import {
  largestFirst,
  type ModeFading,
  type Outages,
  outageOf,
  outagesAt,
  outageVerdict,
  sumOf,
  turned,
} from "./outages.js";

/** One direction with how each of its modes fades, in the order of its modes. */
export interface FadingDirection {
  readonly direction: DirectionResult;
  readonly modes: readonly ModeFading[];
}

type Availability = NonNullable<HopResult["availability"]>;

/**
 * Availability of both directions together for the mode that the objective asks for.
 *
 * Rain: the worse direction, since both pass the same rain at once. Multipath: both directions added, since deep
 * fades at the two frequencies seldom coincide; the sum is the upper bound in any case. No Recommendation at hand
 * says how to combine them.
 */
export function twoWayAvailability(
  hop: Hop,
  both: readonly FadingDirection[],
  trace: Trace,
): Availability | undefined {
  const pair = pairOf(hop, both);
  if (pair === undefined) return undefined;
  const { modulation, bandwidthHz } = pair.mode;
  const objectivePercent = hop.objective?.availabilityPercent;

  if (!(pair.margins[0] > 0 && pair.margins[1] > 0)) {
    const nothing = { multipathPercent: 0, rainPercent: 0, dominant: "none", causes: [] } as const;
    const outage = outageTime(100, undefined);
    const verdict = objectivePercent === undefined ? undefined : objectivePercent > 0 ? "missed" : "met";
    return { availabilityPercent: 0, modulation, bandwidthHz, ...nothing, outage, objectivePercent, verdict };
  }
  const now = bothWays(pair, 0, true);
  if (now === undefined) return undefined;
  const { multipathPercent, rain, total, atMost } = now;
  cite(trace, "directions-together");
  note(trace, { code: "directions-together" });
  noteRain(rain, trace);
  const verdict = objectivePercent === undefined ? undefined : verdictOn(now, 100 - objectivePercent);
  const planningOnly = both.some(({ modes }) => modes[0]?.fading.multipath?.planningOnly);
  return {
    availabilityPercent: 100 - total.yearPercent,
    bound: turned(rain.bound),
    atLeastPercent: atMost && 100 - atMost.yearPercent,
    modulation,
    bandwidthHz,
    multipathPercent,
    rainPercent: rain.yearPercent,
    rainBound: rain.bound,
    rainAtMostPercent: rain.atMost?.yearPercent,
    dominant: dominantOf(now),
    objectivePercent,
    verdict,
    shortfallDb: verdict === "missed" ? marginLacking(pair, 100 - objectivePercent!) : undefined,
    outage: outageTime(total.yearPercent, total.worstMonthPercent, rain.bound, atMost),
    causes: largestFirst([...added(now.there, now.back), rain]),
    planningOnly: planningOnly || undefined,
    committed: objectivePercent === undefined ? undefined : committedMode(hop, both, objectivePercent),
  };
}

/** The same mode in both directions. */
interface Pair {
  readonly mode: ModeResult;
  readonly fading: readonly [ModeFading, ModeFading];
  readonly margins: readonly [number, number];
}

function pairOf(hop: Hop, both: readonly FadingDirection[], wanted?: ModeResult): Pair | undefined {
  const [there, back] = both;
  if (there === undefined || back === undefined) return undefined;
  const mode = wanted ?? judgedMode(hop, there.direction.modes);
  if (mode === undefined) return undefined;
  const i = there.direction.modes.indexOf(mode);
  const j = back.direction.modes.findIndex((one) => sameMode(one, mode));
  if (j < 0) return undefined;
  return {
    mode,
    fading: [there.modes[i]!, back.modes[j]!],
    margins: [mode.fadeMarginDb, back.direction.modes[j]!.fadeMarginDb],
  };
}

interface BothWays {
  readonly there: Outages;
  readonly back: Outages;
  readonly multipathPercent: number;
  readonly rain: CauseOutage;
  /** With rain at its bound, where it is bounded. */
  readonly total: AtMost;
  /** Where rain is an estimate: with all that the Recommendation leaves room for. */
  readonly atMost: AtMost | undefined;
}

/** Outage of both directions with every margin raised by `extraDb`; undefined when a cause is not known. */
function bothWays({ fading, margins }: Pair, extraDb: number, month = false): BothWays | undefined {
  const there = outagesAt(fading[0], margins[0] + extraDb, undefined, month);
  const back = outagesAt(fading[1], margins[1] + extraDb, undefined, month);
  if (there.clearAir === undefined || back.clearAir === undefined || !there.rain || !back.rain)
    return undefined;
  const multipathPercent = Math.min(100, there.clearAirPercent! + back.clearAirPercent!);
  const rain = worseRain(there.rain, back.rain);
  const clearAir = {
    yearPercent: multipathPercent,
    worstMonthPercent: there.clearAirMonthPercent! + back.clearAirMonthPercent!,
  };
  return {
    there,
    back,
    multipathPercent,
    rain,
    total: sumOf(clearAir, rain),
    atMost: rain.atMost && sumOf(clearAir, rain.atMost),
  };
}

/** Rain that is only bounded from above may be more than multipath, or nothing. */
function dominantOf({ multipathPercent, rain }: BothWays): Availability["dominant"] {
  if (multipathPercent >= rain.yearPercent) return multipathPercent === 0 ? "none" : "multipath";
  return rain.bound === "at most" ? "not decided" : "rain";
}

function worseRain(a: CauseOutage, b: CauseOutage): CauseOutage {
  const there = outageOf(a);
  return largerShare(there, outageOf(b)) === there ? a : b;
}

function verdictOn({ multipathPercent, rain }: BothWays, allowedPercent: number): Verdict {
  return outageVerdict(multipathPercent, outageOf(rain), allowedPercent);
}

/** Clear air of both directions, cause by cause. */
function added(there: Outages, back: Outages): CauseOutage[] {
  const sums = new Map<CauseOutage["cause"], CauseOutage>();
  for (const one of [...there.clearAir!, ...back.clearAir!]) {
    const so = sums.get(one.cause);
    sums.set(
      one.cause,
      so === undefined
        ? one
        : {
            cause: one.cause,
            yearPercent: Math.min(100, so.yearPercent + one.yearPercent),
            worstMonthPercent: Math.min(100, so.worstMonthPercent! + one.worstMonthPercent!),
          },
    );
  }
  return [...sums.values()];
}

/** Where the range of the rain law ends, the figure says how the rest was counted. */
function noteRain({ bound, yearPercent, atMost }: CauseOutage, trace: Trace): void {
  if (bound === "at least") note(trace, { code: "rain-beyond-law" });
  if (bound === "at most") note(trace, { code: "rain-below-law-bounded" });
  if (atMost === undefined) return;
  note(trace, { code: "rain-below-law-estimated", ...(!(yearPercent > 0) && { never: true }) });
}

/** Margin that both directions lack to meet an outage, dB, to 0.01 dB; undefined when even 60 dB would not do. */
function marginLacking(pair: Pair, allowedPercent: number): number | undefined {
  const meets = (extraDb: number) => verdictOn(bothWays(pair, extraDb)!, allowedPercent) === "met";
  let low = 0;
  let high = 60;
  if (!meets(high)) return undefined;
  while (high - low > 0.01) {
    const middle = (low + high) / 2;
    if (meets(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** The highest mode that both directions keep up for the time asked, and what all working carriers carry in it. */
function committedMode(
  hop: Hop,
  both: readonly FadingDirection[],
  objectivePercent: number,
): Availability["committed"] {
  for (const mode of both[0]?.direction.modes.toReversed() ?? []) {
    const pair = pairOf(hop, both, mode);
    if (pair === undefined || !(pair.margins[0] > 0 && pair.margins[1] > 0)) continue;
    const found = bothWays(pair, 0);
    if (found === undefined || verdictOn(found, 100 - objectivePercent) !== "met") continue;
    const { modulation, bitRateBps } = mode;
    return {
      modulation,
      capacityBps: bitRateBps === undefined ? undefined : bitRateBps * carriers(hop.arrangement.name),
    };
  }
  return undefined;
}
