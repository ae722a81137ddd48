import { address } from "../design/address.js";
import { frequency } from "../format/numbers.js";
import { furtherAddress, furtherWords } from "./carriers.js";
import { exampleHop } from "./example-preamble.js";
import { otherRadioOrChannel } from "./fixes/radio-or-channel.js";
import type { HopRule } from "./rule.js";

/** Rounding of stated frequencies. */
const TOLERANCE_HZ = 1000;

export const duplexMismatch: HopRule = {
  scope: "hop",
  id: "duplex-mismatch",
  severity: "error",
  title: "Both frequencies must be the radio's duplex spacing apart",
  checks:
    "The difference of the two transmit frequencies, of every carrier, against the radio's duplex spacing.",
  why: "Transmitter and receiver of a unit stand a fixed spacing apart; another spacing does not tune.",
  fix: "Take both frequencies from one channel, or a radio with that spacing.",
  source: "common practice",
  needs: [],
  quietAfter: [
    "both-ends-same-half",
    "frequency-outside-tuning",
    "half-outside-radio",
    "frequency-off-channel",
  ],
  fixes: otherRadioOrChannel,
  good: exampleHop(),
  bad: exampleHop({
    keld: "antenna DISH60-18 at 40 m\n    transmits 19.4 GHz",
    tarn: "antenna DISH60-18 at 40 m\n    transmits 17.92 GHz",
  }).replace("  channel P18 / 55 MHz / 4\n", ""),
  check({ hop, report }) {
    const spacingHz = hop.radio?.duplexSpacingHz;
    if (spacingHz === undefined) return;
    const related = [
      { at: address("radio", hop.radio!.name, "duplex"), message: `duplex spacing of ${hop.radio!.name}` },
    ];
    const [a, b] = hop.ends.map((end) => end.transmitFrequencyHz);
    const carriers = [
      { at: address("hop", hop.name, hop.channel === undefined ? "radio" : "channel"), on: "", hz: [a, b] },
      ...(hop.furtherChannels ?? []).map(({ lowHz, highHz }, index) => ({
        at: furtherAddress(hop, index),
        on: ` on the ${furtherWords(index)}`,
        hz: [lowHz, highHz],
      })),
    ];
    for (const { at, on, hz } of carriers) {
      if (hz[0] === undefined || hz[1] === undefined) continue;
      const differenceHz = Math.abs(hz[0] - hz[1]);
      if (Math.abs(differenceHz - spacingHz) <= TOLERANCE_HZ) continue;
      report({
        at,
        message: `the ends transmit ${frequency(differenceHz)} apart${on}, the duplex spacing of ${hop.radio!.name} is ${frequency(spacingHz)}`,
        related,
      });
    }
  },
};
