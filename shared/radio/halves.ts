import type { HalfOfBand, HopEnd, Radio } from "../design/design.js";

/** The half of the band in which an end transmits: as stated, else as its frequency lies in the radio's halves. */
export function halfOf(end: HopEnd, radio: Radio | undefined): HalfOfBand | undefined {
  if (end.transmits !== undefined) return end.transmits;
  const hz = end.transmitFrequencyHz;
  if (hz === undefined || radio === undefined) return undefined;
  const within = (range: Radio["lowHalf"]) => range !== undefined && hz >= range.fromHz && hz <= range.toHz;
  if (within(radio.lowHalf)) return "low";
  if (within(radio.highHalf)) return "high";
  return undefined;
}
