import { address } from "../../design/address.js";
import type { Antenna } from "../../design/catalogue.js";
import type { Hop, HopEnd } from "../../design/design.js";
import type { Fix } from "../../design/fact-change.js";
import { ESTIMATED_LENGTH_M, guideEstimate, openLead } from "../../equipment/guide-to-choose.js";
import { isAllIndoor, leadTo, mountingFact, mountingOf, takesDirect } from "../../equipment/mounting.js";
import { decibels, trimmed } from "../../format/numbers.js";
import { exampleHop } from "../example-preamble.js";
import { decision, endHere, type Mending } from "../fixes/mending.js";
import { feederLine, feedersFor, mountingChange, reachOf, USUAL_PIECE } from "../fixes/waveguide.js";
import type { HopRule } from "../rule.js";

export const waveguideMissing: HopRule = {
  scope: "hop",
  id: "waveguide-missing",
  severity: "error",
  title: "Units that cannot sit on the antenna need a waveguide to it",
  checks:
    "Whether an end names its feeder that is mounted separately, or whose antenna is not made for direct mounting (without a word of its own: above 1.8 m) while no mounting is stated, or whose radio stands indoors.",
  why: "Unit or coupler on the pole reach the antenna through a flexible waveguide only. It is forgotten in orders, and its loss in the level: until it is chosen, 1 m with the greatest usual loss of its band is counted, as an estimate. Above 42 GHz, and for the long line of an all-indoor radio, nothing is estimated and the level is open.",
  fix: "Name the feeder with its length, or mount directly where the antenna can take it.",
  source: "common practice; usual losses of flexible guide from memory, unconfirmed",
  needs: [],
  restsOn: ["feeder", "mounting", "arrangement"],
  fixes: addWaveguide,
  good: exampleHop({
    keld: "antenna DISH60-18 at 40 m\n    mounting direct\n    transmits high",
  }),
  bad: `antenna DISH240-18 like DISH60-18 {
  diameter 2.4 m
  gain 50.5 dBi
}

feeder FLEX-18 {
  kind flexible
  band 17.7 GHz to 19.7 GHz
  loss 1.1 dB/m at 18.7 GHz
}

${exampleHop({ keld: "antenna DISH240-18 at 40 m\n    transmits high" })}`,
  check({ hop, report }) {
    for (const end of hop.ends) {
      const lacking = whatLacks(hop, end);
      if (lacking === undefined) continue;
      const { fact, words, antenna } = lacking;
      report({
        at: address("hop", hop.name, end.site.name, ...fact),
        about: address("hop", hop.name, end.site.name),
        message: `${words}; ${counted(hop, end)}`,
        related: antenna && [{ at: address("antenna", antenna.name), message: antenna.name }],
      });
    }
  },
};

interface Lacking {
  /** The word that says that units stand apart, or the antenna that cannot bear them; none: the end itself. */
  readonly fact: readonly string[];
  readonly words: string;
  readonly antenna?: Antenna;
}

function whatLacks(hop: Hop, end: HopEnd): Lacking | undefined {
  const stand = openLead(hop, end);
  if (stand?.antenna === undefined) return undefined;
  const { antenna, coupler, fact } = stand;
  const { name } = end.site;
  if (leadTo(hop, end, stand) === "line to choose") {
    const words = `${hop.radio?.name ?? "the radio"} at ${name} stands indoors, and no feeder leads to ${antenna.name}`;
    return { fact: [], words };
  }
  if (mountingOf(end, stand) === undefined && !takesDirect(antenna)) {
    const words = `${antenna.name} at ${name} cannot be mounted directly, and neither mounting nor feeder is stated`;
    return { fact: [fact], words, antenna };
  }
  const part = coupler?.name ?? hop.radio?.name ?? "the unit";
  const words = `${part} at ${name} is mounted separately from ${antenna.name}, but no waveguide joins them`;
  return { fact: [mountingFact(stand)], words };
}

/** What stands in the level in its place. */
function counted(hop: Hop, end: HopEnd): string {
  const guide = guideEstimate(hop, end);
  if (guide === undefined) return "its loss is not in the level";
  if ("open" in guide) return "nothing is estimated for it, and the level is open";
  return `${decibels(guide.lossDb)} are estimated, ${trimmed(ESTIMATED_LENGTH_M, 1)} m of flexible guide`;
}

/** A flexible waveguide for the hop's frequencies, or mounting without one; of an all-indoor radio the long line. */
function addWaveguide(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  if (!here) return [];
  const indoors = isAllIndoor(here.hop);
  const [length, remark] = indoors
    ? [reachOf(here.end), " (as the antenna is high; changes the equipment)"]
    : [USUAL_PIECE, " (changes the equipment)"];
  const pieces = feedersFor(mending, here.hop, indoors).map(({ name }) =>
    decision(`Add waveguide ${name}, ${length}, at ${here.site}${remark}`, feederLine(here, name, length)),
  );
  const direct = indoors ? undefined : mountingChange(here, "direct");
  return direct ? [...pieces, decision(`Mount directly on the antenna at ${here.site}`, direct)] : pieces;
}
