import { address } from "../design/address.js";
import { frequency } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const halfOutsideRadio: HopRule = {
  scope: "hop",
  id: "half-outside-radio",
  severity: "error",
  title: "The frequency must lie in the radio's half",
  checks: "The frequency of an end that transmits high or low against the radio's high or low half.",
  why: "Units are built for one half; the wrong one cannot be tuned to it.",
  fix: "Exchange the halves, or choose a channel that the radio covers.",
  source: "common practice",
  needs: [],
  quietAfter: ["frequency-outside-tuning", "both-ends-same-half"],
  good: exampleHop(),
  bad: exampleHop({ hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM" }).replace(
    "transmits high",
    "transmits 18.7 GHz",
  ),
  check({ hop, report }) {
    const { radio } = hop;
    if (radio?.lowHalf === undefined || radio.highHalf === undefined) return;
    for (const { site, transmits, transmitFrequencyHz: hz } of hop.ends) {
      if (hz === undefined) continue;
      const halves =
        transmits === undefined
          ? [radio.lowHalf, radio.highHalf]
          : [transmits === "low" ? radio.lowHalf : radio.highHalf];
      if (halves.some(({ fromHz, toHz }) => hz >= fromHz && hz <= toHz)) continue;
      const half = transmits === undefined ? "either half" : `the ${transmits} half`;
      report({
        at: address("hop", hop.name, site.name, "transmits"),
        message: `${site.name} transmits ${frequency(hz)}, outside ${half} of ${radio.name}`,
        related: [
          {
            at: address("radio", radio.name, `${transmits ?? "low"}-half`),
            message: `halves of ${radio.name}`,
          },
        ],
      });
    }
  },
};
