import type { NetworkRule } from "../rule.js";
import { exampleDemand } from "./example-demand.js";
import { outgrownReport } from "./outgrown-report.js";

export const demandGrowth: NetworkRule = {
  scope: "network",
  id: "demand-growth",
  severity: "warning",
  ofResults: true,
  title: "Growth must not outgrow a hop within its horizon",
  checks:
    "What is committed on each hop, grown year by year as its demands state, against what the hop carries today at the share of time that they ask. Years count from today's figures; Ethernet rates grow to the horizon of each demand and stay there, E1 and STM-1 do not grow. It is told at the demand that adds most until then. Of a hop with too much on it today, that is told and its growth is not.",
  why: "A radio stands for ten years, and the licence of a wider channel takes one.",
  fix: "A mode, channel or carrier more, planned for that year.",
  source: "common practice, no source",
  good: exampleDemand(["committed 100 Mbit/s", "growth 10 % for 5 years"]),
  bad: exampleDemand(["committed 250 Mbit/s", "growth 10 % for 5 years"]),
  check({ demands, report }) {
    for (const { hop, outgrown } of demands?.hops.values() ?? [])
      if (outgrown) report(outgrownReport(hop, outgrown));
  },
};
