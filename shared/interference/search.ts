/**
 * Which senders matter at a receiver, without looking at all pairs: by frequency, then by cells on the Earth, then one by
 * one, each by a bound that its full calculation can only fall below (P.452 reference section 12.3 and 12.4).
 */

import {
  boundWithoutFrequencyDb,
  boundWithoutSlackDb,
  frequencyShareDb,
  LEAST_BETA0_PERCENT,
  slackDb,
} from "../propagation/p452/lower-bound.js";
import { specificGasAttenuation } from "../propagation/p676.js";
import { vapourPressureOfDensityHPa } from "../propagation/vapour.js";
import type { LeastDiscrimination } from "./antenna-view.js";
import { byKey, type Cell, type Cells } from "./cells.js";
import { type Filters, reachHz } from "./filters.js";
import { chordM, leastSine, Vectors } from "./geometry.js";
import { toNoiseDb } from "./level.js";
import { isOwn, type Receiver, type Sender } from "./station.js";

/** An entry whose bound is below is not computed, I/N. */
export const CUT_DB = -30;
/** All that is not computed at a receiver may cost it no more; otherwise more of them are computed. */
export const LEAST_DEGRADATION_DB = 0.05;
/** I/N of that degradation: 10 log(10^(0.05/10) - 1). */
const LEAST_SUM_DB = 10 * Math.log10(10 ** (LEAST_DEGRADATION_DB / 10) - 1);
/** Whole cells, and pairs before their angles, are passed over below this; they stay in the sum of what is cut. */
const PASSED_DB = -50;
/** Entries that are computed at one receiver: the others above the cut count by their bounds. Ours; no network comes near. */
export const MOST_ENTRIES = 200;
/** Nearer than this two antennas stand at one place: no path loss is between them, and coupling is measured. */
export const NEAR_M = 100;

/** As the full calculation takes them; the examples of P.452 use the same. */
export const PRESSURE_HPA = 1013;
export const TEMPERATURE_K = 288.15;
/** What both gas terms of P.452 count at least. */
const LEAST_VAPOUR_GM3 = 3;

export interface Found {
  readonly receiver: Receiver;
  /** The cells that were searched. */
  readonly among: Cells;
  /** To be computed, the strongest bound first. */
  readonly entries: readonly Sender[];
  /** At the same place. */
  readonly coLocated: readonly Sender[];
  /** I/N of the bounds of all others in reach, summed in power; undefined: there is none. */
  readonly cutToNoiseDb?: number;
  /** The same sum in `UNITS`, where the entries are just those above the cut; undefined: they are more or fewer. */
  readonly cutUnits?: number;
  /** So many of them lie above the cut, and are more than are computed at one receiver. */
  readonly beyondMost?: number;
}

/** Cells nearer than this, and those of a few senders, are looked at one by one. */
const FAR_M = 20_000;
const FEW = 8;

/**
 * What is cut is summed in units of the noise: so small that nobody feels one, so few that they are counted exactly. Sums
 * are the same in any order, and what is taken off again leaves nothing behind.
 */
const UNITS = 2 ** 50;
const MOST_COUNTED = 2 ** 52;

function unitsOf(toNoiseDb: number): number {
  return Math.ceil(UNITS * 10 ** (toNoiseDb / 10));
}

function unitsDb(units: number): number {
  return 10 * Math.log10(units / UNITS);
}

/** What some cells have for a receiver. */
interface Weighed {
  /** Above the cut. */
  readonly kept: Bounded[];
  /** Below it, but not by much. */
  readonly near: Bounded[];
  readonly coLocated: Sender[];
  /** Of all below the cut. */
  readonly cutUnits: number;
}

interface Bounded {
  readonly sender: Sender;
  readonly boundDb: number;
}

/** A receiver as the loops over senders take it. */
interface Listening {
  readonly receiver: Receiver;
  readonly here: Vectors;
  readonly owner: number;
  readonly heard: LeastDiscrimination;
}

