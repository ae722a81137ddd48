import { address } from "../design/address.js";
import { arrangementByName } from "../radio/arrangements.js";
import { COUPLER_WORDS } from "./coupler-words.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const couplerMissing: HopRule = {
  scope: "hop",
  id: "coupler-missing",
  severity: "error",
  title: "Several units on one antenna need a coupler",
  checks: "Whether an end whose arrangement joins units on one antenna states a coupler.",
  why: "Its loss counts at both ends: about 7 dB over the hop with equal couplers. A budget without it promises a level that nobody will measure.",
  fix: "Name the coupler, or an arrangement with an antenna for each unit.",
  source: "common practice",
  needs: [],
  good: exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: "antenna A18-06 at 40 m\n    coupler H18-U direct\n    transmits high",
    tarn: "antenna A18-06 at 40 m\n    coupler H18-U direct\n    transmits low",
  }),
  bad: exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: "antenna A18-06 at 40 m\n    coupler H18-U direct\n    transmits high",
  }),
  check({ hop, report }) {
    const wanted = arrangementByName(hop.arrangement.name)?.coupler;
    if (wanted === undefined) return;
    for (const { site, antenna, coupler } of hop.ends) {
      if (coupler !== undefined || antenna === undefined) continue;
      report({
        at: address("hop", hop.name, site.name),
        message: `${hop.arrangement.name} needs ${COUPLER_WORDS[wanted]} at ${site.name}; its loss is not in the level`,
        related: [{ at: address("hop", hop.name, "arrangement"), message: hop.arrangement.name }],
      });
    }
  },
};
