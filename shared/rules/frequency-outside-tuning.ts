import { address } from "../design/address.js";
import { frequency } from "../format/numbers.js";
import { carriersOf } from "./carriers.js";
import { exampleHop } from "./example-preamble.js";
import { otherRadioOrChannel } from "./fixes/radio-or-channel.js";
import type { HopRule } from "./rule.js";

export const frequencyOutsideTuning: HopRule = {
  scope: "hop",
  id: "frequency-outside-tuning",
  severity: "error",
  title: "The radio must tune to the frequency",
  checks: "The centre frequency of every carrier that an end transmits against the radio's tuning range.",
  why: "A unit of another band or sub-band is useless on the pole.",
  fix: "Choose another channel or another radio.",
  source: "common practice",
  needs: [],
  fixes: otherRadioOrChannel,
  good: exampleHop(),
  bad: exampleHop({ keld: "antenna DISH60-18 at 40 m\n    transmits 23 GHz" }),
  check({ hop, report }) {
    const tuning = hop.radio?.tuning;
    if (tuning === undefined) return;
    for (const { frequencyHz, at, words } of hop.ends.flatMap((end) => carriersOf(hop, end))) {
      if (frequencyHz >= tuning.fromHz && frequencyHz <= tuning.toHz) continue;
      report({
        at,
        message: `${words}, ${hop.radio!.name} tunes from ${frequency(tuning.fromHz)} to ${frequency(tuning.toHz)}`,
        related: [
          { at: address("radio", hop.radio!.name, "tuning"), message: `tuning of ${hop.radio!.name}` },
        ],
      });
    }
  },
};
