/**
 * Which senders matter at a receiver, without looking at all pairs: by frequency, then by cells on the Earth, then one by
 * one, each by a bound that its full calculation can only fall below (P.452 reference section 12.3 and 12.4).
 */

import { boundWithoutSlackDb, LEAST_BETA0_PERCENT, slackDb } from "../propagation/p452/lower-bound.js";
import { specificGasAttenuation } from "../propagation/p676.js";
import { vapourPressureOfDensityHPa } from "../propagation/vapour.js";
import { byKey, type Cell, type Cells } from "./cells.js";
import { type Filters, reachHz } from "./filters.js";
import { chordM, leastAngleDeg, Vectors } from "./geometry.js";
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
  /** To be computed, the strongest bound first. */
  readonly entries: readonly Sender[];
  /** At the same place. */
  readonly coLocated: readonly Sender[];
  /** I/N of the bounds of all others in reach, summed in power; undefined: there is none. */
  readonly cutToNoiseDb?: number;
  /** So many of them lie above the cut, and are more than are computed at one receiver. */
  readonly beyondMost?: number;
}

/** Cells nearer than this are looked at one by one. */
const FAR_M = 20_000;

interface Bounded {
  readonly sender: Sender;
  readonly boundDb: number;
}

/** The same in whatever order its senders came. */
export class SenderIndex {
  private readonly gammas = new Map<number, number>();
  private readonly airs = new WeakMap<Cell, Air>();
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
  ) {
    this.boundPercent = Math.min(timePercent, LEAST_BETA0_PERCENT);
  }

  /** The same index with other senders; this one stays as it is. */
  changed(gone: Iterable<Sender>, come: Iterable<Sender>): SenderIndex {
    const { cells, filters, timePercent, seaLevelN, searchDistanceM } = this;
    return new SenderIndex(cells.changed(gone, come), filters, timePercent, seaLevelN, searchDistanceM);
  }

  /** Whether any sender of the index can bring so much to a receiver, or stands beside it. */
  reaches(receiver: Receiver, leastDb: number): boolean {
    let here: Vectors | undefined;
    for (const cell of this.cellsInReach(receiver)) {
      here ??= new Vectors([receiver.place]);
      const air = this.airOf(cell);
      for (let index = 0; index < cell.senders.length; index++) {
        const boundDb = this.boundDb(cell, index, receiver, here, air);
        if (boundDb === "near" || (boundDb !== undefined && boundDb > leastDb)) return true;
      }
    }
    return false;
  }

  private cellsInReach({ frequencyHz, bandwidthHz }: Receiver): Iterable<Cell> {
    const reach = reachHz(bandwidthHz, this.cells.widestHz);
    return this.cells.between(frequencyHz - reach, frequencyHz + reach);
  }

  /** What matters at a receiver, of all senders. */
  find(receiver: Receiver): Found {
    const here = new Vectors([receiver.place]);
    const kept: Bounded[] = [];
    const near: Bounded[] = [];
    const coLocated: Sender[] = [];
    let cutPower = 0;
    for (const cell of this.cellsInReach(receiver)) {
      const passedDb = this.cellBoundDb(cell, receiver, here);
      if (passedDb < PASSED_DB) {
        cutPower += 10 ** (passedDb / 10);
        continue;
      }
      const air = this.airOf(cell);
      for (let index = 0; index < cell.senders.length; index++) {
        const boundDb = this.boundDb(cell, index, receiver, here, air);
        if (boundDb === undefined) continue;
        const sender = cell.senders[index]!;
        if (boundDb === "near") coLocated.push(sender);
        else if (boundDb > CUT_DB) kept.push({ sender, boundDb });
        else {
          cutPower += 10 ** (boundDb / 10);
          if (boundDb > PASSED_DB) near.push({ sender, boundDb });
        }
      }
    }
    kept.sort(strongestFirst);
    const beyond = kept.splice(MOST_ENTRIES);
    near.sort(strongestFirst);
    // Together they would cost too much: the strongest of them are computed.
    for (const one of near) {
      if (kept.length >= MOST_ENTRIES || !(10 * Math.log10(cutPower) > LEAST_SUM_DB)) break;
      cutPower = Math.max(0, cutPower - 10 ** (one.boundDb / 10));
      kept.push(one);
    }
    for (const { boundDb } of beyond) cutPower += 10 ** (boundDb / 10);
    return {
      entries: kept.map(({ sender }) => sender),
      coLocated: coLocated.sort(byKey),
      ...(cutPower > 0 && { cutToNoiseDb: 10 * Math.log10(cutPower) }),
      ...(beyond.length > 0 && { beyondMost: beyond.length }),
    };
  }

  /** Most that a cell as a whole can bring, I/N: all its senders look here through no filter. */
  private cellBoundDb(cell: Cell, receiver: Receiver, here: Vectors): number {
    const distanceM = chordM(here, 0, cell.middle, 0) - cell.radiusM;
    if (!(distanceM > FAR_M)) return Number.POSITIVE_INFINITY;
    if (distanceM > this.searchDistanceM) return Number.NEGATIVE_INFINITY;
    const half = Math.asin(Math.min(1, cell.radiusM / (distanceM + cell.radiusM))) * (180 / Math.PI);
    const angleDeg = Math.max(0, leastAngleDeg(here, 0, cell.middle, 0) - 1.01 * half);
    // Of a receiver's band the gas at its own frequency stands for all: without it the bound only rises.
    const levelDbm =
      10 * Math.log10(cell.sumMw) +
      receiver.antenna.gainDbi -
      receiver.antenna.leastBeyond(angleDeg) -
      receiver.lossDb -
      this.lossBoundDb(distanceM, cell.lowestHz, 0) +
      this.slackOf(cell.lowestHz);
    return receiver.tables === undefined ? levelDbm - receiver.noiseDbm : Number.POSITIVE_INFINITY;
  }

  /** @returns I/N that a sender cannot exceed; undefined: it is no interferer of this receiver */
  private boundDb(
    { senders, vectors, frequencyHz, bandwidthHz }: Cell,
    index: number,
    receiver: Receiver,
    here: Vectors,
    { gammaDbPerKm, slack }: Air,
  ): number | "near" | undefined {
    const offsetHz = frequencyHz[index]! - receiver.frequencyHz;
    if (Math.abs(offsetHz) > reachHz(bandwidthHz[index]!, receiver.bandwidthHz)) return undefined;
    const sender = senders[index]!;
    if (isSame(sender, receiver)) return undefined;
    const distanceM = chordM(vectors, index, here, 0);
    if (distanceM < NEAR_M) return "near";
    if (distanceM > this.searchDistanceM) return undefined;
    const wholeDbm =
      sender.eirpDbm +
      receiver.antenna.gainDbi -
      receiver.lossDb -
      this.lossBoundDb(distanceM, frequencyHz[index]!, gammaDbPerKm[index]!) +
      slack[index]!;
    const sent = sender.antenna.leastBeyond(leastAngleDeg(vectors, index, here, 0));
    const heard = receiver.antenna.leastBeyond(leastAngleDeg(here, 0, vectors, index));
    return toNoiseDb(wholeDbm - sent - heard, sender, receiver, this.filters);
  }

  private lossBoundDb(distanceM: number, frequencyHz: number, gammaDbPerKm: number): number {
    return boundWithoutSlackDb(distanceM, frequencyHz, gammaDbPerKm, this.boundPercent);
  }

  private slackOf(frequencyHz: number): number {
    return slackDb(frequencyHz, this.timePercent, this.seaLevelN);
  }

  /** Of every sender of a cell, worked out once. */
  private airOf(cell: Cell): Air {
    let air = this.airs.get(cell);
    if (air === undefined) {
      const gammaDbPerKm = cell.frequencyHz.map((hz) => this.gammaOf(hz));
      const slack = cell.frequencyHz.map((hz) => this.slackOf(hz));
      this.airs.set(cell, (air = { gammaDbPerKm, slack }));
    }
    return air;
  }

  private gammaOf(frequencyHz: number): number {
    let gamma = this.gammas.get(frequencyHz);
    if (gamma === undefined) this.gammas.set(frequencyHz, (gamma = gasDbPerKm(frequencyHz)));
    return gamma;
  }
}

/** What the bound takes of the air, by sender. */
interface Air {
  readonly gammaDbPerKm: Float64Array;
  /** What troposcatter may take off, dB. */
  readonly slack: Float64Array;
}

function strongestFirst(a: Bounded, b: Bounded): number {
  return b.boundDb - a.boundDb || byKey(a.sender, b.sender);
}

/** Units of one hop are its own affair, and so are both sides of one row. */
function isSame({ of: sends }: Sender, { of: hears }: Receiver): boolean {
  if (isOwn(sends)) return isOwn(hears) && sends.hop === hears.hop;
  return !isOwn(hears) && sends.list === hears.list && sends.line === hears.line;
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
