import { address } from "../design/address.js";
import { frequency } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const frequencyOutsideTuning: HopRule = {
  scope: "hop",
  id: "frequency-outside-tuning",
  severity: "error",
  title: "The radio must tune to the frequency",
  checks: "The frequency that each end transmits against the radio's tuning range.",
  why: "A unit of another band or sub-band is useless on the pole.",
  fix: "Choose another channel or another radio.",
  source: "common practice",
  needs: [],
  good: exampleHop(),
  bad: exampleHop({ keld: "antenna A18-06 at 40 m\n    transmits 23 GHz" }),
  check({ hop, report }) {
    const tuning = hop.radio?.tuning;
    if (tuning === undefined) return;
    for (const { site, transmitFrequencyHz: hz } of hop.ends) {
      if (hz === undefined || (hz >= tuning.fromHz && hz <= tuning.toHz)) continue;
      report({
        at: address("hop", hop.name, site.name, "transmits"),
        message: `${site.name} transmits ${frequency(hz)}, ${hop.radio!.name} tunes from ${frequency(tuning.fromHz)} to ${frequency(tuning.toHz)}`,
        related: [
          { at: address("radio", hop.radio!.name, "tuning"), message: `tuning of ${hop.radio!.name}` },
        ],
      });
    }
  },
};
