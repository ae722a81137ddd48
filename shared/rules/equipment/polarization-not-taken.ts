import { address } from "../../design/address.js";
import { antennasUsed } from "../../equipment/mounting.js";
import { exampleHop } from "../example-preamble.js";
import type { HopRule } from "../rule.js";

export const polarizationNotTaken: HopRule = {
  scope: "hop",
  id: "polarization-not-taken",
  severity: "error",
  title: "The antenna's port must take the polarization of the hop",
  checks: "Polarization of the hop against what the port of each single-polarized antenna takes.",
  why: "A feed of the wrong polarization costs 25 to 30 dB, and is found when the hop is aligned.",
  fix: "Choose another antenna, or the other polarization for the whole hop.",
  source: "common practice",
  needs: [],
  good: exampleHop(),
  bad: `antenna DISH60-18-H like DISH60-18 {
  takes horizontal
}

${exampleHop({ keld: "antenna DISH60-18-H at 40 m\n    transmits high" })}`,
  check({ hop, report }) {
    for (const end of hop.ends) {
      const { name } = end.site;
      for (const { antenna, fact } of antennasUsed(hop, end)) {
        const takes = antenna?.mount?.takes;
        if (takes === undefined || takes === "either" || antenna?.polarizations === "dual") continue;
        if (hop.polarization === undefined || hop.polarization === takes) continue;
        report({
          at: address("hop", hop.name, name, fact),
          message: `${antenna!.name} at ${name} takes ${takes} polarization, the hop is ${hop.polarization}`,
          related: [{ at: address("hop", hop.name, "polarization"), message: `${hop.polarization}` }],
        });
      }
    }
  },
};
