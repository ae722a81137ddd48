/** Senders parted by frequency and by place, so that those far from a receiver in either are passed over together. */
import { chordM, Vectors } from "./geometry.js";
import { Slots, slotOf } from "./slots.js";
import type { Sender } from "./station.js";

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

type Areas = ReadonlyMap<string, Cell>;

/** The same cells in whatever order the senders came and went. */
export class Cells {
  /** Bandwidth of the widest. */
  readonly widestHz: number;

  private constructor(private readonly slots: Slots<Areas>) {
    let widestHz = 0;
    for (const areas of slots.all())
      for (const cell of areas.values()) widestHz = Math.max(widestHz, cell.widestHz);
    this.widestHz = widestHz;
  }

  static of(senders: Iterable<Sender>): Cells {
    return new Cells(new Slots()).changed([], senders);
  }

  /**
   * What is not concerned is shared; these cells stay as they are.
   * @param gone senders that were there, the same objects
   */
  changed(gone: Iterable<Sender>, come: Iterable<Sender>): Cells {
    const concerned = new Map<number, Map<string, Set<Sender>>>();
    const at = (sender: Sender) => {
      const [slot, area] = [slotOf(sender), areaOf(sender)];
      let areas = concerned.get(slot);
      if (areas === undefined) concerned.set(slot, (areas = new Map()));
      let senders = areas.get(area);
      if (senders === undefined)
        areas.set(area, (senders = new Set(this.slots.get(slot)?.get(area)?.senders ?? [])));
      return senders;
    };
    for (const sender of gone) at(sender).delete(sender);
    for (const sender of come) at(sender).add(sender);
    const parts = [...concerned].map(([slot, areas]) => {
      const cells = new Map(this.slots.get(slot));
      for (const [area, senders] of areas)
        if (senders.size > 0) cells.set(area, cellOf([...senders].sort(byKey)));
        else cells.delete(area);
      return [slot, cells.size > 0 ? cells : undefined] as const;
    });
    return new Cells(this.slots.changed(parts));
  }

  /** Cells of the slots that such a span of frequencies touches. */
  between(lowHz: number, highHz: number): readonly Cell[] {
    const found: Cell[] = [];
    for (const slot of this.slots.between(lowHz, highHz)) found.push(...this.slots.get(slot)!.values());
    return found;
  }

  /** Of such a span the cells of these that are not among the others, and those of the others that are not among these. */
  differing(others: Cells, lowHz: number, highHz: number): readonly [readonly Cell[], readonly Cell[]] {
    return [this.without(others, lowHz, highHz), others.without(this, lowHz, highHz)];
  }

  private without(others: Cells, lowHz: number, highHz: number): readonly Cell[] {
    const found: Cell[] = [];
    for (const slot of this.slots.between(lowHz, highHz)) {
      const [here, there] = [this.slots.get(slot)!, others.slots.get(slot)];
      if (here === there) continue;
      for (const [area, cell] of here) if (there?.get(area) !== cell) found.push(cell);
    }
    return found;
  }
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
