/**
 * Which senders matter at a receiver, without looking at all pairs: by frequency, then by cells on the Earth, then one by
 * one, each by a bound that its full calculation can only fall below (P.452 reference section 12.3 and 12.4).
 */
import { lowerBoundDb } from "../propagation/p452/lower-bound.js";
import { specificGasAttenuation } from "../propagation/p676.js";
import { vapourPressureOfDensityHPa } from "../propagation/vapour.js";
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
/** Nearer than this two antennas stand at one place: no path loss is between them, and coupling is measured. */
export const NEAR_M = 100;

/** As the full calculation takes them; the examples of P.452 use the same. */
export const PRESSURE_HPA = 1013;
export const TEMPERATURE_K = 288.15;
/** What both gas terms of P.452 count at least. */
const LEAST_VAPOUR_GM3 = 3;

export interface Found {
  /** To be computed, the strongest bound first; indexes of senders. */
  readonly entries: readonly number[];
  /** At the same place. */
  readonly coLocated: readonly number[];
  /** I/N of the bounds of all others in reach, summed in power; undefined: there is none. */
  readonly cutToNoiseDb?: number;
}

const SLOT_HZ = 50e6;
const CELL_DEG = 0.5;
/** Cells nearer than this are looked at one by one. */
const FAR_M = 20_000;

interface Cell {
  readonly senders: number[];
  /** Of all their EIRP, mW. */
  sumMw: number;
  vectors: Vectors;
  radiusM: number;
}

export class SenderIndex {
  private readonly vectors: Vectors;
  private readonly slots = new Map<number, Cell[]>();
  private widestHz = 0;
  private readonly gammas = new Map<number, number>();

  constructor(
    readonly senders: readonly Sender[],
    private readonly filters: Filters,
    /** Of the bound. */
    private readonly timePercent: number,
    private readonly seaLevelN: number,
    /** Senders further away are not looked at. */
    private readonly searchDistanceM = Number.POSITIVE_INFINITY,
  ) {
    this.vectors = new Vectors(senders.map(({ place }) => place));
    const bySlot = new Map<number, Map<string, number[]>>();
    for (const [index, { frequencyHz, bandwidthHz, place }] of senders.entries()) {
      this.widestHz = Math.max(this.widestHz, bandwidthHz);
      const slot = Math.floor(frequencyHz / SLOT_HZ);
      const { latitudeDeg, longitudeDeg } = place.position;
      const cell = `${Math.floor(latitudeDeg / CELL_DEG)} ${Math.floor(longitudeDeg / CELL_DEG)}`;
      let cells = bySlot.get(slot);
      if (cells === undefined) bySlot.set(slot, (cells = new Map()));
      const of = cells.get(cell);
      if (of) of.push(index);
      else cells.set(cell, [index]);
    }
    for (const [slot, cells] of bySlot)
      this.slots.set(
        slot,
        [...cells.values()].map((of) => this.cellOf(of)),
      );
  }

  private cellOf(of: number[]): Cell {
    const { senders, vectors } = this;
    const mean = (axis: "latitudeDeg" | "longitudeDeg") =>
      of.reduce((sum, index) => sum + senders[index]!.place.position[axis], 0) / of.length;
    const middle = new Vectors([
      { position: { latitudeDeg: mean("latitudeDeg"), longitudeDeg: mean("longitudeDeg") } },
    ]);
    let [sumMw, radiusM] = [0, 0];
    for (const index of of) {
      sumMw += 10 ** (senders[index]!.eirpDbm / 10);
      radiusM = Math.max(radiusM, chordM(middle, 0, vectors, index));
    }
    return { senders: of, sumMw, radiusM, vectors: middle };
  }

  /** Senders in reach of a receiver's filter, in the order of the index. */
  private *cellsInReach({ frequencyHz, bandwidthHz }: Receiver): Generator<Cell> {
    const reach = reachHz(bandwidthHz, this.widestHz);
    const last = Math.floor((frequencyHz + reach) / SLOT_HZ);
    for (let slot = Math.floor((frequencyHz - reach) / SLOT_HZ); slot <= last; slot++)
      yield* this.slots.get(slot) ?? [];
  }

  /** Whether any sender of the index can bring so much to a receiver, or stands beside it. */
  reaches(receiver: Receiver, leastDb: number): boolean {
    const here = new Vectors([receiver.place]);
    return this.senders.some((_, index) => {
      const boundDb = this.boundDb(index, receiver, here);
      return boundDb === "near" || (boundDb !== undefined && boundDb > leastDb);
    });
  }

