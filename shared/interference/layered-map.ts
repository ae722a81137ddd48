/**
 * A map that is copied without copying what it holds: copies share a base that nobody changes, and each has what it
 * changed on top. A network keeps a result for each of its receivers, and an edit changes few of them.
 */
export class LayeredMap<Key, Value> {
  private base: ReadonlyMap<Key, Value>;
  /** Undefined: it is gone from the base. */
  private readonly top: Map<Key, Value | undefined>;

  constructor(from?: LayeredMap<Key, Value>) {
    this.base = from?.base ?? new Map();
    this.top = new Map(from?.top);
    if (this.top.size > LEAST_MERGED && this.top.size > this.base.size * MOST_ON_TOP) this.merge();
  }

  get(key: Key): Value | undefined {
    const changed = this.top.get(key);
    return changed !== undefined || this.top.has(key) ? changed : this.base.get(key);
  }

  set(key: Key, value: Value): void {
    this.top.set(key, value);
  }

  delete(key: Key): void {
    if (this.base.has(key)) this.top.set(key, undefined);
    else this.top.delete(key);
  }

  clear(): void {
    this.base = new Map();
    this.top.clear();
  }

  /** In the order in which keys came first; a copy may have moved those that went and came again. */
  *values(): Generator<Value> {
    for (const [key, value] of this.base) {
      const now = this.top.has(key) ? this.top.get(key) : value;
      if (now !== undefined) yield now;
    }
    for (const [key, value] of this.top) if (value !== undefined && !this.base.has(key)) yield value;
  }

  private merge(): void {
    const merged = new Map(this.base);
    for (const [key, value] of this.top)
      if (value === undefined) merged.delete(key);
      else merged.set(key, value);
    this.base = merged;
    this.top.clear();
  }
}

/** From so many changes on, and so large a share of the base, a copy takes them into its own base. */
const LEAST_MERGED = 100;
const MOST_ON_TOP = 0.1;
