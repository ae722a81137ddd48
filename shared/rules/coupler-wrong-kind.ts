import { address } from "../design/address.js";
import { branchesOf } from "../equipment/branches.js";
import { joiningOf, standsOf, suits } from "../equipment/stands.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import { COUPLER_WORDS, joinWords } from "./coupler-words.js";
import { exampleHop } from "./example-preamble.js";
import { couplersThatFit } from "./fitting.js";
import { otherCoupler } from "./fixes/couplers.js";
import type { HopRule } from "./rule.js";
import { statedArrangement } from "./stated-arrangement.js";

export const couplerWrongKind: HopRule = {
  scope: "hop",
  id: "coupler-wrong-kind",
  severity: "error",
  arrangements: ({ coupler }) => coupler !== undefined,
  title: "The coupler must be of the kind that the arrangement needs",
  checks:
    "Kind of each coupler (hybrid, orthomode transducer, dual-polarized) against the arrangement; a coupler whose entry states none is told too.",
  why: "A hybrid joins two units in one polarization, an orthomode transducer two polarizations: in each other's place neither works, and the losses differ by 3 dB and more.",
  fix: "Choose a coupler of the other kind, or the arrangement that was meant.",
  source: "common practice",
  needs: [],
  restsOn: ["arrangement"],
  fixes: otherCoupler,
  good: exampleHop(),
  bad: exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: "antenna DISH60-18 at 40 m\n    coupler O18 direct\n    transmits high",
    tarn: "antenna DISH60-18 at 40 m\n    coupler H18-E direct\n    transmits low",
  }),
  check({ hop, report, tried }) {
    for (const end of hop.ends) {
      const facts = factsAt(hop, end);
      if (facts?.coupler === undefined) continue;
      const { name } = facts;
      const { joins } = joiningOf(standsOf(end, facts), facts);
      for (const [index, { coupler, couplerFact }] of standsOf(end, facts).entries()) {
        if (coupler === undefined || (coupler.kind !== undefined && suits(coupler.kind, facts))) continue;
        const units = branchesOf(facts, joins).filter(({ antenna }) => antenna === index + 1).length;
        const needs = `${name} needs ${joinWords(facts, units)}`;
        const site = end.site.name;
        report({
          at: address("hop", hop.name, site, couplerFact),
          message:
            coupler.kind === undefined
              ? `the catalogue does not say what ${coupler.name} at ${site} is; ${needs}`
              : `${coupler.name} at ${site} is ${COUPLER_WORDS[coupler.kind]}, ${needs}`,
          help: couplersThatFit({ tried }, facts),
          related: [statedArrangement(hop, end)],
        });
      }
    }
  },
};