/** What the bound takes of the senders of a cell beside the cell itself, a figure an array. */
interface Columns {
  /** EIRP, with the frequency's share of the free-space loss and what troposcatter may take off. */
  readonly sentDbm: Float64Array;
  readonly gammaDbPerKm: Float64Array;
  /** Numbers of their spectra among the filters, and of whom they belong to. */
  readonly spectrum: Int32Array;
  readonly owner: Int32Array;
  readonly leaves: readonly LeastDiscrimination[];
}

/** Of a pair that is none, and of one that stands at one place. */
const [NO_PAIR, NEAR] = [Number.NaN, Number.POSITIVE_INFINITY];

/** What an index worked out of its cells, for the next one that has most of them too. */
class KnownOfCells {
  readonly gammas = new Map<number, number>();
  readonly columns = new WeakMap<Cell, Columns>();
  /** Numbers by whom a station belongs to; they only grow. */
  readonly owners = new Map<string, number>();
}

/** The same in whatever order its senders came. */
export class SenderIndex {
  /** Filled for one cell after another. */
  private boundsDb = new Float64Array(0);
  /** Of the focusing in the bound. */
  private readonly boundPercent: number;

  constructor(
    private readonly cells: Cells,
    private readonly filters: Filters,
    /** Of the bound. */
    private readonly timePercent: number,
    private readonly seaLevelN: number,
    /** Senders further away are not looked at. */
    private readonly searchDistanceM = Number.POSITIVE_INFINITY,
    /** What was worked out of cells that the index before had too. */
    private readonly known = new KnownOfCells(),
  ) {
    this.boundPercent = Math.min(timePercent, LEAST_BETA0_PERCENT);
  }

  /** The same index with other senders; this one stays as it is. */
  changed(gone: Iterable<Sender>, come: Iterable<Sender>): SenderIndex {
    const { cells, filters, timePercent, seaLevelN, searchDistanceM, known } = this;
    const changed = cells.changed(gone, come);
    return new SenderIndex(changed, filters, timePercent, seaLevelN, searchDistanceM, known);
  }

  /** Whether any sender of the index can bring so much to a receiver, or stands beside it. */
  reaches(receiver: Receiver, leastDb: number): boolean {
    let listening: Listening | undefined;
    for (const cell of this.cellsInReach(receiver)) {
      listening ??= this.listening(receiver);
      this.boundCell(cell, listening);
      for (let index = 0; index < cell.senders.length; index++)
        if (this.boundsDb[index]! > leastDb) return true;
    }
    return false;
  }

  private cellsInReach(receiver: Receiver): Iterable<Cell> {
    return this.cells.between(...this.spanOf(receiver));
  }

  /** Frequencies of senders that a receiver may hear. */
  private spanOf({ frequencyHz, bandwidthHz }: Receiver): readonly [number, number] {
    const reach = reachHz(bandwidthHz, this.cells.widestHz);
    return [frequencyHz - reach, frequencyHz + reach];
  }

  private listening(receiver: Receiver): Listening {
    return {
      receiver,
      here: new Vectors([receiver.place]),
      owner: this.ownerOf(receiver.of),
      heard: receiver.antenna.least(),
    };
  }

  /**
   * What matters at a receiver, of all senders.
   * @param before what was found for a station of that key among earlier senders, of an index with the same terms
   */
  find(receiver: Receiver, before?: Found): Found {
    if (before?.receiver !== receiver) return this.search(receiver);
    return before.among === this.cells ? before : (this.goneOn(before) ?? this.search(receiver));
  }

  private search(receiver: Receiver): Found {
    const {
      kept,
      near,
      coLocated,
      cutUnits: all,
    } = this.weighed(this.cellsInReach(receiver), this.listening(receiver));
    let cutUnits = all;
    kept.sort(strongestFirst);
    const beyond = kept.splice(MOST_ENTRIES);
    const above = kept.length;
    near.sort(strongestFirst);
    // Together they would cost too much: the strongest of them are computed.
    for (const one of near) {
      if (kept.length >= MOST_ENTRIES || !costsTooMuch(cutUnits)) break;
      cutUnits -= unitsOf(one.boundDb);
      kept.push(one);
    }
    for (const { boundDb } of beyond) cutUnits += unitsOf(boundDb);
    const isPlain = beyond.length === 0 && kept.length === above && cutUnits < MOST_COUNTED;
    return {
      receiver,
      among: this.cells,
      entries: kept.map(({ sender }) => sender),
      coLocated: coLocated.sort(byKey),
      ...(cutUnits > 0 && { cutToNoiseDb: unitsDb(cutUnits) }),
      ...(isPlain && { cutUnits }),
      ...(beyond.length > 0 && { beyondMost: beyond.length }),
    };
  }

