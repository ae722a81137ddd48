import { address } from "../design/address.js";
import { frequency } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

/** Rounding of stated frequencies. */
const TOLERANCE_HZ = 1000;

export const duplexMismatch: HopRule = {
  scope: "hop",
  id: "duplex-mismatch",
  severity: "error",
  title: "Both frequencies must be the radio's duplex spacing apart",
  checks: "The difference of the two transmit frequencies against the radio's duplex spacing.",
  why: "Transmitter and receiver of a unit stand a fixed spacing apart; another spacing does not tune.",
  fix: "Take both frequencies from one channel, or a radio with that spacing.",
  source: "common practice",
  needs: [],
  quietAfter: ["both-ends-same-half", "frequency-outside-tuning", "half-outside-radio"],
  good: exampleHop(),
  bad: exampleHop({ keld: "antenna A18-06 at 40 m\n    transmits 19.4 GHz" }),
  check({ hop, report }) {
    const spacingHz = hop.radio?.duplexSpacingHz;
    const [a, b] = hop.ends;
    if (spacingHz === undefined || a.transmitFrequencyHz === undefined || b.transmitFrequencyHz === undefined)
      return;
    const differenceHz = Math.abs(a.transmitFrequencyHz - b.transmitFrequencyHz);
    if (Math.abs(differenceHz - spacingHz) <= TOLERANCE_HZ) return;
    report({
      at: address("hop", hop.name, hop.channel === undefined ? "radio" : "channel"),
      message: `the ends transmit ${frequency(differenceHz)} apart, the duplex spacing of ${hop.radio!.name} is ${frequency(spacingHz)}`,
      related: [
        { at: address("radio", hop.radio!.name, "duplex"), message: `duplex spacing of ${hop.radio!.name}` },
      ],
    });
  },
};
