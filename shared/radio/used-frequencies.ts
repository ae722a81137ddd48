import type { Antenna } from "../design/catalogue.js";
import type { Hop } from "../design/design.js";
import type { FrequencyRange } from "../design/frequency-range.js";
import { frequency } from "../format/numbers.js";
import { transmitFrequencies } from "./channels.js";

/** Everything an antenna or coupler of this hop passes: both directions, every carrier. */
export function usedFrequenciesHz(hop: Hop): number[] {
  return hop.ends.flatMap((end) => transmitFrequencies(hop, end).filter((hz) => hz !== undefined));
}

/** The first used frequency outside a band, or undefined. */
export function firstOutside(hop: Hop, band: FrequencyRange): number | undefined {
  return usedFrequenciesHz(hop).find((hz) => hz < band.fromHz || hz > band.toHz);
}

/** The first used frequency that neither band of an antenna covers; undefined also where it states no band. */
export function firstOutsideAntenna(hop: Hop, { band, mount }: Antenna): number | undefined {
  const hz = band && firstOutside(hop, band);
  const second = mount?.secondBand;
  return hz !== undefined && second !== undefined && firstOutside(hop, second) === undefined ? undefined : hz;
}

export function bandWords({ fromHz, toHz }: FrequencyRange): string {
  return `${frequency(fromHz)} to ${frequency(toHz)}`;
}
