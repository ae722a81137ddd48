import type { Climate, Hop } from "../design/design.js";
import { outage, trimmed } from "../format/numbers.js";
import type { RareOutage } from "../propagation/p530/rain.js";
import { isRainZone, METHOD_RAIN_ZONES, rainZoneRateMmPerH } from "../propagation/p837.js";
import type { ClimateReading } from "./ground.js";
import type { InputUsed } from "./result.js";
import { cite, missing, note, type Trace, use } from "./trace.js";

/** The percentage of the average year that the rain law is written for. */
const RAIN_PERCENT = 0.01;

/** Median effective Earth radius factor where nothing better is known. */
export const STANDARD_K_FACTOR = 4 / 3;

/** The climate that is computed with, and where each of its facts comes from. */
export interface ClimateInUse {
  readonly climate: Climate;
  origin(fact: keyof Climate): { readonly origin: InputUsed["origin"]; readonly note?: string };
}

/** The hop's climate completed by what was read from maps and terrain; what the design states goes before. */
export function climateInUse(
  { climate, ownClimate }: Pick<Hop, "climate" | "ownClimate">,
  readings: readonly ClimateReading[] = [],
): ClimateInUse {
  const read = readings.filter(({ fact }) => climate[fact] === undefined);
  const origin: ClimateInUse["origin"] = (fact) => {
    const reading = read.find((one) => one.fact === fact);
    if (reading !== undefined) return { origin: reading.origin, note: reading.note };
    return { origin: ownClimate?.includes(fact) ? "hop climate" : "network climate" };
  };
  if (read.length === 0) return { climate, origin };
  return {
    climate: { ...climate, ...Object.fromEntries(read.map(({ fact, value }) => [fact, value])) },
    origin,
  };
}

/** Whether methods from memory count; told once when they do not. */
export function usesUnchecked({ uncheckedMethods }: Climate, what: string, trace: Trace): boolean {
  if (uncheckedMethods !== "leave-out") return true;
  note(trace, `${what}: left out, since its method is not checked against the Recommendation.`);
  return false;
}

/** What is made of rain that is rarer than its law reaches. */
export function rareOutage({ rareRain }: Climate): RareOutage {
  return rareRain ?? "estimate";
}

/** Median k of the hop; a value that is not above 0 (ducting) is refused and the standard one taken, with a note. */
export function medianKFactor({ climate, origin }: ClimateInUse, trace: Trace): number {
  const stated = climate.kFactor;
  if (stated !== undefined && stated > 0) {
    use(trace, "median k", trimmed(stated, 3), origin("kFactor").origin);
    return stated;
  }
  if (stated !== undefined)
    note(trace, `Median k ${trimmed(stated, 3)} gives no straight ray; 1.33 is used.`);
  use(trace, "median k", trimmed(STANDARD_K_FACTOR, 2), "default", "standard refraction");
  return STANDARD_K_FACTOR;
}

/**
 * Rain rate exceeded for 0.01 % of the average year, mm/h: as the design states it, else of a map, else of its rain
 * zone. A rate stated at another percentage is not converted.
 */
export function rainRate001({ climate, origin }: ClimateInUse, trace: Trace): number | undefined {
  const { rainRateMmPerH, rainTimePercent = RAIN_PERCENT, rainZone } = climate;
  const found = origin("rainRateMmPerH");
  const at = found.origin === "map" ? RAIN_PERCENT : rainTimePercent;
  if (rainRateMmPerH !== undefined && Math.abs(at - RAIN_PERCENT) < 1e-9) {
    use(trace, "rain rate at 0.01 %", () => `${trimmed(rainRateMmPerH, 1)} mm/h`, found.origin, found.note);
    return rainRateMmPerH;
  }
  const ofZone =
    rainZone !== undefined && isRainZone(rainZone) ? rainZoneRateMmPerH(rainZone, RAIN_PERCENT) : undefined;
  if (ofZone !== undefined && usesUnchecked(climate, "Rain zone", trace)) {
    const of = origin("rainZone").origin;
    use(trace, "rain rate at 0.01 %", `${ofZone} mm/h`, of, `rain zone ${rainZone}, superseded`);
    cite(trace, METHOD_RAIN_ZONES);
    note(trace, `Rain zone ${rainZone} is superseded; a local rain rate at 0.01 % is better.`);
    return ofZone;
  }
  if (rainRateMmPerH !== undefined) {
    const said = `the rain rate is stated at ${outage(rainTimePercent)} of the year, the method needs it at 0.01 %`;
    missing(trace, { code: "climate", of: ["rain"], said });
  } else {
    const said = "the climate gives no rain rate at 0.01 % of the year";
    missing(trace, { code: "climate", of: ["rain"], said });
  }
  return undefined;
}
