/** One sender at one receiver, every term: what it sends that way, what is lost, what the antennas and filters keep out. */
import { type PolarizationRelation, pairDiscriminationDb } from "../spectrum/polarization-coupling.js";
import type { AntennaView } from "./antenna-view.js";
import { type EntryPath, offAxisDeg } from "./entry-path.js";
import type { Filters } from "./filters.js";
import { toNoiseDb } from "./level.js";
import type { Receiver, Sender } from "./station.js";

export interface Entry {
  readonly sender: Sender;
  readonly path: EntryPath;
  /** Off the axes. */
  readonly leavesOffAxisDeg: number;
  readonly arrivesOffAxisDeg: number;
  readonly relation: PolarizationRelation;
  /** Of both antennas together, below their greatest gains. */
  readonly discriminationDb: number;
  readonly offsetHz: number;
  /** Of the filters; undefined: a table of C/I counts. */
  readonly filterDb?: number;
  /** At the receiver before its filters, long term, with power control as it usually is; and with full power. */
  readonly levelDbm: number;
  readonly fullLevelDbm: number;
  /** I/N in the long term; with full power; in the short term, with full power. */
  readonly toNoiseDb: number;
  readonly fullToNoiseDb: number;
  readonly shortToNoiseDb: number;
  /** As it counts in the sum of many: by the average pattern, where the network says so. */
  readonly inSumToNoiseDb: number;
  readonly fullInSumToNoiseDb: number;
}

export function entryOf(sender: Sender, receiver: Receiver, path: EntryPath, filters: Filters): Entry {
  const leavesOffAxisDeg = offAxisDeg(sender.place.boresight, path.leaves);
  const arrivesOffAxisDeg = offAxisDeg(receiver.place.boresight, path.arrives);
  const relation = relationOf(sender, receiver);
  const through = (sends: AntennaView, hears: AntennaView) =>
    pairDiscriminationDb(relation, sends.at(leavesOffAxisDeg), hears.at(arrivesOffAxisDeg));
  const discriminationDb = through(sender.antenna, receiver.antenna);
  const inSumDb =
    sender.antennaInSum || receiver.antennaInSum
      ? through(sender.antennaInSum ?? sender.antenna, receiver.antennaInSum ?? receiver.antenna)
      : discriminationDb;
  const wholeDbm = sender.eirpDbm + receiver.antenna.gainDbi - receiver.lossDb;
  const fullLevelDbm = wholeDbm - discriminationDb - path.longTermLossDb;
  const levelDbm = fullLevelDbm - sender.reductionDb;
  const over = (dbm: number) => toNoiseDb(dbm, sender, receiver, filters);
  const offsetHz = sender.frequencyHz - receiver.frequencyHz;
  const fullInSum = over(fullLevelDbm + discriminationDb - inSumDb);
  return {
    sender,
    path,
    leavesOffAxisDeg,
    arrivesOffAxisDeg,
    relation,
    discriminationDb,
    offsetHz,
    ...(receiver.tables === undefined && {
      filterDb: filters.discriminationDb(sender.spectrum, receiver.selectivity, offsetHz),
    }),
    levelDbm,
    fullLevelDbm,
    toNoiseDb: over(levelDbm),
    fullToNoiseDb: over(fullLevelDbm),
    shortToNoiseDb: over(wholeDbm - discriminationDb - path.shortTermLossDb),
    inSumToNoiseDb: fullInSum - sender.reductionDb,
    fullInSumToNoiseDb: fullInSum,
  };
}

/**
 * Where a polarization is not known the pair counts as parallel, which couples most. So do two that are slant: of them a
 * design does not say to which side, and what stands to the same side at both ends is crossed as they face each other.
 */
function relationOf(
  { polarization: sends }: Sender,
  { polarization: hears }: Receiver,
): PolarizationRelation {
  if (sends === undefined || hears === undefined || sends === hears) return "parallel";
  return sends === "slant" || hears === "slant" ? "oblique" : "crossed";
}
