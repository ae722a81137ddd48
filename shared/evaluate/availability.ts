import type { Hop } from "../design/design.js";
import { type FadeDistribution, fadeExceededPercent } from "../propagation/p530/fade-distribution.js";
import { type RainDistribution, rainTimeForMargin } from "../propagation/p530/rain.js";
import { judgedMode, sameMode } from "./judged-mode.js";
import type { DirectionResult, HopResult, ModeResult, Outage } from "./result.js";
import { citeAs, note, type Trace } from "./trace.js";

/** How the path fades in one direction, prepared once and asked for each margin. */
export interface Fading {
  /** Average worst month and average year; undefined: not computed. */
  readonly multipathMonth?: FadeDistribution;
  readonly multipathYear?: FadeDistribution;
  readonly rain?: RainDistribution;
}

type ModeOutages = Pick<
  ModeResult,
  "multipath" | "multipathWorstMonthPercent" | "rain" | "availabilityPercent"
>;

/**
 * Outages of one direction for a flat fade margin, percent of the average year. Without margin the mode does not
 * work at all: availability 0 and no outage by cause.
 */
export function outagesFor(fading: Fading, marginDb: number): ModeOutages {
  if (!(marginDb > 0)) return { availabilityPercent: 0 };
  const multipathPercent = multipathYearly(fading, marginDb);
  const rain = rainYearly(fading, marginDb);
  return {
    multipath: multipathPercent === undefined ? undefined : { timePercent: multipathPercent },
    multipathWorstMonthPercent: fading.multipathMonth && fadeExceededPercent(fading.multipathMonth, marginDb),
    rain,
    availabilityPercent:
      multipathPercent === undefined || rain === undefined
        ? undefined
        : Math.max(0, 100 - multipathPercent - rain.timePercent),
  };
}

/**
 * Availability of both directions together for the mode that the objective asks for.
 *
 * Rain: the worse direction, since both pass the same rain at once. Multipath: both directions added, since deep
 * fades at the two frequencies seldom coincide; the sum is the upper bound in any case. No Recommendation at hand
 * says how to combine them.
 */
export function twoWayAvailability(
  hop: Hop,
  directions: readonly DirectionResult[],
  fading: readonly Fading[],
  trace: Trace,
): HopResult["availability"] {
  const [there, back] = directions;
  if (there === undefined || back === undefined) return undefined;
  const judged = judgedMode(hop, there.modes);
  const returning = judged && back.modes.find((mode) => sameMode(mode, judged));
  if (judged === undefined || returning === undefined) return undefined;
  const { modulation, bandwidthHz } = judged;
  const objectivePercent = hop.objective?.availabilityPercent;
  const margins = [judged.fadeMarginDb, returning.fadeMarginDb] as const;

  if (!(margins[0] > 0 && margins[1] > 0)) {
    const nothing = { multipathPercent: 0, rainPercent: 0, dominant: "none" } as const;
    return { availabilityPercent: 0, modulation, bandwidthHz, ...nothing, objectivePercent };
  }
  const now = bothWays(fading, margins, 0);
  if (now === undefined) return undefined;
  const { multipathPercent, rain } = now;
  const rainPercent = rain.timePercent;
  citeAs(trace, "Both directions together", "our own rule", "Rain of the worse direction, multipath of both");
  note(
    trace,
    "Both directions together: rain counts once (the worse direction), multipath is the sum of both directions.",
  );
  note(trace, "The availability is that of propagation alone; equipment failures come on top.");
  if (/diversity/.test(hop.arrangement.name)) note(trace, "The improvement by diversity is not counted.");
  noteRain(rain, trace);
  const met = objectivePercent === undefined || now.totalPercent <= 100 - objectivePercent;
  return {
    availabilityPercent: Math.max(0, 100 - now.totalPercent),
    bound: rain.bound === undefined ? undefined : rain.bound === "at most" ? "at least" : "at most",
    modulation,
    bandwidthHz,
    multipathPercent,
    rainPercent,
    dominant: now.totalPercent === 0 ? "none" : multipathPercent >= rainPercent ? "multipath" : "rain",
    objectivePercent,
    shortfallDb: met ? undefined : marginLacking(fading, margins, 100 - objectivePercent!),
  };
}

/** Where the rain law ends, the figure says how the rest was counted. */
function noteRain(rain: Outage, trace: Trace): void {
  if (rain.bound === "at most") {
    note(
      trace,
      "Rain takes less than 0.001 % of the year, where its law ends; the full 0.001 % are counted.",
    );
  } else if (rain.bound === "at least") {
    note(trace, "Rain takes more than 1 % of the year, where its law ends; 1 % is counted.");
  } else if (rain.timePercent === 0) {
    note(
      trace,
      "The margin exceeds any attenuation that the law of rain knows for this path; none is counted.",
    );
  }
}

interface BothWays {
  readonly multipathPercent: number;
  readonly rain: Outage;
  readonly totalPercent: number;
}

/** Outage of both directions with every margin raised by `extraDb`; undefined when a cause is not known. */
function bothWays(
  fading: readonly Fading[],
  margins: readonly [number, number],
  extraDb: number,
): BothWays | undefined {
  const there = multipathYearly(fading[0]!, margins[0] + extraDb);
  const back = multipathYearly(fading[1]!, margins[1] + extraDb);
  const rainThere = rainYearly(fading[0]!, margins[0] + extraDb);
  const rainBack = rainYearly(fading[1]!, margins[1] + extraDb);
  if (there === undefined || back === undefined || rainThere === undefined || rainBack === undefined)
    return undefined;
  const multipathPercent = Math.min(100, there + back);
  const rain = rainThere.timePercent >= rainBack.timePercent ? rainThere : rainBack;
  return { multipathPercent, rain, totalPercent: Math.min(100, multipathPercent + rain.timePercent) };
}

/** Margin that both directions lack for an outage, dB, to 0.01 dB; undefined when even 60 dB would not do. */
function marginLacking(
  fading: readonly Fading[],
  margins: readonly [number, number],
  allowedPercent: number,
): number | undefined {
  let low = 0;
  let high = 60;
  if (!(bothWays(fading, margins, high)!.totalPercent <= allowedPercent)) return undefined;
  while (high - low > 0.01) {
    const middle = (low + high) / 2;
    if (bothWays(fading, margins, middle)!.totalPercent <= allowedPercent) high = middle;
    else low = middle;
  }
  return high;
}

function multipathYearly(fading: Fading, marginDb: number): number | undefined {
  return fading.multipathYear && fadeExceededPercent(fading.multipathYear, marginDb);
}

const NO_RAIN: Outage = { timePercent: 0 };

/**
 * Below 0.001 % the rain law gives a bound only, and the bound is counted in full. Beyond the greatest attenuation
 * that the law has at any percentage there is no rain to count.
 */
function rainYearly(fading: Fading, marginDb: number): Outage | undefined {
  const law = fading.rain;
  if (law === undefined) return undefined;
  return marginDb > greatestAttenuationDb(law) ? NO_RAIN : rainTimeForMargin(law, marginDb);
}

/** Maximum over p of A0.01 C1 p^-(C2 + C3 log p). */
function greatestAttenuationDb(law: RainDistribution): number {
  return law.A001Db * law.C1 * 10 ** (law.C2 ** 2 / (4 * law.C3));
}
