import { address } from "../design/address.js";
import { carriersOf } from "./carriers.js";
import { exampleHop } from "./example-preamble.js";
import { exchangeHalves } from "./fixes/halves.js";
import { allOf } from "./fixes/mending.js";
import { otherRadioOrChannel } from "./fixes/radio-or-channel.js";
import type { HopRule } from "./rule.js";

export const halfOutsideRadio: HopRule = {
  scope: "hop",
  id: "half-outside-radio",
  severity: "error",
  title: "The frequency must lie in the radio's half",
  checks:
    "The centre frequency of every carrier of an end against the radio's half in which the end transmits.",
  why: "Units are built for one half; the wrong one cannot be tuned to it.",
  fix: "Exchange the halves, or choose a channel that the radio covers.",
  source: "common practice",
  needs: [],
  quietAfter: ["frequency-outside-tuning", "both-ends-same-half"],
  fixes: allOf(exchangeHalves, otherRadioOrChannel),
  good: exampleHop(),
  bad: exampleHop({ hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM" }).replace(
    "transmits high",
    "transmits 18.7 GHz",
  ),
  check({ hop, report }) {
    const { radio } = hop;
    if (radio?.lowHalf === undefined || radio.highHalf === undefined) return;
    for (const { end, frequencyHz: hz, at, words } of hop.ends.flatMap((one) =>
      carriersOf(hop, one).map((carrier) => ({ end: one, ...carrier })),
    )) {
      const { transmits } = end;
      const halves =
        transmits === undefined
          ? [radio.lowHalf, radio.highHalf]
          : [transmits === "low" ? radio.lowHalf : radio.highHalf];
      if (halves.some(({ fromHz, toHz }) => hz >= fromHz && hz <= toHz)) continue;
      const half = transmits === undefined ? "either half" : `the ${transmits} half`;
      report({
        at,
        message: `${words}, outside ${half} of ${radio.name}`,
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