  /**
   * The same as a search comes to, from an earlier one: only cells that are others than then are looked at.
   * @returns undefined where other senders matter
   */
  private goneOn({ receiver, among, entries, coLocated, cutUnits }: Found): Found | undefined {
    if (cutUnits === undefined || among.widestHz !== this.cells.widestHz) return undefined;
    const [gone, come] = among.differing(this.cells, ...this.spanOf(receiver));
    const listening = this.listening(receiver);
    const was = this.weighed(gone, listening);
    const now = this.weighed(come, listening);
    if (!areSame(was.kept.map(senderOf), now.kept.map(senderOf))) return undefined;
    if (!areSame(was.coLocated, now.coLocated)) return undefined;
    const units = cutUnits - was.cutUnits + now.cutUnits;
    if (costsTooMuch(units)) return undefined;
    return {
      receiver,
      among: this.cells,
      entries,
      coLocated,
      ...(units > 0 && { cutToNoiseDb: unitsDb(units) }),
      cutUnits: units,
    };
  }

  private weighed(cells: Iterable<Cell>, listening: Listening): Weighed {
    const kept: Bounded[] = [];
    const near: Bounded[] = [];
    const coLocated: Sender[] = [];
    let cutUnits = 0;
    for (const cell of cells) {
      const passedDb = this.cellBoundDb(cell, listening);
      if (passedDb < PASSED_DB) {
        cutUnits += unitsOf(passedDb);
        continue;
      }
      this.boundCell(cell, listening);
      for (let index = 0; index < cell.senders.length; index++) {
        const boundDb = this.boundsDb[index]!;
        if (Number.isNaN(boundDb)) continue;
        if (boundDb === NEAR) coLocated.push(cell.senders[index]!);
        else if (boundDb > CUT_DB) kept.push({ sender: cell.senders[index]!, boundDb });
        else {
          cutUnits += unitsOf(boundDb);
          if (boundDb > PASSED_DB) near.push({ sender: cell.senders[index]!, boundDb });
        }
      }
    }
    return { kept, near, coLocated, cutUnits };
  }

  /** Most that a cell as a whole can bring, I/N: all its senders look here through no filter. */
  private cellBoundDb(cell: Cell, { receiver, here, heard }: Listening): number {
    const distanceM = chordM(here, 0, cell.middle, 0) - cell.radiusM;
    if (distanceM > this.searchDistanceM) return Number.NEGATIVE_INFINITY;
    if (cell.senders.length < FEW || receiver.tables !== undefined || !(distanceM > FAR_M))
      return Number.POSITIVE_INFINITY;
    const half = Math.asin(Math.min(1, cell.radiusM / (distanceM + cell.radiusM)));
    const angle = Math.max(0, Math.asin(leastSine(here, 0, cell.middle, 0)) - 1.01 * half);
    // Of a receiver's band the gas at its own frequency stands for all: without it the bound only rises.
    return (
      10 * Math.log10(cell.sumMw) +
      receiver.antenna.gainDbi -
      heard.at(Math.sin(angle)) -
      receiver.lossDb -
      boundWithoutSlackDb(distanceM, cell.lowestHz, 0, this.boundPercent) +
      this.slackOf(cell.lowestHz) -
      receiver.noiseDbm
    );
  }

