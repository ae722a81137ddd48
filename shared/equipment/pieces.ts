import type { ArrangementFacts } from "../radio/arrangements.js";

/** Pieces of guide at an end: one carries one polarization to one antenna; behind a hybrid one serves both units. */
export function feederPieces(facts: ArrangementFacts): number {
  return facts.antennas * facts.polarizations;
}
