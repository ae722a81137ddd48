import type { Climate, Hop, RadioMode } from "../design/design.js";
import { fadeExceededPercent } from "../propagation/p530/fade-distribution.js";
import { type RainDistribution, rainTimeForMargin } from "../propagation/p530/rain.js";
import { precipitationOutage, METHOD as TOTAL } from "../propagation/p530/total.js";
import { precipitationTimeForMargin } from "../propagation/p530/wet-snow.js";
import { METHOD as WORST_MONTH, worstMonthFromAnnual } from "../propagation/p841.js";
import { usesUnchecked } from "./climate.js";
import { type CrossPolarOutage, crossPolarOutage } from "./cross-polar.js";
import { outageWithDiversity } from "./diversity.js";
import type { Fading } from "./fading.js";
import { outageTime } from "./outage-time.js";
import type { Bound, CauseOutage, ModeResult, Outage, OutageTime } from "./result.js";
import { selectiveFraction } from "./selective.js";
import { cite, note, type Trace } from "./trace.js";

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
    crossPolar: crossPolarOutage(hop, fading, mode, trace),
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
  | "outage"
  | "causes"
>;

/** The same for a mode's result. Without margin it does not work at all: availability 0 and no outage by cause. */
export function modeOutages(mode: ModeFading, marginDb: number, trace: Trace): ModeOutages {
  if (!(marginDb > 0)) return { availabilityPercent: 0, outage: outageTime(100, 100), causes: [] };
  const { clearAir, clearAirPercent, clearAirMonthPercent, rain } = outagesAt(mode, marginDb, trace);
  if ((clearAir?.length ?? 0) > 1 || rain?.cause === "cross-polar interference in rain") cite(trace, TOTAL);
  const causes = rain === undefined ? [...(clearAir ?? [])] : [...(clearAir ?? []), rain];
  return {
    multipath: clearAirPercent === undefined ? undefined : { timePercent: clearAirPercent },
    multipathWorstMonthPercent: clearAirMonthPercent,
    rain: rain && outageOf(rain),
    causes: largestFirst(causes),
    availabilityPercent:
      clearAirPercent === undefined || rain === undefined
        ? undefined
        : Math.max(0, 100 - clearAirPercent - rain.yearPercent),
    availabilityBound: clearAirPercent === undefined ? undefined : turned(rain?.bound),
    outage: directionOutage(clearAirPercent, clearAirMonthPercent, rain),
  };
}

function directionOutage(
  clearAirPercent: number | undefined,
  clearAirMonthPercent: number | undefined,
  rain: CauseOutage | undefined,
): OutageTime | undefined {
  if (clearAirPercent === undefined || clearAirMonthPercent === undefined || !rain) return undefined;
  const { yearPercent, worstMonthPercent, bound } = rain;
  const month =
    worstMonthPercent === undefined ? undefined : Math.min(100, clearAirMonthPercent + worstMonthPercent);
  return outageTime(Math.min(100, clearAirPercent + yearPercent), month, bound);
}

/** What is bounded from above comes last: how little it is nobody knows. */
export function largestFirst(causes: readonly CauseOutage[]): CauseOutage[] {
  if (causes.length < 2) return [...causes];
  const least = ({ yearPercent, bound }: CauseOutage) => (bound === "at most" ? 0 : yearPercent);
  return causes.toSorted((a, b) => least(b) - least(a) || b.yearPercent - a.yearPercent);
}

/** The bound of what is left, from the bound of what is taken. */
export function turned(bound: Bound | undefined): Bound | undefined {
  return bound === undefined ? undefined : bound === "at most" ? "at least" : "at most";
}

function outageOf({ yearPercent, bound }: CauseOutage): Outage {
  return bound === undefined ? { timePercent: yearPercent } : { timePercent: yearPercent, bound };
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
  const flatFraction = flat.worstMonthPercent! / 100;
  const protectedFraction = outageWithDiversity(fading, multipath, marginDb, flatFraction, selective, trace);
  if (protectedFraction !== undefined) {
    const without = causes.reduce((sum, one) => sum + one.yearPercent, 0);
    const found = inDeepTail("fading with diversity", protectedFraction, yearFactor);
    causes.splice(0, causes.length, { ...found, yearPercent: Math.min(found.yearPercent, without) });
  }
  if (crossPolar !== undefined) {
    causes.push(inDeepTail("cross-polar interference in clear air", crossPolar.clearAirFraction, yearFactor));
  }
  if (trace && causes.length > 1)
    note(
      trace,
      "Clear air: selective, diversity and cross-polar outage of the worst month pass to the year by the factor of deep fading (section 2.3.4); our own rule.",
    );
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
  const attenuation = precipitation
    ? precipitationTimeForMargin(precipitation, marginDb)
    : rain.A001Db > 0
      ? rainTimeForMargin(rain, marginDb)
      : NO_RAIN;
  const interference = typeof crossPolar === "object" ? crossPolar.rain : undefined;
  const larger = precipitationOutage(attenuation, interference);
  return {
    cause: larger === attenuation ? "rain" : "cross-polar interference in rain",
    yearPercent: larger.timePercent,
    worstMonthPercent: month ? worstMonth(larger.timePercent, climate, trace) : undefined,
    bound: larger.bound,
    beyondLaw:
      larger.bound === "at most" && larger === attenuation && marginDb > greatestAttenuationDb(rain)
        ? true
        : undefined,
  };
}

/** A place without rain, which alone is a figure below the law. */
const NO_RAIN: Outage = { timePercent: 0 };

function worstMonth(yearPercent: number, climate: Climate, trace: Trace | undefined): number | undefined {
  if (
    trace
      ? !usesUnchecked(climate, "Rain in the worst month", trace)
      : climate.uncheckedMethods === "leave-out"
  )
    return undefined;
  const found = worstMonthFromAnnual({
    annualPercent: yearPercent,
    q1: climate.worstMonthQ1,
    beta: climate.worstMonthBeta,
  });
  if (trace) {
    cite(trace, WORST_MONTH);
    if (!found.ok) note(trace, `Rain in the worst month: ${found.refusal}`);
  }
  return found.ok ? found.worstMonthPercent : undefined;
}

/** Maximum over p of A0.01 C1 p^-(C2 + C3 log p): beyond it the law knows no rain at any percentage. */
function greatestAttenuationDb(law: RainDistribution): number {
  return law.A001Db * law.C1 * 10 ** (law.C2 ** 2 / (4 * law.C3));
}
