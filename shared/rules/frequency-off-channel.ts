import { address } from "../design/address.js";
import { frequency } from "../format/numbers.js";
import { halfOf } from "../radio/halves.js";
import { exampleHop } from "./example-preamble.js";
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
