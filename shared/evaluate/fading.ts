import type { Hop, HopEnd } from "../design/design.js";
import type { ClimateInUse } from "./climate.js";
import { crossPolarOf } from "./cross-polar.js";
import { diversityOf } from "./diversity.js";
import type { Fading, FadingPath } from "./fading-model.js";
import { multipathOf } from "./multipath.js";
import { rainOf } from "./rain.js";
import type { Trace } from "./trace.js";

/** Everything that takes signal away in one direction, each only when its inputs are known. */
export function fadingOf(
  hop: Hop,
  [from, to]: readonly [HopEnd, HopEnd],
  path: FadingPath,
  climate: ClimateInUse,
  frequencyHz: number,
  trace: Trace,
): Fading {
  const { distanceM } = path.course;
  const multipath = multipathOf(path, climate, frequencyHz, trace);
  return {
    distanceM,
    frequencyHz,
    multipath,
    ...rainOf(hop, path, climate, frequencyHz, trace),
    crossPolar: crossPolarOf(hop, from, to, trace),
    diversity:
      multipath && multipath.occurrencePercent > 0
        ? diversityOf(
            hop,
            to,
            {
              distanceM,
              frequencyHz,
              occurrencePercent: multipath.occurrencePercent,
              moreLossDb: path.moreLossDb ?? 0,
            },
            climate.climate,
            trace,
          )
        : undefined,
  };
}
