import type { Hop, HopEnd } from "../design/design.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import { antennasOf, isAllIndoor, mountingOf, takesDirect } from "./mounting.js";

/** Pieces of guide at an end: one carries one polarization to one antenna; behind a hybrid one serves both units. */
export function feederPieces(facts: ArrangementFacts): number {
  return facts.antennas * facts.polarizations;
}

/** Pieces that are still to be chosen: for each antenna where units stand apart, else for those that can't bear them. */
export function piecesToChoose(hop: Hop, end: HopEnd, facts: ArrangementFacts): number {
  if (isAllIndoor(hop) || mountingOf(end) !== undefined) return feederPieces(facts);
  return antennasOf(hop, end).filter((one) => !takesDirect(one)).length * facts.polarizations;
}
