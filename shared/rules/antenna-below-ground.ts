import { address } from "../design/address.js";
import type { Antenna } from "../design/catalogue.js";
import { antennasStated } from "../equipment/stands.js";
import { metres, trimmed } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const antennaBelowGround: HopRule = {
  scope: "hop",
  id: "antenna-below-ground",
  severity: "error",
  title: "An antenna must hang clear of the ground",
  checks: "The height of each antenna's centre above ground against half its diameter.",
  why: "Heights are those of the centre: lower than its radius the dish would stand in the ground. A digit is missing, or the height was meant above a roof.",
  fix: "Mend the height; above a roof, state the height above ground.",
  source: "geometry",
  needs: [],
  good: exampleHop(),
  bad: exampleHop({ keld: "antenna DISH60-18 at 0.2 m\n    transmits high" }),
  check({ hop, report }) {
    for (const end of hop.ends) {
      const { name } = end.site;
      for (const { antenna, heightM, fact } of antennasStated(end)) {
        const low = tooLow(antenna, heightM);
        if (low !== undefined)
          report({ at: address("hop", hop.name, name, `${fact}.at`), message: `${low} at ${name}` });
      }
    }
  },
};

function tooLow(antenna: Antenna | undefined, heightM: number | undefined): string | undefined {
  const radiusM = (antenna?.diameterM ?? 0) / 2;
  // An antenna of unknown size cannot hang on or below the ground either.
  if (heightM === undefined || (radiusM > 0 ? heightM >= radiusM : heightM > 0)) return undefined;
  const what = antenna === undefined ? "antenna" : antenna.name;
  return radiusM > 0
    ? `the centre of ${what} hangs ${metres(heightM)} above ground, less than its radius of ${trimmed(radiusM, 2)} m,`
    : `the centre of ${what} hangs ${metres(heightM)} above ground`;
}
