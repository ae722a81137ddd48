import type { Hop, HopEnd } from "../design/design.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import { type Lead, leadTo } from "./mounting.js";
import { branchesAt, type Stand, standsOf } from "./stands.js";

/** Pieces of guide at an end, by the antenna to which they lead. */
export interface GuidePieces {
  readonly stand: Stand;
  readonly lead: Lead;
  /** One carries one polarization to one antenna; behind a hybrid one serves both units. */
  readonly count: number;
}

export function guidePieces(
  hop: Pick<Hop, "arrangement" | "radio">,
  end: HopEnd,
  facts: ArrangementFacts,
): readonly GuidePieces[] {
  const branches = branchesAt(end, facts);
  return standsOf(end, facts).map((stand, index) => {
    const own = branches.filter(({ antenna }) => antenna === index + 1);
    const count = new Set(own.map(({ polarization }) => polarization)).size;
    return { stand, lead: leadTo(hop, end, stand), count };
  });
}

/** Stated feeders that lead to an antenna, each once with the pieces of it at the end. */
export function feederPieces(
  hop: Pick<Hop, "arrangement" | "radio">,
  end: HopEnd,
  facts: ArrangementFacts,
): readonly GuidePieces[] {
  const led = guidePieces(hop, end, facts).filter(({ lead }) => lead === "feeder");
  return [...Map.groupBy(led, ({ stand }) => stand.feederFact).values()].map(([first, ...others]) => ({
    ...first!,
    count: others.reduce((sum, { count }) => sum + count, first!.count),
  }));
}
