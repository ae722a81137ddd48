/** Antennas at one place: no path lies between them, and what couples is measured. */
import type { CouplingLoss } from "../design/interference.js";
import { offAxisAngleDeg } from "../geodesy/off-axis.js";
import type { Filters } from "./filters.js";
import { toNoiseDb } from "./level.js";
import type { CoLocated } from "./receiver-result.js";
import { isOwn, type Receiver, type Sender } from "./station.js";

type Couplings = ReadonlyMap<string, readonly CouplingLoss[]>;

export function coLocatedOf(
  sender: Sender,
  receiver: Receiver,
  couplings: Couplings,
  filters: Filters,
): CoLocated {
  const [looks, faces] = [sender.place.boresight, receiver.place.boresight];
  const lossDb = couplingBetween(sender, receiver, couplings);
  const portDbm = sender.eirpDbm - sender.antenna.gainDbi;
  return {
    sender,
    offsetHz: sender.frequencyHz - receiver.frequencyHz,
    ...(looks && faces && { apartDeg: offAxisAngleDeg(looks, faces) }),
    ...(lossDb !== undefined && {
      toNoiseDb: toNoiseDb(portDbm - lossDb - receiver.lossDb, sender, receiver, filters),
    }),
  };
}

function couplingBetween(
  { of: sends, place }: Sender,
  { of: hears }: Receiver,
  couplings: Couplings,
): number | undefined {
  if (!isOwn(sends) || !isOwn(hears) || place.site === undefined) return undefined;
  return couplings
    .get(place.site)
    ?.find(({ hops }) => hops.includes(sends.hop) && hops.includes(hears.hop) && sends.hop !== hears.hop)
    ?.lossDb;
}
