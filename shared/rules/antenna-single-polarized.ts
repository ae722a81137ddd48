import { address } from "../design/address.js";
import { branchesAt, standsOf } from "../equipment/stands.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import { exampleHop } from "./example-preamble.js";
import { antennasThatFit } from "./fitting.js";
import { otherAntenna } from "./fixes/antennas.js";
import type { HopRule } from "./rule.js";
import { statedArrangement } from "./stated-arrangement.js";

export const antennaSinglePolarized: HopRule = {
  scope: "hop",
  id: "antenna-single-polarized",
  severity: "error",
  arrangements: ({ dualPolarized }) => dualPolarized,
  title: "Two polarizations need a dual-polarized antenna",
  checks: "The polarizations of each antenna against the arrangement.",
  why: "An orthomode transducer finds no second port on a single-polarized antenna.",
  fix: "Choose a dual-polarized antenna, or an arrangement in one polarization.",
  source: "common practice",
  needs: [],
  restsOn: ["arrangement"],
  fixes: otherAntenna(({ polarizations }) => polarizations === "dual"),
  good: exampleHop(),
  bad: `antenna DISH60-18-S like DISH60-18 {\n  polarizations single\n}\n\n${exampleHop({
    hop: "radio R18\n  mode 55 MHz 128QAM\n  polarization vertical\n  arrangement 2+0 xpic",
    keld: "antenna DISH60-18-S at 40 m\n    coupler O18 direct\n    transmits high",
    tarn: "antenna DISH60-18 at 40 m\n    coupler O18 direct\n    transmits low",
  })}`,
  check({ hop, report, tried }) {
    for (const end of hop.ends) {
      const facts = factsAt(hop, end);
      if (!facts?.dualPolarized) continue;
      const { name } = end.site;
      const branches = branchesAt(end, facts);
      for (const [index, { antenna, fact }] of standsOf(end, facts).entries()) {
        if (antenna?.polarizations !== "single") continue;
        const here = branches.filter((branch) => branch.antenna === index + 1);
        // An antenna for one unit is turned to its polarization.
        if (index > 0 && new Set(here.map(({ polarization }) => polarization)).size < 2) continue;
        report({
          at: address("hop", hop.name, name, fact),
          message: `${antenna.name} at ${name} is single-polarized, ${facts.name} uses both polarizations`,
          help: antennasThatFit({ tried }, ({ polarizations }) => polarizations === "dual"),
          related: [statedArrangement(hop, end)],
        });
      }
    }
  },
};
