import { idleHops } from "../../demands/failure-effects.js";
import { address } from "../../design/address.js";
import { exampleHop } from "../example-preamble.js";
import type { NetworkRule } from "../rule.js";
import { exampleDemand } from "./example-demand.js";

const ASIDE = exampleHop().replaceAll("TARN", "MOSS").replace("/ 4", "/ 8");

export const hopCarriesNothing: NetworkRule = {
  scope: "network",
  id: "hop-carries-nothing",
  severity: "info",
  ofResults: true,
  title: "A hop should carry something",
  checks:
    "In a design with demands, hops that no demand passes, on a second route or after any failure either.",
  why: "It costs a licence and a place on two masts; or a demand is missing in the design.",
  fix: "State the demand that it is for, or take the hop out.",
  source: "common practice, no source",
  good: exampleDemand(["committed 100 Mbit/s"]),
  bad: `site MOSS {\n  at 47.46 -30.41\n  structure mast 60 m\n}\n\n${exampleDemand(["committed 100 Mbit/s"])}\n\n${ASIDE}`,
  check({ demands, report }) {
    if (demands === undefined) return;
    for (const hop of idleHops(demands))
      report(
        { at: address("hop", hop), message: `no demand passes ${hop}, normally or when anything fails` },
        hop,
      );
  },
};
