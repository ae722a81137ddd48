import type { Hop } from "../design/design.js";
import { carriers } from "../radio/arrangements.js";
import { judgedMode, sameMode } from "./judged-mode.js";
import { outageTime } from "./outage-time.js";
import { largestFirst, type ModeFading, type Outages, outagesAt, turned } from "./outages.js";
import type { CauseOutage, DirectionResult, HopResult, ModeResult, Verdict } from "./result.js";
import { citeAs, note, type Trace } from "./trace.js";

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
  const { multipathPercent, rain, totalPercent } = now;
  const rainPercent = rain.yearPercent;
  citeAs(trace, "Both directions together", "our own rule", "Rain of the worse direction, multipath of both");
  note(
    trace,
    "Both directions together: rain counts once (the worse direction), multipath is the sum of both directions.",
  );
  noteRain(rain, trace);
  const verdict = objectivePercent === undefined ? undefined : verdictOn(now, 100 - objectivePercent);
  const planningOnly = both.some(({ modes }) => modes[0]?.fading.multipath?.planningOnly);
  return {
    availabilityPercent: Math.max(0, 100 - totalPercent),
    bound: turned(rain.bound),
    modulation,
    bandwidthHz,
    multipathPercent,
    rainPercent,
    rainBound: rain.bound,
    dominant: dominantOf(now),
    objectivePercent,
    verdict,
    shortfallDb: verdict === "missed" ? marginLacking(pair, 100 - objectivePercent!) : undefined,
    outage: outageTime(totalPercent, now.worstMonthPercent, rain.bound),
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
  /** With rain at its bound. */
  readonly totalPercent: number;
  /** With nothing for rain that is bounded from above. */
  readonly leastPercent: number;
  readonly worstMonthPercent: number | undefined;
}

/** Outage of both directions with every margin raised by `extraDb`; undefined when a cause is not known. */
function bothWays({ fading, margins }: Pair, extraDb: number, month = false): BothWays | undefined {
  const there = outagesAt(fading[0], margins[0] + extraDb, undefined, month);
  const back = outagesAt(fading[1], margins[1] + extraDb, undefined, month);
  if (there.clearAir === undefined || back.clearAir === undefined || !there.rain || !back.rain)
    return undefined;
  const multipathPercent = Math.min(100, there.clearAirPercent! + back.clearAirPercent!);
  const rain = worseRain(there.rain, back.rain);
  const rainMonth = rain.worstMonthPercent;
  return {
    there,
    back,
    multipathPercent,
    rain,
    totalPercent: Math.min(100, multipathPercent + rain.yearPercent),
    leastPercent: Math.min(100, multipathPercent + (rain.bound === "at most" ? 0 : rain.yearPercent)),
    worstMonthPercent:
      rainMonth === undefined
        ? undefined
        : Math.min(100, there.clearAirMonthPercent! + back.clearAirMonthPercent! + rainMonth),
  };
}

/** Rain that is only bounded may be more than multipath, or nothing; beyond its law it is taken as nothing. */
function dominantOf({ multipathPercent, rain, leastPercent }: BothWays): Availability["dominant"] {
  if (leastPercent === 0) return "none";
  if (rain.bound !== "at most") return multipathPercent >= rain.yearPercent ? "multipath" : "rain";
  return rain.beyondLaw || multipathPercent >= rain.yearPercent ? "multipath" : "not decided";
}

/** Of two equal shares the one that is no mere bound, and of two bounds the one nearer to the law. */
function worseRain(a: CauseOutage, b: CauseOutage): CauseOutage {
  if (a.yearPercent !== b.yearPercent) return a.yearPercent > b.yearPercent ? a : b;
  if (a.bound !== b.bound) return a.bound === "at most" ? b : a;
  return a.beyondLaw ? b : a;
}

/**
 * An outage against what is allowed. Rain that its law only bounds decides nothing by itself: the objective is not
 * met when it is missed without it, and met when it is kept with all of it (or when the margin lies beyond the law).
 */
function verdictOn({ rain, totalPercent, leastPercent }: BothWays, allowedPercent: number): Verdict {
  if (leastPercent > allowedPercent) return "missed";
  if (rain.bound === "at least") return "open";
  return totalPercent <= allowedPercent || rain.beyondLaw ? "met" : "open";
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

/** Where the rain law ends, the figure says how the rest was counted. */
function noteRain({ bound, beyondLaw }: CauseOutage, trace: Trace): void {
  if (bound === "at least") {
    note(trace, "Rain takes more than 1 % of the year, where its law ends; 1 % is counted.");
  } else if (bound === "at most") {
    note(
      trace,
      "Rain takes less than 0.001 % of the year, where its law ends; the full 0.001 % are counted.",
    );
    if (beyondLaw)
      note(
        trace,
        "The margin exceeds any attenuation of the law of rain, continued below 0.001 % as well; an objective is judged as if rain took nothing.",
      );
  }
}

/** Margin that both directions lack for an outage, dB, to 0.01 dB; undefined when even 60 dB would not do. */
function marginLacking(pair: Pair, allowedPercent: number): number | undefined {
  let low = 0;
  let high = 60;
  if (!(bothWays(pair, high)!.leastPercent <= allowedPercent)) return undefined;
  while (high - low > 0.01) {
    const middle = (low + high) / 2;
    if (bothWays(pair, middle)!.leastPercent <= allowedPercent) high = middle;
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
