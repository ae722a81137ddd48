/** What hangs there, where that was noted, held against what was granted. */
import type { Hop } from "../design/design.js";
import { type Departure, departuresOf } from "./departures.js";
import type { Held } from "./held.js";

/**
 * Of the first antenna, which `as-built` speaks of: its name and its height. What the plan departs in by itself is left to
 * the plan.
 */
export function builtDepartures(hop: Hop, { licence, sent, departures }: Held): readonly Departure[] {
  const built = hop.ends[sent.at].asBuilt;
  if (licence === undefined || built === undefined || sent.antennaFact !== "antenna") return [];
  const told = new Set(departures.map(({ figure }) => figure));
  const hung = {
    ...sent,
    antenna: built.antenna?.name ?? sent.antenna,
    antennaHeightM: built.heightM ?? sent.antennaHeightM,
  };
  return departuresOf(hop, hung, licence).filter(
    ({ figure }) => (figure === "antenna" || figure === "height") && !told.has(figure),
  );
}
