/** Stands on top for what is gone from the base. */
const GONE = Symbol("gone");

/**
 * A map that is copied without copying what it holds: copies share a base that nobody changes, and each has what it
 * changed on top. A network keeps a result for each of its receivers, and an edit changes few of them.
 */
export class LayeredMap<Key, Value extends object | number> {
  private base: ReadonlyMap<Key, Value>;
  private readonly top: Map<Key, Value | typeof GONE>;

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
    this.top.set(key, value);
  }

  delete(key: Key): void {
    if (this.base.has(key)) this.top.set(key, GONE);
    else this.top.delete(key);
  }

  clear(): void {
    this.base = new Map();
    this.top.clear();
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
