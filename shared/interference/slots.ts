/** Things parted by frequency, so that those far apart are passed over together. What is not changed is shared. */
const SLOT_HZ = 50e6;
const NONE: readonly number[] = [];

export function slotOf({ frequencyHz }: { readonly frequencyHz: number }): number {
  return Math.floor(frequencyHz / SLOT_HZ);
}

export class Slots<Part> {
  private readonly lowest: number;
  private readonly highest: number;

  constructor(private readonly parts: ReadonlyMap<number, Part> = new Map()) {
    let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const slot of parts.keys()) {
      lowest = Math.min(lowest, slot);
      highest = Math.max(highest, slot);
    }
    this.lowest = lowest;
    this.highest = highest;
  }

  get(slot: number): Part | undefined {
    return this.parts.get(slot);
  }

  all(): Iterable<Part> {
    return this.parts.values();
  }

  /** These stay as they are. @param parts by slot; undefined: it is empty now */
  changed(parts: Iterable<readonly [number, Part | undefined]>): Slots<Part> {
    const all = new Map(this.parts);
    for (const [slot, part] of parts)
      if (part === undefined) all.delete(slot);
      else all.set(slot, part);
    return new Slots(all);
  }

  /** Those that a span of frequencies touches and that are not empty. */
  between(lowHz: number, highHz: number): readonly number[] {
    const low = Math.max(slotOf({ frequencyHz: lowHz }), this.lowest);
    const high = Math.min(slotOf({ frequencyHz: highHz }), this.highest);
    if (!(low <= high)) return NONE;
    // A stranger's bandwidth may span more slots than there are.
    if (high - low > this.parts.size)
      return [...this.parts.keys()].filter((slot) => slot >= low && slot <= high);
    const found: number[] = [];
    for (let slot = low; slot <= high; slot++) if (this.parts.has(slot)) found.push(slot);
    return found;
  }
}
