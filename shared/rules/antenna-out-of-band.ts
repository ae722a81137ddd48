import { address } from "../design/address.js";
import { antennasStated, standWords } from "../equipment/stands.js";
import { frequency } from "../format/numbers.js";
import { bandWords, firstOutsideAntenna } from "../radio/used-frequencies.js";
import { exampleHop } from "./example-preamble.js";
import { antennasThatFit } from "./fitting.js";
import { otherAntenna } from "./fixes/antennas.js";
import type { HopRule } from "./rule.js";

export const antennaOutOfBand: HopRule = {
  scope: "hop",
  id: "antenna-out-of-band",
  severity: "error",
  title: "The antenna must cover the frequencies of the hop",
  checks: "Both frequencies of the hop against the band of each antenna, or its second band.",
  why: "The feed of another band does not fit the unit, and its gain is not the one in the budget.",
  fix: "Choose an antenna of the band.",
  source: "common practice",
  needs: [],
  quietAfter: ["frequency-outside-tuning"],
  fixes: otherAntenna(),
  good: exampleHop(),
  bad: exampleHop({ keld: "antenna DISH120-7 at 40 m\n    transmits high" }),
  check({ hop, report, tried }) {
    for (const end of hop.ends) {
      const { site } = end;
      for (const stand of antennasStated(end)) {
        const { antenna: one, fact } = stand;
        const hz = one && firstOutsideAntenna(hop, one);
        if (one?.band === undefined || hz === undefined) continue;
        const which = fact === "antenna" ? one.name : `${standWords(stand)} ${one.name}`;
        report({
          at: address("hop", hop.name, site.name, fact),
          message: `${which} at ${site.name} is for ${bandWords(one.band)}, the hop uses ${frequency(hz)}`,
          help: antennasThatFit({ tried }),
          related: [{ at: address("antenna", one.name, "band"), message: `band of ${one.name}` }],
        });
      }
    }
  },
};
