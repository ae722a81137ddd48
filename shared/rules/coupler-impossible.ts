import { address } from "../design/address.js";
import type { Coupler } from "../design/design.js";
import { trimmed } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";

/** Rounding of catalogue figures: 3.01 dB for 3.0103 dB. */
const TOLERANCE_DB = 0.005;

export const couplerImpossible: NetworkRule = {
  scope: "network",
  id: "coupler-impossible",
  severity: "error",
  title: "A coupler cannot give out more power than it takes in",
  checks:
    "10^(-main/10) + 10^(-standby/10) of a hybrid at most 1: an equal coupler loses at least 3.01 dB an arm. No arm gains.",
  why: "A budget with such a coupler is too good by what the catalogue forgot.",
  fix: 'Look the losses up again; "6 dB" may be the standby arm or the total of both ends.',
  source: "conservation of power",
  good: exampleHop(),
  bad: `coupler H18-3 {\n  kind hybrid\n  main-loss 3 dB\n}\n\n${exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: "antenna A18-06 at 40 m\n    coupler H18-3 direct\n    transmits high",
    tarn: "antenna A18-06 at 40 m\n    coupler H18-3 direct\n    transmits low",
  })}`,
  check({ design, report }) {
    const seen = new Set<string>();
    for (const hop of design.hops.values()) {
      for (const { coupler } of hop.ends) {
        if (coupler === undefined || seen.has(coupler.name)) continue;
        seen.add(coupler.name);
        const message = impossible(coupler);
        if (message !== undefined) report({ at: address("coupler", coupler.name, "main-loss"), message });
      }
    }
  },
};

function impossible({ name, kind, mainLossDb, standbyLossDb }: Coupler): string | undefined {
  if (mainLossDb === undefined) return undefined;
  const otherDb = standbyLossDb ?? mainLossDb;
  if (mainLossDb < 0 || otherDb < 0) return `${name} would amplify: a loss below 0 dB`;
  if (kind !== "hybrid" && kind !== "dual-polarized") return undefined;
  const share = 10 ** (-mainLossDb / 10) + 10 ** (-otherDb / 10);
  if (-10 * Math.log10(share) >= -TOLERANCE_DB) return undefined;
  if (standbyLossDb === undefined || standbyLossDb === mainLossDb) {
    return `${name} loses ${trimmed(mainLossDb, 2)} dB an arm; an equal coupler loses at least 3.01 dB`;
  }
  const leastDb = -10 * Math.log10(1 - 10 ** (-standbyLossDb / 10));
  return `${name} loses ${trimmed(mainLossDb, 2)} dB and ${trimmed(standbyLossDb, 2)} dB; with ${trimmed(standbyLossDb, 2)} dB in the standby arm the main arm loses at least ${trimmed(leastDb, 2)} dB`;
}
