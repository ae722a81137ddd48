/** Stands on top for what is gone from the base. */
const GONE = Symbol("gone");

/**
 * A map that is copied without copying what it holds: copies share a base that nobody changes, and each has what it
 * changed on top. A network keeps a result for each of its receivers, and an edit changes few of them.
 */
export class LayeredMap<Key, Value extends object | number> {
  private base: ReadonlyMap<Key, Value>;
  private readonly top: Map<Key, Value | typeof GONE>;
  /** All values, as long as nothing changes. */
  private listed: readonly Value[] | undefined;

  constructor(from?: LayeredMap<Key, Value>) {
    this.base = from?.base ?? new Map();
    this.top = new Map(from?.top);
    if (this.top.size > LEAST_MERGED && this.top.size > this.base.size * MOST_ON_TOP) this.merge();
  }

  get(key: Key): Value | undefined {
    const changed = this.top.get(key);
    if (changed === undefined) return this.base.get(key);
    return changed === GONE ? undefined : changed;
  }

  set(key: Key, value: Value): void {
    this.listed = undefined;
    this.top.set(key, value);
  }

  delete(key: Key): void {
    this.listed = undefined;
    if (this.base.has(key)) this.top.set(key, GONE);
    else this.top.delete(key);
  }

  clear(): void {
    this.listed = undefined;
    this.base = new Map();
    this.top.clear();
  }

  /**
   * Values in the order in which keys came first; a copy may have moved those that went and came again. The same array
   * until something changes.
   */
  all(): readonly Value[] {
    return (this.listed ??= this.list());
  }

  private list(): Value[] {
    const all: Value[] = [];
    for (const [key, value] of this.base) {
      const now = this.top.get(key) ?? value;
      if (now !== GONE) all.push(now);
    }
    for (const [key, value] of this.top) if (value !== GONE && !this.base.has(key)) all.push(value);
    return all;
  }

  private merge(): void {
    const merged = new Map(this.base);
    for (const [key, value] of this.top)
      if (value === GONE) merged.delete(key);
      else merged.set(key, value);
    this.base = merged;
    this.top.clear();
  }
}

/** From so many changes on, and so large a share of the base, a copy takes them into its own base. */
const LEAST_MERGED = 100;
const MOST_ON_TOP = 0.1;
