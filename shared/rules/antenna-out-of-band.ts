import { address } from "../design/address.js";
import { antennasStated, standWords } from "../equipment/stands.js";
import { frequency } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";
import { bandWords, firstOutside } from "./used-frequencies.js";

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
  good: exampleHop(),
  bad: exampleHop({ keld: "antenna DISH120-7 at 40 m\n    transmits high" }),
  check({ hop, report }) {
    for (const end of hop.ends) {
      const { site } = end;
      for (const stand of antennasStated(end)) {
        const { antenna: one, fact } = stand;
        const hz = one?.band && firstOutside(hop, one.band);
        if (one?.band === undefined || hz === undefined) continue;
        const second = one.mount?.secondBand;
        if (second !== undefined && firstOutside(hop, second) === undefined) continue;
        const which = fact === "antenna" ? one.name : `${standWords(stand)} ${one.name}`;
        report({
          at: address("hop", hop.name, site.name, fact),
          message: `${which} at ${site.name} is for ${bandWords(one.band)}, the hop uses ${frequency(hz)}`,
          related: [{ at: address("antenna", one.name, "band"), message: `band of ${one.name}` }],
        });
      }
    }
  },
};
