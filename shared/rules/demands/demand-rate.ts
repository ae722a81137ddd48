import { address } from "../../design/address.js";
import type { NetworkRule } from "../rule.js";
import { exampleDemand } from "./example-demand.js";

export const demandRate: NetworkRule = {
  scope: "network",
  id: "demand-rate",
  severity: "warning",
  title: "A demand says what must be carried",
  checks: "Whether a demand states a committed rate, E1 or STM-1 that can be read.",
  why: "A demand of nothing is met by any hop, and the rate that was meant is carried nowhere.",
  fix: "Write `committed`, `E1` or `STM-1`; a `peak` alone promises nothing.",
  source: "common practice, no source",
  good: exampleDemand(["committed 100 Mbit/s"]),
  bad: exampleDemand(["availability 99.9 %"]),
  check({ demands, report }) {
    for (const { demand, taken } of demands?.demands.values() ?? []) {
      // Less than a bit a second is a slip.
      if (taken.committedBps >= 1) continue;
      report({
        at: address("demand", demand.name),
        message: `${demand.name} states no rate that must be carried: what is told of it holds for nothing`,
      });
    }
  },
};
