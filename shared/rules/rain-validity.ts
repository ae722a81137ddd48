import { address } from "../design/address.js";
import { frequency, kilometres } from "../format/numbers.js";
import { usedFrequenciesHz } from "../radio/used-frequencies.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

const LONGEST_M = 60_000;
const HIGHEST_HZ = 100e9;

export const rainValidity: HopRule = {
  scope: "hop",
  id: "rain-validity",
  severity: "info",
  title: "The rain method is used outside its range",
  checks: "Length up to 60 km and frequency up to 100 GHz.",
  why: "Outside, the figure is an extension that nobody has confirmed.",
  fix: "Read the availability with that in mind, or use measurements.",
  source: "Rec. ITU-R P.530-18 section 2.4.1",
  needs: ["distance", "levels"],
  quietAfter: ["path-length"],
  good: exampleHop(),
  bad: `site AWAY {\n  at 48.2 -30.5\n}\n\n${exampleHop().replaceAll("TARN", "AWAY")}`,
  check({ hop, result, report }) {
    if (result.rainAttenuation001Db === undefined) return;
    const highestHz = Math.max(0, ...usedFrequenciesHz(hop));
    const outside: string[] = [];
    if (result.distanceM! > LONGEST_M)
      outside.push(`${kilometres(result.distanceM!)} long (to ${kilometres(LONGEST_M)})`);
    if (highestHz > HIGHEST_HZ) outside.push(`${frequency(highestHz)} (to ${frequency(HIGHEST_HZ)})`);
    if (outside.length === 0) return;
    report({
      at: address("hop", hop.name),
      message: `the rain method is stretched beyond its range: ${outside.join(", ")}`,
    });
  },
};
