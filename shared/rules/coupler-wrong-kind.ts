import { address } from "../design/address.js";
import { arrangementByName } from "../radio/arrangements.js";
import { COUPLER_WORDS } from "./coupler-words.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const couplerWrongKind: HopRule = {
  scope: "hop",
  id: "coupler-wrong-kind",
  severity: "error",
  title: "The coupler must be of the kind that the arrangement needs",
  checks: "Kind of each coupler (hybrid, orthomode transducer, dual-polarized) against the arrangement.",
  why: "A hybrid joins two units in one polarization, an orthomode transducer two polarizations: in each other's place neither works, and the losses differ by 3 dB and more.",
  fix: "Choose a coupler of the other kind, or the arrangement that was meant.",
  source: "common practice",
  needs: [],
  good: exampleHop(),
  bad: exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: "antenna A18-06 at 40 m\n    coupler O18 direct\n    transmits high",
    tarn: "antenna A18-06 at 40 m\n    coupler H18-E direct\n    transmits low",
  }),
  check({ hop, report }) {
    const wanted = arrangementByName(hop.arrangement.name)?.coupler;
    if (wanted === undefined) return;
    for (const { site, coupler } of hop.ends) {
      if (coupler?.kind === undefined || coupler.kind === wanted) continue;
      report({
        at: address("hop", hop.name, site.name, "coupler"),
        message: `${coupler.name} at ${site.name} is ${COUPLER_WORDS[coupler.kind]}, ${hop.arrangement.name} needs ${COUPLER_WORDS[wanted]}`,
        related: [{ at: address("hop", hop.name, "arrangement"), message: hop.arrangement.name }],
      });
    }
  },
};
