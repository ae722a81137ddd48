import type { Passage } from "../path/passage.js";
import { crossPolarOf } from "./cross-polar.js";
import { diversityOf } from "./diversity.js";
import type { Fading, FadingPath } from "./fading-model.js";
import { multipathOf } from "./multipath.js";
import { rainOf } from "./rain.js";

/** Everything that takes signal away in one direction, each only when its inputs are known. */
export function fadingOf(passage: Passage, path: FadingPath): Fading {
  const { hop, ends, climate, frequencyHz, trace } = passage;
  const [from, to] = ends;
  const { distanceM } = path.course;
  const multipath = multipathOf(path, climate, frequencyHz, trace);
  return {
    distanceM,
    frequencyHz,
    multipath,
    ...rainOf(passage, path),
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
