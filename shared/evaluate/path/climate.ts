import type { Climate } from "../../design/climate.js";
import type { Hop } from "../../design/design.js";
import type { RareOutage } from "../../propagation/p530/rain.js";
import { isRainZone, rainZoneRateMmPerH } from "../../propagation/p837.js";
import type { InputBasis } from "../account/input.js";
import type { LeftOut } from "../account/note.js";
import { cite, missing, note, type Trace, use } from "../account/trace.js";
import type { ClimateReading } from "./ground.js";

/** The percentage of the average year that the rain law is written for. */
const RAIN_PERCENT = 0.01;

/** Median effective Earth radius factor where nothing better is known. */
export const STANDARD_K_FACTOR = 4 / 3;

/** The climate that is computed with, and where each of its facts comes from. */
export interface ClimateInUse {
  readonly climate: Climate;
  origin(fact: keyof Climate): InputBasis;
}

/** The hop's climate completed by what was read from maps and terrain; what the design states goes before. */
export function climateInUse(
  { climate, ownClimate }: Pick<Hop, "climate" | "ownClimate">,
  readings: readonly ClimateReading[] = [],
): ClimateInUse {
  const read = readings.filter(({ fact }) => climate[fact] === undefined);
  const origin: ClimateInUse["origin"] = (fact) => {
    const reading = read.find((one) => one.fact === fact);
    if (reading !== undefined) return { origin: reading.origin, readFrom: reading.from };
    return { origin: ownClimate?.includes(fact) ? "hop climate" : "network climate" };
  };
  if (read.length === 0) return { climate, origin };
  return {
    climate: { ...climate, ...Object.fromEntries(read.map(({ fact, value }) => [fact, value])) },
    origin,
  };
}

/** Whether methods from memory count; told once when they do not. */
export function usesUnchecked({ uncheckedMethods }: Climate, method: LeftOut, trace: Trace): boolean {
  if (uncheckedMethods !== "leave-out") return true;
  note(trace, { code: "method-left-out", method });
  return false;
}

/** What is made of rain that is rarer than its law reaches. */
export function rareOutage({ rareRain }: Climate): RareOutage {
  return rareRain ?? "estimate";
}

/** Median k of the hop, the standard one where none is stated. */
export function medianKFactor({ climate, origin }: ClimateInUse, trace: Trace): number {
  const stated = climate.kFactor;
  if (stated !== undefined) {
    use(trace, { code: "median-k", kFactor: stated }, origin("kFactor"));
    return stated;
  }
  use(trace, { code: "median-k", kFactor: STANDARD_K_FACTOR }, "default");
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
    use(trace, { code: "rain-rate", rateMmPerH: rainRateMmPerH }, found);
    return rainRateMmPerH;
  }
  const ofZone =
    rainZone !== undefined && isRainZone(rainZone) ? rainZoneRateMmPerH(rainZone, RAIN_PERCENT) : undefined;
  if (ofZone !== undefined && usesUnchecked(climate, "rain-zone", trace)) {
    use(
      trace,
      { code: "rain-rate", rateMmPerH: ofZone, zone: rainZone! },
      { ...origin("rainZone"), standing: "superseded" },
    );
    cite(trace, "rain-zones");
    note(trace, { code: "rain-zone-superseded", zone: rainZone! });
    return ofZone;
  }
  if (rainRateMmPerH !== undefined) {
    const reason = { code: "rain-rate-elsewhere", timePercent: rainTimePercent } as const;
    missing(trace, { code: "climate", of: ["rain"], reason });
  } else {
    missing(trace, { code: "climate", of: ["rain"], reason: { code: "no-rain-rate" } });
  }
  return undefined;
}
