import { address } from "../design/address.js";
import { halfOf } from "../radio/halves.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const bothEndsSameHalf: HopRule = {
  scope: "hop",
  id: "both-ends-same-half",
  severity: "error",
  title: "One end transmits high, the other low",
  checks: "The half of the band in which each end transmits.",
  why: "With both ends in one half, neither receives the other: no traffic, and two equal units are ordered.",
  fix: "Exchange the half at one end; look at the other hops of the site first.",
  source: "common practice",
  needs: [],
  good: exampleHop(),
  bad: exampleHop({ tarn: "antenna A18-06 at 40 m\n    transmits high" }),
  check({ hop, report }) {
    const [a, b] = hop.ends;
    const half = halfOf(a, hop.radio);
    if (half === undefined || half !== halfOf(b, hop.radio)) return;
    report({
      at: address("hop", hop.name, b.site.name, "transmits"),
      message: `${a.site.name} and ${b.site.name} both transmit ${half}`,
      help: `Let one of them transmit ${half === "high" ? "low" : "high"}.`,
      related: [
        {
          at: address("hop", hop.name, a.site.name, "transmits"),
          message: `${a.site.name} transmits ${half} too`,
        },
      ],
    });
  },
};
