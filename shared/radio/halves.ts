import type { Radio } from "../design/catalogue.js";
import type { HalfOfBand, Hop, HopEnd } from "../design/design.js";

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

/** Within one of these a site transmits one half: a channel plan, open number or not; without a plan the radio. */
export function bandOf({ channel, openChannel, radio }: Hop): string | undefined {
  return channel?.plan ?? openChannel?.plan ?? radio?.name;
}

/**
 * What the first end transmits, by what either of them states. Ends that both state the same say nothing, and are told by
 * a rule of their own.
 */
export function firstHalfOf({ ends: [first, second], radio }: Hop): HalfOfBand | "both alike" | undefined {
  const [own, far] = [halfOf(first, radio), halfOf(second, radio)];
  if (own !== undefined && own === far) return "both alike";
  return own ?? (far === undefined ? undefined : otherHalf(far));
}

export function otherHalf(half: HalfOfBand): HalfOfBand {
  return half === "high" ? "low" : "high";
}

/**
 * Whether neither end receives the other: both transmit in one half, or on frequencies less than a channel apart.
 * A receiver listens where its own sender does not.
 */
export function transmitAlike({ ends, radio, modes }: Pick<Hop, "ends" | "radio" | "modes">): boolean {
  const [half, other] = ends.map((end) => halfOf(end, radio));
  if (half !== undefined && half === other) return true;
  const [hz, otherHz] = ends.map(({ transmitFrequencyHz }) => transmitFrequencyHz);
  if (hz === undefined || otherHz === undefined) return false;
  const separationHz = Math.abs(hz - otherHz);
  return separationHz === 0 || separationHz < Math.max(...modes.map(({ bandwidthHz }) => bandwidthHz));
}
