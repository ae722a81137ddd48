import type { Hop, HopEnd } from "../design/design.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import { type Lead, leadTo } from "./mounting.js";
import { branchesAt, standsOf } from "./stands.js";

/** Pieces of guide at an end that lead so: one carries one polarization to one antenna; behind a hybrid one serves both units. */
export function guidePieces(
  hop: Pick<Hop, "arrangement" | "radio">,
  end: HopEnd,
  facts: ArrangementFacts,
  wanted: readonly Lead[],
): number {
  const stands = standsOf(end, facts);
  const guides = branchesAt(end, facts).flatMap(({ antenna, polarization }) => {
    const stand = stands[antenna - 1];
    return stand && wanted.includes(leadTo(hop, end, stand)) ? [`${antenna} ${polarization}`] : [];
  });
  return new Set(guides).size;
}
