import { address } from "../design/address.js";
import { couplersStated } from "../equipment/stands.js";
import { frequency } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";
import { bandWords, firstOutside } from "./used-frequencies.js";

export const couplerOutOfBand: HopRule = {
  scope: "hop",
  id: "coupler-out-of-band",
  severity: "error",
  title: "The coupler must cover the frequencies of the hop",
  checks: "Both frequencies of the hop against the band of each coupler.",
  why: "A coupler of another band has another waveguide and does not split as stated.",
  fix: "Choose a coupler of the band.",
  source: "common practice",
  needs: [],
  quietAfter: ["frequency-outside-tuning"],
  good: exampleHop(),
  bad: exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: "antenna DISH60-18 at 40 m\n    coupler H7-E direct\n    transmits high",
    tarn: "antenna DISH60-18 at 40 m\n    coupler H18-E direct\n    transmits low",
  }),
  check({ hop, report }) {
    for (const end of hop.ends) {
      const { name } = end.site;
      for (const { coupler, fact } of couplersStated(end)) {
        const hz = coupler.band && firstOutside(hop, coupler.band);
        if (coupler.band === undefined || hz === undefined) continue;
        report({
          at: address("hop", hop.name, name, fact),
          message: `${coupler.name} at ${name} is for ${bandWords(coupler.band)}, the hop uses ${frequency(hz)}`,
          related: [{ at: address("coupler", coupler.name, "band"), message: `band of ${coupler.name}` }],
        });
      }
    }
  },
};
