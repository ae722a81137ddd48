/** How units or coupler of an end meet the antenna. */
import type { HopEnd } from "../design/design.js";

/** As the coupler's line says, else the end's own; a feeder alone means separate. Undefined: not said. */
export function mountingOf(end: HopEnd): "direct" | "separate" | undefined {
  return end.mounting ?? end.installation?.mounting ?? (end.feeder === undefined ? undefined : "separate");
}
