import { type Address, address } from "../design/address.js";
import type { Hop } from "../design/design.js";
import { radiatesBoth } from "./polarization.js";

/** A fact that the design does not state yet and that a budget cannot do without. */
export interface MissingFact {
  /** For example `antenna height at TARN`. */
  readonly fact: string;
  /** Where it would stand. */
  readonly at: Address;
}

/**
 * Facts of a hop that are still to be written, in the order in which an engineer decides them. Climate,
 * terrain and objective are not among them: they have findings of their own.
 */
export function missingFacts(hop: Hop): readonly MissingFact[] {
  const facts: MissingFact[] = [];
  const lacks = (fact: string, ...steps: string[]) =>
    facts.push({ fact, at: address("hop", hop.name, ...steps) });

  for (const end of hop.ends) {
    if (end.site.position === undefined) {
      facts.push({ fact: `position of ${end.site.name}`, at: address("site", end.site.name, "at") });
    }
  }
  if (hop.radio === undefined) lacks("radio", "radio");
  else if (hop.modes.length === 0) lacks("mode", "mode");
  for (const end of hop.ends) {
    // A half of a channel that no plan has: the channel itself was told already.
    const ofChannel = hop.channelUnknown && end.transmits !== undefined;
    if (end.transmitFrequencyHz === undefined && !ofChannel) {
      lacks(`transmit frequency at ${end.site.name}`, end.site.name, "transmits");
    }
  }
  if (hop.polarization === undefined && !radiatesBoth(hop)) lacks("polarization", "polarization");
  for (const end of hop.ends) {
    const name = end.site.name;
    if (end.antenna === undefined) lacks(`antenna at ${name}`, name, "antenna");
    if (end.antennaHeightM === undefined) lacks(`antenna height at ${name}`, name, "antenna.at");
    if (end.feeder !== undefined && end.feederLengthM === undefined) {
      lacks(`feeder length at ${name}`, name, "feeder.length");
    }
  }
  return facts;
}
