import { address } from "../design/address.js";
import type { Fix } from "../design/fact-change.js";
import { frequency } from "../format/numbers.js";
import { halfOf, transmitAlike } from "../radio/halves.js";
import { exampleHop } from "./example-preamble.js";
import { decision, type Mending } from "./fixes/mending.js";
import type { HopRule } from "./rule.js";

export const bothEndsSameHalf: HopRule = {
  scope: "hop",
  id: "both-ends-same-half",
  severity: "error",
  title: "One end transmits high, the other low",
  checks:
    "The half of the band in which each end transmits; without halves, whether their frequencies are less than the width of a mode apart.",
  why: "With both ends in one half, or on one frequency, neither receives the other: no traffic, and two equal units are ordered.",
  fix: "Exchange the half at one end; look at the other hops of the site first.",
  source: "common practice",
  needs: [],
  fixes: otherHalf,
  good: exampleHop(),
  bad: exampleHop({ tarn: "antenna DISH60-18 at 40 m\n    transmits high" }),
  check({ hop, report }) {
    if (!transmitAlike(hop)) return;
    const [a, b] = hop.ends;
    const half = halfOf(a, hop.radio);
    const isHalf = half !== undefined && half === halfOf(b, hop.radio);
    const [sent, other] = [a, b].map(({ transmitFrequencyHz }) => frequency(transmitFrequencyHz ?? 0));
    const alike = isHalf ? half : sent === other ? sent : undefined;
    report({
      at: address("hop", hop.name, b.site.name, "transmits"),
      message:
        alike === undefined
          ? `${a.site.name} transmits ${sent} and ${b.site.name} ${other}, less than a channel apart`
          : `${a.site.name} and ${b.site.name} both transmit ${alike}`,
      help: isHalf
        ? `Let one of them transmit ${half === "high" ? "low" : "high"}.`
        : "Let each transmit in a half of its own.",
      related: [
        {
          at: address("hop", hop.name, a.site.name, "transmits"),
          message: `${a.site.name} transmits ${isHalf ? half : sent}${alike === undefined ? "" : " too"}`,
        },
      ],
    });
  },
};

/** Turns the half of one end; the last end first, as the finding stands there. */
function otherHalf({ hop }: Mending): readonly Fix[] {
  return (hop?.ends ?? []).toReversed().flatMap(({ site, transmits }) => {
    if (transmits === undefined) return [];
    const half = transmits === "high" ? "low" : "high";
    return [
      decision(`Let ${site.name} transmit ${half} (changes the half of this end)`, {
        do: "state",
        in: address("hop", hop!.name, site.name),
        line: `transmits ${half}`,
      }),
    ];
  });
}
