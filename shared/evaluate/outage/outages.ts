import type { RadioMode } from "../../design/catalogue.js";
import type { Climate } from "../../design/climate.js";
import type { Hop } from "../../design/design.js";
import { fadeExceededPercent } from "../../propagation/p530/fade-distribution.js";
import { rainTimeForMargin } from "../../propagation/p530/rain.js";
import { precipitationOutage } from "../../propagation/p530/total.js";
import { precipitationTimeForMargin } from "../../propagation/p530/wet-snow.js";
import { worstMonthFromAnnual, worstMonthPercent } from "../../propagation/p841.js";
import type { ModeResult } from "../account/level-result.js";
import type { AtMost, Bound, CauseOutage, Outage, OutageTime, Verdict } from "../account/outage-result.js";
import { cite, isFirst, note, type Trace } from "../account/trace.js";
import { type CrossPolarOutage, crossPolarOutage } from "../fading/cross-polar.js";
import { outageWithDiversity } from "../fading/diversity.js";
import type { Fading } from "../fading/fading-model.js";
import { selectiveFraction } from "../fading/selective.js";
import { rareOutage, usesUnchecked } from "../path/climate.js";
import { outageTime } from "./outage-time.js";

/** How one mode fades in one direction: what does not depend on the margin is computed already. */
export interface ModeFading {
  readonly fading: Fading;
  /** Fraction of the worst month; undefined: the method refuses, clear air is not known. */
  readonly selectiveFraction: number | undefined;
  readonly crossPolar: CrossPolarOutage | "unknown" | undefined;
  readonly climate: Climate;
}

export function modeFadingOf(
  hop: Hop,
  fading: Fading,
  mode: RadioMode,
  climate: Climate,
  trace: Trace,
): ModeFading {
  const { multipath, distanceM } = fading;
  const selective = multipath && selectiveFraction(mode, multipath, distanceM, climate, trace);
  return {
    fading,
    selectiveFraction: selective,
    crossPolar: crossPolarOutage(hop, fading, mode, climate, trace),
    climate,
  };
}

/** What a margin leaves: parts by cause, and their sums as P.530 section 7 forms them. */
export interface Outages {
  /** Undefined: not known. */
  readonly clearAir?: readonly CauseOutage[];
  readonly clearAirPercent?: number;
  readonly clearAirMonthPercent?: number;
  readonly rain?: CauseOutage;
}

/**
 * Outage of one direction at a flat fade margin above 0: clear air adds up, of precipitation the larger counts.
 * @param trace told of validity and steps when given
 * @param withMonth false: the worst month of rain is not asked for
 */
export function outagesAt(mode: ModeFading, marginDb: number, trace?: Trace, withMonth = true): Outages {
  const clearAir = clearAirAt(mode, marginDb, trace);
  const rain = rainAt(mode, marginDb, trace, withMonth);
  if (clearAir === undefined) return { rain };
  let year = 0;
  let month = 0;
  for (const { yearPercent, worstMonthPercent } of clearAir) {
    year += yearPercent;
    month += worstMonthPercent ?? 0;
  }
  return {
    clearAir,
    clearAirPercent: Math.min(100, year),
    clearAirMonthPercent: Math.min(100, month),
    rain,
  };
}

type ModeOutages = Pick<
  ModeResult,
  | "multipath"
  | "multipathWorstMonthPercent"
  | "rain"
  | "availabilityPercent"
  | "availabilityBound"
  | "availabilityAtLeastPercent"
  | "outage"
  | "causes"
>;

/** The same for a mode's result. Without margin it does not work at all: availability 0 and no outage by cause. */
export function modeOutages(mode: ModeFading, marginDb: number, trace: Trace): ModeOutages {
  if (!(marginDb > 0)) return { availabilityPercent: 0, outage: outageTime(100, 100), causes: [] };
  const { clearAir, clearAirPercent, clearAirMonthPercent, rain } = outagesAt(mode, marginDb, trace);
  if ((clearAir?.length ?? 0) > 1 || rain?.cause === "cross-polar interference in rain")
    cite(trace, "total-outage");
  const causes = rain === undefined ? [...(clearAir ?? [])] : [...(clearAir ?? []), rain];
  return {
    multipath: clearAirPercent === undefined ? undefined : { timePercent: clearAirPercent },
    multipathWorstMonthPercent: clearAirMonthPercent,
    rain: rain && outageOf(rain),
    causes: largestFirst(causes),
    availabilityPercent: leftBy(clearAirPercent, rain?.yearPercent),
    availabilityBound: clearAirPercent === undefined ? undefined : turned(rain?.bound),
    availabilityAtLeastPercent: leftBy(clearAirPercent, rain?.atMost?.yearPercent),
    outage: directionOutage(clearAirPercent, clearAirMonthPercent, rain),
  };
}

function leftBy(clearAirPercent: number | undefined, rainPercent: number | undefined): number | undefined {
  return clearAirPercent === undefined || rainPercent === undefined
    ? undefined
    : Math.max(0, 100 - clearAirPercent - rainPercent);
}

function directionOutage(
  clearAirPercent: number | undefined,
  clearAirMonthPercent: number | undefined,
  rain: CauseOutage | undefined,
): OutageTime | undefined {
  if (clearAirPercent === undefined || clearAirMonthPercent === undefined || !rain) return undefined;
  const { bound, atMost } = rain;
  const clearAir = { yearPercent: clearAirPercent, worstMonthPercent: clearAirMonthPercent };
  const { yearPercent, worstMonthPercent } = sumOf(clearAir, rain);
  return outageTime(yearPercent, worstMonthPercent, bound, atMost && sumOf(clearAir, atMost));
}

