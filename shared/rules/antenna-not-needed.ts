import { address } from "../design/address.js";
import { branchesOf } from "../equipment/branches.js";
import { antennasStated, joiningOf, standsOf, standWords } from "../equipment/stands.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import { exampleHop } from "./example-preamble.js";
import { removeAntenna } from "./fixes/further-antennas.js";
import type { HopRule } from "./rule.js";

export const antennaNotNeeded: HopRule = {
  scope: "hop",
  id: "antenna-not-needed",
  severity: "warning",
  arrangements: () => true,
  title: "A further antenna without a unit is ordered and hung for nothing",
  checks:
    "Whether units of the arrangement hang on each further antenna that an end states (`diversity-incomplete` tells diversity antennas).",
  why: "It costs steel, wind load and a place on the mast. As a provision for later carriers it is a decision worth writing down.",
  fix: "Remove it, take the arrangement that was meant, or accept it with the reason.",
  source: "common practice",
  needs: [],
  restsOn: ["arrangement"],
  fixes: removeAntenna,
  good: exampleHop(),
  bad: exampleHop({
    keld: "antenna DISH60-18 at 40 m\n    second-antenna DISH60-18 at 38 m\n    transmits high",
  }),
  check({ hop, report }) {
    for (const end of hop.ends) {
      const facts = factsAt(hop, end);
      if (facts === undefined) continue;
      const { name } = facts;
      const stands = standsOf(end, facts);
      const branches = branchesOf(facts, joiningOf(stands, facts).joins);
      for (const stand of antennasStated(end)) {
        const { antenna, fact } = stand;
        if (antenna === undefined || fact === "antenna" || fact === "diversity-antenna") continue;
        const index = stands.findIndex((one) => one.fact === fact);
        if (branches.some((branch) => branch.antenna === index + 1)) continue;
        report({
          at: address("hop", hop.name, end.site.name, fact),
          message: `${name} has no unit for the ${standWords(stand)} at ${end.site.name}`,
          help: facts.spaceDiversity
            ? "The second antenna of space diversity is stated as `diversity-antenna`."
            : undefined,
        });
      }
    }
  },
};
