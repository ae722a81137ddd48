import { address } from "../design/address.js";
import type { Fix } from "../design/fact-change.js";
import { branchesOf } from "../equipment/branches.js";
import { couplersStated, joiningOf, standsOf } from "../equipment/stands.js";
import { decibels } from "../format/numbers.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import { exampleHop } from "./example-preamble.js";
import { standHere } from "./fixes/couplers.js";
import { decision, endHere, type Mending } from "./fixes/mending.js";
import type { HopRule } from "./rule.js";

export const couplerNotNeeded: HopRule = {
  scope: "hop",
  id: "coupler-not-needed",
  severity: "warning",
  arrangements: () => true,
  title: "A coupler without a second unit costs level for nothing",
  checks: "Whether an end states a coupler that its arrangement has no use for.",
  why: "It takes its loss at both ends all year. As a provision for a later second unit it is a decision worth writing down.",
  fix: "Remove the coupler, or accept it with the reason.",
  source: "common practice",
  needs: [],
  restsOn: ["arrangement", "second-antenna", "third-antenna", "fourth-antenna"],
  fixes: removeCoupler,
  good: exampleHop(),
  bad: exampleHop({ keld: "antenna DISH60-18 at 40 m\n    coupler H18-E direct\n    transmits high" }),
  check({ hop, report }) {
    for (const end of hop.ends) {
      const facts = factsAt(hop, end);
      if (facts === undefined) continue;
      const stands = standsOf(end, facts);
      const { joins, left } = joiningOf(stands, facts);
      const branches = branchesOf(facts, joins);
      for (const { coupler, fact } of couplersStated(end)) {
        const index = stands.findIndex(({ couplerFact }) => couplerFact === fact);
        const units = branches.filter(({ antenna }) => antenna === index + 1).length;
        // The last of several may join one unit only: the next carrier finds its place there.
        const joinsSome = facts.coupler === undefined ? units > 1 : units > 0;
        if (joinsSome || (left > 0 && facts.coupler !== undefined)) continue;
        const cost = coupler.mainLossDb === undefined ? "" : ` and costs ${decibels(coupler.mainLossDb)}`;
        const { name } = facts;
        const needs = facts.coupler === undefined ? "no coupler" : "no further coupler";
        report({
          at: address("hop", hop.name, end.site.name, fact),
          message: `${name} needs ${needs}; ${coupler.name} at ${end.site.name} joins nothing${units > 0 ? cost : ""}`,
        });
      }
    }
  },
};

function removeCoupler(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  if (!here) return [];
  const { couplerFact } = standHere(mending, here.end);
  return [
    decision(`Remove the coupler at ${here.site} (changes the equipment)`, {
      do: "remove",
      at: `${here.at} / ${couplerFact}`,
    }),
  ];
}
