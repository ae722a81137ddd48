import { address } from "../../design/address.js";
import { elementsWords, secondProblemWords } from "../../words/demands.js";
import { exampleHop } from "../example-preamble.js";
import type { NetworkRule } from "../rule.js";
import { exampleDemand } from "./example-demand.js";

const SECOND_HOP = exampleHop().replace("hop KELD-TARN", "hop KELD-TARN-B").replace("/ 4", "/ 8");

export const demandSecondRoute: NetworkRule = {
  scope: "network",
  id: "demand-second-route",
  severity: "error",
  ofResults: true,
  title: "A second route must share nothing that may not fail for both",
  checks:
    "Whether the network has a second route that shares no hop, no site or no structure with the first, as the demand asks; of structure, whether no two of their sites are nearer than 100 m (ours). Where the shortest route stands in the way of any second, the two that are shortest together are taken. A second route over a hop that is out all the time is none.",
  why: "A protection that hangs on the same mast or hop fails with what it protects.",
  fix: "A hop that closes a ring, another site, or less asked of the demand.",
  source: "common practice, no source",
  good: `${exampleDemand(["second-route disjoint hop"])}\n\n${SECOND_HOP}`,
  bad: exampleDemand(["second-route disjoint hop"]),
  check({ demands, report }) {
    for (const { demand, secondProblem, short, singlePoints } of demands?.demands.values() ?? []) {
      if (secondProblem === undefined || demand.secondRoute === undefined) continue;
      // That no mode carries what is committed there is told of the capacity.
      if (secondProblem.code === "out" && short.includes(secondProblem.hop)) continue;
      const hang = singlePoints.length === 0 ? "" : `; it hangs on ${elementsWords(singlePoints)}`;
      report({
        at: address("demand", demand.name, "second-route"),
        message: `${demand.name}: ${secondProblemWords(secondProblem, demand.secondRoute.disjoint)}${hang}`,
        related: singlePoints
          .filter(({ kind }) => kind === "hop")
          .slice(0, 4)
          .map(({ name }) => ({ at: address("hop", name), message: `without ${name} it is lost` })),
      });
    }
  },
};
