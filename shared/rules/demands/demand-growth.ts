import type { Outgrown } from "../../demands/growth.js";
import { address } from "../../design/address.js";
import { bitRate } from "../../format/numbers.js";
import { elementWords } from "../../words/demands.js";
import type { NetworkRule } from "../rule.js";
import { exampleDemand } from "./example-demand.js";

export const demandGrowth: NetworkRule = {
  scope: "network",
  id: "demand-growth",
  severity: "warning",
  ofResults: true,
  title: "Growth must not outgrow a hop within its horizon",
  checks:
    "What is committed on each hop, grown year by year as its demands state, against what the hop carries today at the share of time that they ask; and the same in the failure of one hop, site or card that makes it too much earliest.",
  why: "A radio stands for ten years, and the licence of a wider channel takes one.",
  fix: "A mode, channel or carrier more, planned for that year.",
  source: "common practice, no source",
  good: exampleDemand(["committed 100 Mbit/s", "growth 10 % for 5 years"]),
  bad: exampleDemand(["committed 250 Mbit/s", "growth 10 % for 5 years"]),
  check({ demands, report }) {
    for (const { hop, outgrown, outgrownWithout, worst, demands: on } of demands?.hops.values() ?? []) {
      const grows = (name: string) => (demands!.demands.get(name)!.demand.growthPercent ?? 0) > 0;
      const tell = ({ year, committedBps, carriedBps }: Outgrown, at: string, when: string) =>
        report({
          at: address("demand", at, "growth"),
          about: hop,
          message: `${when}${hop} is outgrown in year ${year}: ${bitRate(committedBps)} committed then, it carries ${bitRate(carriedBps)}`,
          related: [{ at: address("hop", hop), message: `carries ${bitRate(carriedBps)}` }],
        });
      if (outgrown) tell(outgrown, on.find(grows)!, "");
      // What is too much today in some failure is told by that, and need not be told of later years.
      if (outgrownWithout === undefined || worst?.overloaded) continue;
      const { element } = outgrownWithout;
      const passing = demands!.failures.find((one) => one.element === element)?.moved ?? [];
      const at = [...on, ...passing].find(grows);
      if (at !== undefined) tell(outgrownWithout, at, `without ${elementWords(element)}, `);
    }
  },
};
