import type { Climate } from "../design/design.js";
import { outage, trimmed } from "../format/numbers.js";
import { isRainZone, rainZoneRateMmPerH } from "../propagation/p837.js";
import { citeAs, missing, note, type Trace, use } from "./trace.js";

/** The percentage of the average year that the rain law is written for. */
const RAIN_PERCENT = 0.01;

/** Median effective Earth radius factor where nothing better is known. */
export const STANDARD_K_FACTOR = 4 / 3;

/** Median k of the hop; a value that is not above 0 (ducting) is refused and the standard one taken, with a note. */
export function medianKFactor(climate: Climate, trace: Trace): number {
  const stated = climate.kFactor;
  if (stated !== undefined && stated > 0) {
    use(trace, "median k", trimmed(stated, 3), "design");
    return stated;
  }
  if (stated !== undefined) note(trace, `Median k ${trimmed(stated, 3)} gives no straight ray; 4/3 is used.`);
  use(trace, "median k", "4/3", "default", "standard refraction");
  return STANDARD_K_FACTOR;
}

/**
 * Rain rate exceeded for 0.01 % of the average year, mm/h: as the design states it, else of its rain zone.
 * A rate stated at another percentage is not converted.
 */
export function rainRate001(climate: Climate, trace: Trace): number | undefined {
  const { rainRateMmPerH, rainTimePercent = RAIN_PERCENT, rainZone } = climate;
  if (rainRateMmPerH !== undefined && Math.abs(rainTimePercent - RAIN_PERCENT) < 1e-9) {
    use(trace, "rain rate at 0.01 %", `${trimmed(rainRateMmPerH, 1)} mm/h`, "design");
    return rainRateMmPerH;
  }
  const ofZone =
    rainZone !== undefined && isRainZone(rainZone) ? rainZoneRateMmPerH(rainZone, RAIN_PERCENT) : undefined;
  if (ofZone !== undefined) {
    use(trace, "rain rate at 0.01 %", `${ofZone} mm/h`, "design", `rain zone ${rainZone}, superseded`);
    citeAs(
      trace,
      "Rec. ITU-R PN.837-1 table 1",
      "from memory, not checked against the Recommendation",
      "Rain zones, superseded",
    );
    note(trace, `Rain zone ${rainZone} is superseded; a local rain rate at 0.01 % is better.`);
    return ofZone;
  }
  if (rainRateMmPerH !== undefined) {
    missing(
      trace,
      `Rain outage: the rain rate is stated at ${outage(rainTimePercent)} of the year, the method needs it at 0.01 %.`,
    );
  } else {
    missing(trace, "Rain outage: the climate gives no rain rate at 0.01 % of the year.");
  }
  return undefined;
}
