import { address } from "../design/address.js";
import type { Fix } from "../design/fact-change.js";
import { frequency } from "../format/numbers.js";
import { halfOf } from "../radio/halves.js";
import { exampleHop } from "./example-preamble.js";
import { allOf, decision, endHere, type Mending } from "./fixes/mending.js";
import { otherRadioOrChannel } from "./fixes/radio-or-channel.js";
import type { HopRule } from "./rule.js";

/** Rounding of stated frequencies. */
const TOLERANCE_HZ = 1000;

export const frequencyOffChannel: HopRule = {
  scope: "hop",
  id: "frequency-off-channel",
  severity: "error",
  title: "A frequency stated beside a channel must be the channel's",
  checks: "The frequency that an end states against both centre frequencies of the hop's channel.",
  why: "One of the two is wrong, and the licence is for one of them.",
  fix: "State `transmits high` or `transmits low` and leave the frequency to the channel, or mend the channel.",
  source: "common practice",
  needs: [],
  quietAfter: ["frequency-outside-tuning"],
  fixes: allOf(halfOfChannel, otherRadioOrChannel),
  good: exampleHop(),
  bad: exampleHop({ keld: "antenna DISH60-18 at 40 m\n    transmits 18.94 GHz" }),
  check({ hop, report }) {
    const { channel } = hop;
    if (channel?.lowHz === undefined || channel.highHz === undefined) return;
    const { lowHz, highHz } = channel;
    for (const end of hop.ends) {
      const { site, transmitFrequencyHz: hz } = end;
      if (hz === undefined || [lowHz, highHz].some((one) => Math.abs(one - hz) <= TOLERANCE_HZ)) continue;
      const half = halfOf(end, hop.radio) ?? (Math.abs(hz - lowHz) <= Math.abs(hz - highHz) ? "low" : "high");
      const meantHz = half === "low" ? lowHz : highHz;
      report({
        at: address("hop", hop.name, site.name, "transmits"),
        message: `${site.name} transmits ${frequency(hz)}, which is not on the channel (channel ${channel.number} of ${channel.plan} ${half} is ${frequency(meantHz)})`,
        help: `\`transmits ${half}\` takes the channel's own.`,
        related: [{ at: address("hop", hop.name, "channel"), message: `channel ${channel.number}` }],
      });
    }
  },
};

function halfOfChannel(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  if (!here) return [];
  const { hop, site, at } = here;
  const far = hop.ends.find((end) => end.site.name !== site);
  const half = far?.transmits === "high" ? "low" : far?.transmits === "low" ? "high" : undefined;
  return (half ? [half] : ["high", "low"]).map((one) =>
    decision(`Let ${site} transmit the ${one} half of the channel`, {
      do: "state",
      in: at,
      line: `transmits ${one}`,
    }),
  );
}
