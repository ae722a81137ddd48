import { address } from "../../design/address.js";
import type { Fix } from "../../design/fact-change.js";
import { feedersStated } from "../../equipment/stands.js";
import { apart, metres } from "../../format/numbers.js";
import { exampleHop } from "../example-preamble.js";
import { decision, endHere, factHere, type Mending } from "../fixes/mending.js";
import { USUAL_PIECE } from "../fixes/waveguide.js";
import type { HopRule } from "../rule.js";

/** Twice and more what is usual. */
const LONGEST_M = 2;

const FLEXIBLE = `feeder FLEX-18 {
  kind flexible
  loss 1.1 dB/m at 18.7 GHz
}`;
const piece = (length: string) =>
  `${FLEXIBLE}\n\n${exampleHop({
    keld: `antenna DISH60-18 at 40 m\n    feeder FLEX-18 length ${length}\n    transmits high`,
  })}`;

export const flexibleGuideLong: HopRule = {
  scope: "hop",
  id: "flexible-guide-long",
  severity: "warning",
  title: "A flexible waveguide is a short piece",
  checks: "Length of each feeder whose kind is flexible against 2 m.",
  why: "Flexible guide is sold in pieces of 0.3 to 1.2 m and loses two to four times what rigid guide does; a long one is an elliptical or rigid guide under a wrong name, or a length in feet.",
  fix: "Mount the unit nearer to the antenna, or take an elliptical or rigid guide.",
  source: "common practice, from memory, unconfirmed; the 2 m are our own limit",
  needs: [],
  fixes: shortenPiece,
  good: piece("0.9 m"),
  bad: piece("12 m"),
  check({ hop, report }) {
    const stated = hop.ends.flatMap((end) => feedersStated(end).map((one) => ({ ...one, site: end.site })));
    for (const { site, feeder, lengthM, fact } of stated) {
      if (feeder.kind !== "flexible" || lengthM === undefined || lengthM <= LONGEST_M) continue;
      const [length, longest] = apart(metres, lengthM, LONGEST_M);
      report({
        at: address("hop", hop.name, site.name, `${fact}.length`),
        message: `${length} of flexible waveguide ${feeder.name} at ${site.name}; pieces of more than ${longest} are not usual`,
        related: [{ at: address("feeder", feeder.name, "kind"), message: `${feeder.name} is flexible` }],
      });
    }
  },
};

/** A usual piece in place of a long one. */
function shortenPiece(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  const fact = factHere(mending);
  if (!here || fact === undefined) return [];
  const title = `Take a piece of ${USUAL_PIECE} at ${here.site} (changes the equipment)`;
  return [
    decision(title, { do: "replace", at: `${here.at} / ${fact}`, argument: "length", by: USUAL_PIECE }),
  ];
}