  /** Sets `boundsDb` to the I/N that each sender of a cell cannot exceed: `NO_PAIR`, `NEAR` or a figure. */
  private boundCell(cell: Cell, { receiver, here, owner, heard }: Listening): void {
    const { senders, vectors, frequencyHz, bandwidthHz } = cell;
    const count = senders.length;
    if (this.boundsDb.length < count) this.boundsDb = new Float64Array(2 * count);
    const { boundsDb, filters, boundPercent, searchDistanceM } = this;
    const columns = this.columnsOf(cell);
    const through = filters.into(receiver.selectivity);
    const hereDb = receiver.antenna.gainDbi - receiver.lossDb;
    for (let index = 0; index < count; index++) {
      boundsDb[index] = NO_PAIR;
      const offsetHz = frequencyHz[index]! - receiver.frequencyHz;
      if (Math.abs(offsetHz) > reachHz(bandwidthHz[index]!, receiver.bandwidthHz)) continue;
      // Units of one hop are its own affair, and so are both sides of one row.
      if (columns.owner[index] === owner) continue;
      const distanceM = chordM(vectors, index, here, 0);
      if (distanceM > searchDistanceM) continue;
      if (distanceM < NEAR_M) {
        boundsDb[index] = NEAR;
        continue;
      }
      const levelDbm =
        columns.sentDbm[index]! +
        hereDb -
        boundWithoutFrequencyDb(distanceM, columns.gammaDbPerKm[index]!, boundPercent) -
        columns.leaves[index]!.at(leastSine(vectors, index, here, 0)) -
        heard.at(leastSine(here, 0, vectors, index));
      boundsDb[index] =
        receiver.tables === undefined
          ? levelDbm - through(columns.spectrum[index]!, offsetHz) - receiver.noiseDbm
          : toNoiseDb(levelDbm, senders[index]!, receiver, filters);
    }
  }

  private slackOf(frequencyHz: number): number {
    return slackDb(frequencyHz, this.timePercent, this.seaLevelN);
  }

  /** Of every sender of a cell, worked out once. */
  private columnsOf(cell: Cell): Columns {
    const { columns } = this.known;
    let made = columns.get(cell);
    if (made === undefined) columns.set(cell, (made = this.columnsMade(cell)));
    return made;
  }

  private columnsMade({ senders }: Cell): Columns {
    return {
      sentDbm: Float64Array.from(
        senders,
        ({ eirpDbm, frequencyHz }) => eirpDbm - frequencyShareDb(frequencyHz) + this.slackOf(frequencyHz),
      ),
      gammaDbPerKm: Float64Array.from(senders, ({ frequencyHz }) => this.gammaOf(frequencyHz)),
      spectrum: Int32Array.from(senders, ({ spectrum }) => this.filters.numberOf(spectrum)),
      owner: Int32Array.from(senders, ({ of }) => this.ownerOf(of)),
      leaves: senders.map(({ antenna }) => antenna.least()),
    };
  }

  private ownerOf(of: Sender["of"]): number {
    const key = isOwn(of) ? of.hop : `${of.list}/${of.line}`;
    const { owners } = this.known;
    let number = owners.get(key);
    if (number === undefined) owners.set(key, (number = owners.size));
    return number;
  }

  private gammaOf(frequencyHz: number): number {
    const { gammas } = this.known;
    let gamma = gammas.get(frequencyHz);
    if (gamma === undefined) gammas.set(frequencyHz, (gamma = gasDbPerKm(frequencyHz)));
    return gamma;
  }
}

function costsTooMuch(cutUnits: number): boolean {
  return unitsDb(cutUnits) > LEAST_SUM_DB;
}

function senderOf({ sender }: Bounded): Sender {
  return sender;
}

/** In whatever order. */
function areSame(some: readonly Sender[], others: readonly Sender[]): boolean {
  return some.length === others.length && some.every((one) => others.includes(one));
}

function strongestFirst(a: Bounded, b: Bounded): number {
  return b.boundDb - a.boundDb || byKey(a.sender, b.sender);
}

export function gasDbPerKm(frequencyHz: number): number {
  const vapour = vapourPressureOfDensityHPa(LEAST_VAPOUR_GM3, TEMPERATURE_K);
  return specificGasAttenuation({
    frequencyHz,
    pressureHPa: PRESSURE_HPA + vapour,
    temperatureK: TEMPERATURE_K,
    waterVapourDensityGm3: LEAST_VAPOUR_GM3,
  }).totalDbPerKm;
}
