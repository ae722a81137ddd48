import { address } from "../design/address.js";
import { antennasStated, standWords } from "../equipment/stands.js";
import { apart, metres } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import { hangsInFeet, meantWords } from "./feet.js";
import type { HopRule } from "./rule.js";

export const antennaAboveStructure: HopRule = {
  scope: "hop",
  id: "antenna-above-structure",
  severity: "error",
  title: "An antenna cannot hang above its structure",
  checks:
    "Centre of each antenna, further ones and diversity antennas too, above ground against the height of the site's structure.",
  why: "Either the height above sea level was written in place of the height above ground, or feet as metres, or the structure is not high enough.",
  fix: "Mend the height, or the structure.",
  source: "common practice",
  needs: [],
  good: exampleHop(),
  bad: exampleHop({ keld: "antenna DISH60-18 at 70 m\n    transmits high" }),
  check({ hop, report }) {
    for (const end of hop.ends) {
      const { site } = end;
      const { structure } = site;
      if (structure === undefined) continue;
      for (const stand of antennasStated(end)) {
        const { heightM } = stand;
        if (heightM === undefined || heightM <= structure.heightM) continue;
        const [centre, top] = apart(metres, heightM, structure.heightM);
        report({
          at: address("hop", hop.name, site.name, `${stand.fact}.at`),
          message: `${standWords(stand)} at ${centre}, the ${structure.kind} at ${site.name} is ${top} high`,
          help: hangsInFeet(heightM, structure.heightM) ? `${meantWords(heightM, "ft")}.` : undefined,
          related: [
            { at: address("site", site.name, "structure"), message: `${structure.kind} of ${site.name}` },
          ],
        });
      }
    }
  },
};
