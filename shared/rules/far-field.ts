import { address } from "../design/address.js";
import { antennasUsed } from "../equipment/mounting.js";
import { apart, metres } from "../format/numbers.js";
import { wavelengthM } from "../propagation/constants.js";
import { usedFrequenciesHz } from "../radio/used-frequencies.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const farField: HopRule = {
  scope: "hop",
  id: "far-field",
  severity: "warning",
  title: "The far antenna must stand in the far field",
  checks: "Length of the path against 2 D^2 / lambda of the larger antenna.",
  why: "Nearer, gain and free-space loss overstate the received level.",
  fix: "Choose smaller antennas; they are large enough here.",
  source: "common practice",
  needs: ["distance"],
  good: exampleHop(),
  bad: `site NEAR {\n  at 47.5003 -30.5\n}\n\nhop KELD-NEAR {\n  radio R18\n  channel P18 / 55 MHz / 4\n  KELD {\n    antenna DISH60-18 at 20 m\n    transmits high\n  }\n  NEAR {\n    antenna DISH60-18 at 20 m\n    transmits low\n  }\n}`,
  check({ hop, result, report }) {
    const highestHz = Math.max(0, ...usedFrequenciesHz(hop));
    if (highestHz === 0) return;
    const [largest] = hop.ends
      .flatMap((end) => antennasUsed(hop, end).map((stand) => ({ ...stand, site: end.site.name })))
      .toSorted((a, b) => (b.antenna?.diameterM ?? 0) - (a.antenna?.diameterM ?? 0));
    const diameterM = largest?.antenna?.diameterM;
    if (largest === undefined || diameterM === undefined) return;
    const farFieldM = (2 * diameterM ** 2) / wavelengthM(highestHz);
    if (result.distanceM! >= farFieldM) return;
    const [length, beginsAt] = apart(metres, result.distanceM!, farFieldM);
    report({
      at: address("hop", hop.name, largest.site, largest.fact),
      message: `the path is ${length} long, the far field of ${largest.antenna!.name} begins at ${beginsAt}; the level is overstated`,
    });
  },
};
