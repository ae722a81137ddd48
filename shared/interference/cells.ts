/** Senders parted by frequency and by place, so that those far from a receiver in either are passed over together. */
import { chordM, Vectors } from "./geometry.js";
import type { Sender } from "./station.js";

const NO_CELLS: readonly Cell[] = [];
const SLOT_HZ = 50e6;
const CELL_DEG = 1;

/** Senders of one slot of frequencies that stand near each other. */
export interface Cell {
  /** By key. */
  readonly senders: readonly Sender[];
  /** Of each, in arrays: most senders are passed over for their frequency alone. */
  readonly vectors: Vectors;
  readonly frequencyHz: Float64Array;
  readonly bandwidthHz: Float64Array;
  /** Of all their EIRP, mW. */
  readonly sumMw: number;
  readonly lowestHz: number;
  readonly widestHz: number;
  /** Their mean place, and how far from it they stand. */
  readonly middle: Vectors;
  readonly radiusM: number;
}

/** The same cells in whatever order the senders came and went. */
export class Cells {
  private readonly slots: ReadonlyMap<number, ReadonlyMap<string, Cell>>;
  /** Bandwidth of the widest. */
  readonly widestHz: number;
  private readonly lowestSlot: number;
  private readonly highestSlot: number;

  private constructor(slots: ReadonlyMap<number, ReadonlyMap<string, Cell>>) {
    this.slots = slots;
    let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const slot of slots.keys()) {
      lowest = Math.min(lowest, slot);
      highest = Math.max(highest, slot);
    }
    this.lowestSlot = lowest;
    this.highestSlot = highest;
    let widestHz = 0;
    for (const cells of slots.values())
      for (const cell of cells.values()) widestHz = Math.max(widestHz, cell.widestHz);
    this.widestHz = widestHz;
  }

  static of(senders: Iterable<Sender>): Cells {
    return new Cells(new Map()).changed([], senders);
  }

  /**
   * What is not concerned is shared; these cells stay as they are.
   * @param gone senders that were there, the same objects
   */
  changed(gone: Iterable<Sender>, come: Iterable<Sender>): Cells {
    const concerned = new Map<number, Map<string, Set<Sender>>>();
    const at = (sender: Sender) => {
      const [slot, area] = [slotOf(sender.frequencyHz), areaOf(sender)];
      let areas = concerned.get(slot);
      if (areas === undefined) concerned.set(slot, (areas = new Map()));
      let senders = areas.get(area);
      if (senders === undefined)
        areas.set(area, (senders = new Set(this.slots.get(slot)?.get(area)?.senders ?? [])));
      return senders;
    };
    for (const sender of gone) at(sender).delete(sender);
    for (const sender of come) at(sender).add(sender);
    const slots = new Map(this.slots);
    for (const [slot, areas] of concerned) {
      const cells = new Map(slots.get(slot) ?? []);
      for (const [area, senders] of areas)
        if (senders.size > 0) cells.set(area, cellOf([...senders].sort(byKey)));
        else cells.delete(area);
      if (cells.size > 0) slots.set(slot, cells);
      else slots.delete(slot);
    }
    return new Cells(slots);
  }

  /** Cells of the slots that such a span of frequencies touches. */
  between(lowHz: number, highHz: number): readonly Cell[] {
    const low = Math.max(slotOf(lowHz), this.lowestSlot);
    const high = Math.min(slotOf(highHz), this.highestSlot);
    if (low > high) return NO_CELLS;
    const found: Cell[] = [];
    // A stranger's bandwidth may span more slots than there are.
    if (high - low > this.slots.size) {
      for (const [slot, cells] of this.slots) if (slot >= low && slot <= high) found.push(...cells.values());
      return found;
    }
    for (let slot = low; slot <= high; slot++) {
      const cells = this.slots.get(slot);
      if (cells !== undefined) found.push(...cells.values());
    }
    return found;
  }
}

function slotOf(frequencyHz: number): number {
  return Math.floor(frequencyHz / SLOT_HZ);
}

function areaOf({ place: { position } }: Sender): string {
  return `${Math.floor(position.latitudeDeg / CELL_DEG)} ${Math.floor(position.longitudeDeg / CELL_DEG)}`;
}

function cellOf(senders: readonly Sender[]): Cell {
  const vectors = new Vectors(senders.map(({ place }) => place));
  const mean = (axis: "latitudeDeg" | "longitudeDeg") =>
    senders.reduce((sum, { place }) => sum + place.position[axis], 0) / senders.length;
  const middle = new Vectors([
    { position: { latitudeDeg: mean("latitudeDeg"), longitudeDeg: mean("longitudeDeg") } },
  ]);
  let [sumMw, radiusM, lowestHz, widestHz] = [0, 0, Number.POSITIVE_INFINITY, 0];
  for (const [index, { eirpDbm, frequencyHz, bandwidthHz }] of senders.entries()) {
    sumMw += 10 ** (eirpDbm / 10);
    radiusM = Math.max(radiusM, chordM(middle, 0, vectors, index));
    lowestHz = Math.min(lowestHz, frequencyHz);
    widestHz = Math.max(widestHz, bandwidthHz);
  }
  const of = (figure: "frequencyHz" | "bandwidthHz") => Float64Array.from(senders, (one) => one[figure]);
  const [frequencies, bandwidths] = [of("frequencyHz"), of("bandwidthHz")];
  return {
    senders,
    frequencyHz: frequencies,
    bandwidthHz: bandwidths,
    vectors,
    middle,
    sumMw,
    radiusM,
    lowestHz,
    widestHz,
  };
}

export function byKey(a: { readonly key: string }, b: { readonly key: string }): number {
  return a.key < b.key ? -1 : a.key > b.key ? 1 : 0;
}
