import { address } from "../../design/address.js";
import { routeProblemWords } from "../../words/demands.js";
import type { NetworkRule } from "../rule.js";
import { exampleDemand } from "./example-demand.js";

export const demandRoute: NetworkRule = {
  scope: "network",
  id: "demand-route",
  severity: "error",
  ofResults: true,
  title: "A demand needs a route",
  checks:
    "Whether the hops that stand lead from where a demand comes to where it goes, over the sites and hops that it states.",
  why: "What has no route is not carried, however good the hops are.",
  fix: "A hop that is missing, another `route via`, or `handover` at the site where traffic leaves.",
  source: "common practice",
  good: exampleDemand(["committed 100 Mbit/s"]),
  bad: exampleDemand(["committed 100 Mbit/s"]).replace("to TARN\n  committed", "to handover\n  committed"),
  check({ demands, report }) {
    for (const { demand, problem } of demands?.demands.values() ?? []) {
      if (problem === undefined) continue;
      const isStated = problem.code === "unreached" || problem.code === "passed-twice";
      report({
        at: address("demand", demand.name, isStated ? "route" : "from"),
        message: `${demand.name} has no route: ${routeProblemWords(problem, demand)}`,
      });
    }
  },
};