/** Clear air and rain together, at most the whole time; of the worst month where both are known. */
export function sumOf(clearAir: Required<AtMost>, rain: AtMost): AtMost {
  return {
    yearPercent: Math.min(100, clearAir.yearPercent + rain.yearPercent),
    worstMonthPercent:
      rain.worstMonthPercent === undefined
        ? undefined
        : Math.min(100, clearAir.worstMonthPercent + rain.worstMonthPercent),
  };
}

/** What is bounded from above comes last: how little it is nobody knows. */
export function largestFirst(causes: readonly CauseOutage[]): CauseOutage[] {
  if (causes.length < 2) return [...causes];
  const least = ({ yearPercent, bound }: CauseOutage) => (bound === "at most" ? 0 : yearPercent);
  return causes.toSorted((a, b) => least(b) - least(a) || b.yearPercent - a.yearPercent);
}

/**
 * An outage against what is allowed, rain and all other causes together; an estimate counts as a figure. Rain that is
 * only bounded decides nothing by itself: the objective is missed when it is missed without such rain, and met when it
 * is kept with all of it.
 */
export function outageVerdict(
  othersPercent: number,
  { timePercent, bound }: Outage,
  allowedPercent: number,
): Verdict {
  const totalPercent = Math.min(100, othersPercent + timePercent);
  if ((bound === "at most" ? othersPercent : totalPercent) > allowedPercent) return "missed";
  return bound !== "at least" && totalPercent <= allowedPercent ? "met" : "open";
}

/** The bound of what is left, from the bound of what is taken. */
export function turned(bound: Bound | undefined): Bound | undefined {
  return bound === undefined ? undefined : bound === "at most" ? "at least" : "at most";
}

export function outageOf({ yearPercent, bound, atMost }: CauseOutage): Outage {
  return { timePercent: yearPercent, bound, atMostPercent: atMost?.yearPercent };
}

function clearAirAt(
  { fading, selectiveFraction: selective, crossPolar }: ModeFading,
  marginDb: number,
  trace: Trace | undefined,
): CauseOutage[] | undefined {
  const { multipath } = fading;
  if (multipath === undefined || selective === undefined || crossPolar === "unknown") return undefined;
  const { yearFactor } = multipath;
  const flat: CauseOutage = {
    cause: "flat fading",
    yearPercent: Math.min(100, fadeExceededPercent(multipath.year, marginDb)),
    worstMonthPercent: Math.min(100, fadeExceededPercent(multipath.month, marginDb)),
  };
  const causes: CauseOutage[] = [flat];
  if (selective > 0) causes.push(inDeepTail("selective fading", selective, yearFactor));
  const unprotected = {
    eta: multipath.eta,
    marginDb,
    flatFraction: flat.worstMonthPercent! / 100,
    selectiveFraction: selective,
  };
  const protectedFraction = fading.diversity && outageWithDiversity(fading.diversity, unprotected, trace);
  if (protectedFraction !== undefined) {
    const without = causes.reduce((sum, one) => sum + one.yearPercent, 0);
    const found = inDeepTail("fading with diversity", protectedFraction, yearFactor);
    causes.splice(0, causes.length, { ...found, yearPercent: Math.min(found.yearPercent, without) });
  }
  if (crossPolar !== undefined) {
    causes.push(inDeepTail("cross-polar interference in clear air", crossPolar.clearAirFraction, yearFactor));
  }
  if (trace && causes.length > 1) note(trace, { code: "deep-fading-factor" });
  return causes;
}

/** A part that fades as the deep tail does: the year has `yearFactor` of the worst month's share. */
function inDeepTail(cause: CauseOutage["cause"], monthFraction: number, yearFactor: number): CauseOutage {
  const worstMonthPercent = Math.min(100, 100 * monthFraction);
  return { cause, yearPercent: Math.min(100, worstMonthPercent * yearFactor), worstMonthPercent };
}

function rainAt(
  { fading, crossPolar, climate }: ModeFading,
  marginDb: number,
  trace: Trace | undefined,
  month: boolean,
): CauseOutage | undefined {
  const { rain, precipitation } = fading;
  if (rain === undefined) return undefined;
  const rare = rareOutage(climate);
  const attenuation = precipitation
    ? precipitationTimeForMargin(precipitation, marginDb, rare)
    : rainTimeForMargin(rain, marginDb, rare);
  const interference = typeof crossPolar === "object" ? crossPolar.rain : undefined;
  const larger = precipitationOutage(attenuation, interference);
  const inMonth = (yearPercent: number) => (month ? worstMonth(yearPercent, climate, trace) : undefined);
  const { timePercent, bound, atMostPercent } = larger;
  return {
    cause: larger === attenuation ? "rain" : "cross-polar interference in rain",
    yearPercent: timePercent,
    worstMonthPercent: inMonth(timePercent),
    bound,
    atMost:
      atMostPercent === undefined
        ? undefined
        : { yearPercent: atMostPercent, worstMonthPercent: inMonth(atMostPercent) },
  };
}

function worstMonth(yearPercent: number, climate: Climate, trace: Trace | undefined): number | undefined {
  if (
    trace
      ? !usesUnchecked(climate, "rain-in-the-worst-month", trace)
      : climate.uncheckedMethods === "leave-out"
  )
    return undefined;
  const { worstMonthQ1: q1, worstMonthBeta: beta } = climate;
  if (trace) {
    cite(trace, "worst-month");
    const found = isFirst(trace, climate)
      ? worstMonthFromAnnual({ annualPercent: yearPercent, q1, beta })
      : undefined;
    if (found?.ok === false)
      note(trace, { code: "method-refuses", of: "rain-in-the-worst-month", reason: found.refusal });
  }
  return worstMonthPercent(yearPercent, { q1, beta });
}
