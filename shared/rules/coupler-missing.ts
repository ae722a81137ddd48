import { address } from "../design/address.js";
import { branchesOf } from "../equipment/branches.js";
import { joiningOf, standsOf, standWords } from "../equipment/stands.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import { joinWords } from "./coupler-words.js";
import { exampleHop } from "./example-preamble.js";
import { couplersThatFit } from "./fitting.js";
import { addCoupler } from "./fixes/couplers.js";
import type { HopRule } from "./rule.js";
import { statedArrangement } from "./stated-arrangement.js";

export const couplerMissing: HopRule = {
  scope: "hop",
  id: "coupler-missing",
  severity: "error",
  arrangements: ({ coupler }) => coupler !== undefined,
  title: "Several units on one antenna need a coupler",
  checks: "Whether each antenna that more than one unit hangs on has a coupler stated for it.",
  why: "Its loss counts at both ends: about 7 dB over the hop with equal couplers. A budget without it promises a level that nobody will measure.",
  fix: "Name the coupler, or an arrangement with an antenna for each unit.",
  source: "common practice",
  needs: [],
  restsOn: ["arrangement", "coupler", "second-coupler", "third-coupler", "fourth-coupler"],
  fixes: addCoupler,
  good: exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: "antenna DISH60-18 at 40 m\n    coupler H18-U direct\n    transmits high",
    tarn: "antenna DISH60-18 at 40 m\n    coupler H18-U direct\n    transmits low",
  }),
  bad: exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: "antenna DISH60-18 at 40 m\n    coupler H18-U direct\n    transmits high",
  }),
  check({ hop, report, tried }) {
    for (const end of hop.ends) {
      const facts = factsAt(hop, end);
      const { site, antenna } = end;
      if (facts === undefined || antenna === undefined) continue;
      const stands = standsOf(end, facts);
      const { joins, lacking } = joiningOf(stands, facts);
      for (const index of lacking) {
        const units = branchesOf(facts, joins).filter((branch) => branch.antenna === index + 1).length;
        const which = index === 0 ? "" : ` for the ${standWords(stands[index]!)}`;
        const fact = index === 0 ? [] : [stands[index]!.fact];
        report({
          at: address("hop", hop.name, site.name, ...fact),
          message: `${facts.name} needs ${joinWords(facts, units)}${which} at ${site.name}; its loss is not in the level`,
          help: couplersThatFit({ tried }, facts),
          related: [statedArrangement(hop, end)],
        });
      }
    }
  },
};
