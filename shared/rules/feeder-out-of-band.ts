import { address } from "../design/address.js";
import { feedersStated } from "../equipment/stands.js";
import { frequency } from "../format/numbers.js";
import { bandWords, firstOutside } from "../radio/used-frequencies.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const feederOutOfBand: HopRule = {
  scope: "hop",
  id: "feeder-out-of-band",
  severity: "error",
  title: "The feeder must carry the frequencies of the hop",
  checks: "Both frequencies of the hop against the band of each feeder.",
  why: "Below its cut-off a waveguide carries nothing, above its band it carries further modes; its flange does not fit either.",
  fix: "Choose a feeder of the band.",
  source: "common practice",
  needs: [],
  quietAfter: ["frequency-outside-tuning"],
  good: exampleHop(),
  bad: `feeder FLEX-7 {
  kind flexible
  band 5.85 GHz to 8.2 GHz
  loss 0.2 dB/m at 7 GHz
}

${exampleHop({ keld: "antenna DISH60-18 at 40 m\n    feeder FLEX-7 length 1.2 m\n    transmits high" })}`,
  check({ hop, report }) {
    const stated = hop.ends.flatMap((end) => feedersStated(end).map((one) => ({ ...one, site: end.site })));
    for (const { site, feeder, fact } of stated) {
      const hz = feeder.band && firstOutside(hop, feeder.band);
      if (feeder.band === undefined || hz === undefined) continue;
      report({
        at: address("hop", hop.name, site.name, fact),
        message: `${feeder.name} at ${site.name} is for ${bandWords(feeder.band)}, the hop uses ${frequency(hz)}`,
        related: [{ at: address("feeder", feeder.name, "band"), message: `band of ${feeder.name}` }],
      });
    }
  },
};
