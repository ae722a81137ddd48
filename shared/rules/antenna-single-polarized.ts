import { address } from "../design/address.js";
import { arrangementByName } from "../radio/arrangements.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const antennaSinglePolarized: HopRule = {
  scope: "hop",
  id: "antenna-single-polarized",
  severity: "error",
  title: "Two polarizations need a dual-polarized antenna",
  checks: "The polarizations of each antenna against the arrangement.",
  why: "An orthomode transducer finds no second port on a single-polarized antenna.",
  fix: "Choose a dual-polarized antenna, or an arrangement in one polarization.",
  source: "common practice",
  needs: [],
  good: exampleHop(),
  bad: `antenna A18-06S like A18-06 {\n  polarizations single\n}\n\n${exampleHop({
    hop: "radio R18\n  mode 55 MHz 128QAM\n  polarization vertical\n  arrangement 2+0 xpic",
    keld: "antenna A18-06S at 40 m\n    coupler O18 direct\n    transmits high",
    tarn: "antenna A18-06 at 40 m\n    coupler O18 direct\n    transmits low",
  })}`,
  check({ hop, report }) {
    if (!arrangementByName(hop.arrangement.name)?.dualPolarized) return;
    for (const { site, antenna } of hop.ends) {
      if (antenna?.polarizations !== "single") continue;
      report({
        at: address("hop", hop.name, site.name, "antenna"),
        message: `${antenna.name} at ${site.name} is single-polarized, ${hop.arrangement.name} uses both polarizations`,
        related: [{ at: address("hop", hop.name, "arrangement"), message: hop.arrangement.name }],
      });
    }
  },
};