  /** What matters at a receiver, of all senders. */
  find(receiver: Receiver): Found {
    const here = new Vectors([receiver.place]);
    const kept: { readonly index: number; readonly boundDb: number }[] = [];
    const near: { readonly index: number; readonly boundDb: number }[] = [];
    const coLocated: number[] = [];
    let cutPower = 0;
    for (const cell of this.cellsInReach(receiver)) {
      const passedDb = this.cellBoundDb(cell, receiver, here);
      if (passedDb < PASSED_DB) {
        cutPower += 10 ** (passedDb / 10);
        continue;
      }
      for (const index of cell.senders) {
        const boundDb = this.boundDb(index, receiver, here);
        if (boundDb === undefined) continue;
        if (boundDb === "near") coLocated.push(index);
        else if (boundDb > CUT_DB) kept.push({ index, boundDb });
        else {
          cutPower += 10 ** (boundDb / 10);
          if (boundDb > PASSED_DB) near.push({ index, boundDb });
        }
      }
    }
    near.sort((a, b) => a.boundDb - b.boundDb || b.index - a.index);
    // Together they would cost too much: the strongest of them are computed.
    while (near.length > 0 && 10 * Math.log10(cutPower) > LEAST_SUM_DB) {
      const strongest = near.pop()!;
      cutPower = Math.max(0, cutPower - 10 ** (strongest.boundDb / 10));
      kept.push(strongest);
    }
    kept.sort((a, b) => b.boundDb - a.boundDb || a.index - b.index);
    return {
      entries: kept.map(({ index }) => index),
      coLocated,
      ...(cutPower > 0 && { cutToNoiseDb: 10 * Math.log10(cutPower) }),
    };
  }

  /** Most that a cell as a whole can bring, I/N: all its senders look here through no filter. */
  private cellBoundDb(cell: Cell, receiver: Receiver, here: Vectors): number {
    const distanceM = chordM(here, 0, cell.vectors, 0) - cell.radiusM;
    if (!(distanceM > FAR_M)) return Number.POSITIVE_INFINITY;
    if (distanceM > this.searchDistanceM) return Number.NEGATIVE_INFINITY;
    const half = Math.asin(Math.min(1, cell.radiusM / (distanceM + cell.radiusM))) * (180 / Math.PI);
    const angleDeg = Math.max(0, leastAngleDeg(here, 0, cell.vectors, 0) - 1.01 * half);
    // Of a receiver's band the gas at its own frequency stands for all: without it the bound only rises.
    const levelDbm =
      10 * Math.log10(cell.sumMw) +
      receiver.antenna.gainDbi -
      receiver.antenna.leastBeyond(angleDeg) -
      receiver.lossDb -
      this.lossBoundDb(distanceM, receiver.frequencyHz - reachHz(receiver.bandwidthHz, this.widestHz), 0);
    return receiver.tables === undefined ? levelDbm - receiver.noiseDbm : Number.POSITIVE_INFINITY;
  }

  /** @returns I/N that a sender cannot exceed; undefined: it is no interferer of this receiver */
  private boundDb(index: number, receiver: Receiver, here: Vectors): number | "near" | undefined {
    const sender = this.senders[index]!;
    const offsetHz = sender.frequencyHz - receiver.frequencyHz;
    if (Math.abs(offsetHz) > reachHz(sender.bandwidthHz, receiver.bandwidthHz)) return undefined;
    if (isSame(sender, receiver)) return undefined;
    const distanceM = chordM(this.vectors, index, here, 0);
    if (distanceM < NEAR_M) return "near";
    if (distanceM > this.searchDistanceM) return undefined;
    const gamma = this.gammaOf(sender.frequencyHz);
    const wholeDbm =
      sender.eirpDbm +
      receiver.antenna.gainDbi -
      receiver.lossDb -
      this.lossBoundDb(distanceM, sender.frequencyHz, gamma);
    const sent = sender.antenna.leastBeyond(leastAngleDeg(this.vectors, index, here, 0));
    const heard = receiver.antenna.leastBeyond(leastAngleDeg(here, 0, this.vectors, index));
    return toNoiseDb(wholeDbm - sent - heard, sender, receiver, this.filters);
  }

  private lossBoundDb(distanceM: number, frequencyHz: number, gammaDbPerKm: number): number {
    const { timePercent, seaLevelN } = this;
    return lowerBoundDb(distanceM, { frequencyHz, timePercent, seaLevelN, gammaDbPerKm });
  }

  private gammaOf(frequencyHz: number): number {
    let gamma = this.gammas.get(frequencyHz);
    if (gamma === undefined) this.gammas.set(frequencyHz, (gamma = gasDbPerKm(frequencyHz)));
    return gamma;
  }
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
