import { address } from "../../design/address.js";
import { bitRate } from "../../format/numbers.js";
import type { NetworkRule } from "../rule.js";
import { exampleDemand } from "./example-demand.js";

export const demandGrowth: NetworkRule = {
  scope: "network",
  id: "demand-growth",
  severity: "warning",
  ofResults: true,
  title: "Growth must not outgrow a hop within its horizon",
  checks:
    "What is committed on each hop, grown year by year as its demands state, against what the hop carries today at the share of time that they ask.",
  why: "A radio stands for ten years, and the licence of a wider channel takes one.",
  fix: "A mode, channel or carrier more, planned for that year.",
  source: "common practice, no source",
  good: exampleDemand(["committed 100 Mbit/s", "growth 10 % for 5 years"]),
  bad: exampleDemand(["committed 250 Mbit/s", "growth 10 % for 5 years"]),
  check({ demands, report }) {
    for (const { hop, outgrown, demands: on } of demands?.hops.values() ?? []) {
      if (outgrown === undefined) continue;
      const { year, committedBps, carriedBps } = outgrown;
      const growing = on.find((name) => (demands!.demands.get(name)!.demand.growthPercent ?? 0) > 0)!;
      report({
        at: address("demand", growing, "growth"),
        about: hop,
        message: `${hop} is outgrown in year ${year}: ${bitRate(committedBps)} committed then, it carries ${bitRate(carriedBps)}`,
        related: [{ at: address("hop", hop), message: `carries ${bitRate(carriedBps)}` }],
      });
    }
  },
};
