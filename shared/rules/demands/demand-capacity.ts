import { goTogether } from "../../demands/flows.js";
import { address } from "../../design/address.js";
import { bitRate } from "../../format/numbers.js";
import { someOf } from "../../words/demands.js";
import { moreCapacity } from "../fixes/demands.js";
import type { NetworkRule } from "../rule.js";
import { exampleDemand } from "./example-demand.js";

export const demandCapacity: NetworkRule = {
  scope: "network",
  id: "demand-capacity",
  severity: "error",
  ofResults: true,
  title: "Hops must carry all that is committed on them",
  checks:
    "For each hop of a demand's routes whether one of its modes carries what is committed by this demand and by those that go before it: of higher priority, and of the same priority those that may fail less. Demands alike in both go together: where they do not fit, each of them is told.",
  why: "Each demand by itself fits, all of them together do not: the last one starves.",
  fix: "A higher mode, a wider channel, a second carrier, another route, or less committed.",
  source: "common practice, no source",
  fixes: moreCapacity,
  good: exampleDemand(["committed 100 Mbit/s"]),
  bad: exampleDemand(["committed 400 Mbit/s"]),
  check({ demands, report }) {
    for (const { demand, short, hops, route } of demands?.demands.values() ?? []) {
      const [first] = short;
      if (first === undefined) continue;
      const { neededBps } = hops.find(({ hop }) => hop === first)!;
      const most = demands!.hops.get(first)!.clearAirBps ?? 0;
      const together = demands!.hops
        .get(first)!
        .demands.filter(
          (name) => name !== demand.name && goTogether(demands!.demands.get(name)!.demand, demand),
        );
      const alike = together.length === 0 ? "" : `, with ${someOf(together)} of the same rank`;
      // What no hop of its way lacks, the one that it would take in its place may.
      const beside = route?.hops.includes(first) === false ? ", on its second route," : "";
      const others = short.length === 1 ? "" : `; so do ${someOf(short.slice(1))}`;
      report({
        at: address("demand", demand.name, "committed"),
        message: `${demand.name}: ${first}${beside} carries ${bitRate(most)} at most, and ${bitRate(neededBps)} are committed on it up to this demand${alike}${others}`,
        related: short
          .slice(0, 4)
          .map((name) => ({ at: address("hop", name), message: `carries too little` })),
      });
    }
  },
};
