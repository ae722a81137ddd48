import { address } from "../design/address.js";
import { couplersStated } from "../equipment/stands.js";
import { frequency } from "../format/numbers.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import { bandWords, firstOutside } from "../radio/used-frequencies.js";
import { exampleHop } from "./example-preamble.js";
import { couplersThatFit } from "./fitting.js";
import { otherCoupler } from "./fixes/couplers.js";
import type { HopRule } from "./rule.js";

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
  fixes: otherCoupler,
  good: exampleHop(),
  bad: exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: "antenna DISH60-18 at 40 m\n    coupler H7-E direct\n    transmits high",
    tarn: "antenna DISH60-18 at 40 m\n    coupler H18-E direct\n    transmits low",
  }),
  check({ hop, report, tried }) {
    for (const end of hop.ends) {
      const { name } = end.site;
      for (const { coupler, fact } of couplersStated(end)) {
        const hz = coupler.band && firstOutside(hop, coupler.band);
        if (coupler.band === undefined || hz === undefined) continue;
        report({
          at: address("hop", hop.name, name, fact),
          message: `${coupler.name} at ${name} is for ${bandWords(coupler.band)}, the hop uses ${frequency(hz)}`,
          help: couplersThatFit({ tried }, factsAt(hop, end)),
          related: [{ at: address("coupler", coupler.name, "band"), message: `band of ${coupler.name}` }],
        });
      }
    }
  },
};
