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
    "What is committed on each hop, grown year by year as its demands state, against what the hop carries today at the share of time that they ask; and the same in the failure of one hop, site or card that makes it too much earliest. Years count from today's figures; each demand grows to its horizon and stays there. It is told at the demand that adds most until then. Of a hop that is overloaded today, or in some failure today, that is told and its growth is not.",
  why: "A radio stands for ten years, and the licence of a wider channel takes one.",
  fix: "A mode, channel or carrier more, planned for that year.",
  source: "common practice, no source",
  good: exampleDemand(["committed 100 Mbit/s", "growth 10 % for 5 years"]),
  bad: exampleDemand(["committed 250 Mbit/s", "growth 10 % for 5 years"]),
  check({ demands, report }) {
    for (const { hop, outgrown, outgrownWithout } of demands?.hops.values() ?? []) {
      const tell = ({ year, committedBps, carriedBps, mostBy }: Outgrown, when: string) =>
        report({
          at: address("demand", mostBy, "growth"),
          about: hop,
          message: `${when}${hop} is outgrown in year ${year}: ${bitRate(committedBps)} committed then, it carries ${bitRate(carriedBps)}`,
          related: [{ at: address("hop", hop), message: `carries ${bitRate(carriedBps)}` }],
        });
      if (outgrown) tell(outgrown, "");
      if (outgrownWithout) tell(outgrownWithout, `without ${elementWords(outgrownWithout.element)}, `);
    }
  },
};
