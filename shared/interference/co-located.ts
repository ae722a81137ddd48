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
  { of: sends, place: from }: Sender,
  { of: hears, place: to }: Receiver,
  couplings: Couplings,
): number | undefined {
  const hops = [sends, hears].flatMap((of) => (isOwn(of) ? [of.hop] : []));
  // Of two sites at one place either may state it.
  return [from.site, to.site]
    .map((site) => (site === undefined ? undefined : couplingLossDb(couplings.get(site), hops)))
    .find((lossDb) => lossDb !== undefined);
}

/** @param hops two, or one between which and others it is */
export function couplingLossDb(
  stated: readonly CouplingLoss[] | undefined,
  hops: readonly string[],
): number | undefined {
  return stated?.find(
    (one) => one.hops.length === hops.length && hops.every((name) => one.hops.some((hop) => hop === name)),
  )?.lossDb;
}
