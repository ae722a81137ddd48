import { copyOfSets } from "./sets.js";

/**
 * Remembers computed values together with what they were computed from, and forgets exactly those that
 * depend on what changed. Keys are words (`site KELD`); a computed value may depend on other computed ones.
 */
export class Memo {
  private readonly cells: Map<
    string,
    { readonly value: unknown; readonly dependencies: ReadonlySet<string> }
  >;
  private readonly dependants: Map<string, Set<string>>;
  private readonly running: Set<string>[] = [];

  /** @param like begins with all that it remembers, and forgets for itself */
  constructor(like?: Memo) {
    this.cells = new Map(like?.cells);
    this.dependants = copyOfSets(like?.dependants);
  }

  /** Notes that what is being computed depends on `key`. */
  touch(key: string): void {
    this.running.at(-1)?.add(key);
  }

  get<T>(key: string, compute: () => T): T {
    this.touch(key);
    const known = this.cells.get(key);
    if (known) return known.value as T;
    const dependencies = new Set<string>();
    this.running.push(dependencies);
    let value: T;
    try {
      value = compute();
    } finally {
      this.running.pop();
    }
    this.cells.set(key, { value, dependencies });
    for (const dependency of dependencies) {
      const set = this.dependants.get(dependency);
      if (set) set.add(key);
      else this.dependants.set(dependency, new Set([key]));
    }
    return value;
  }

  has(key: string): boolean {
    return this.cells.has(key);
  }

  /** Forgets all that depends on these keys, directly or not. @returns the forgotten keys */
  forget(keys: Iterable<string>): Set<string> {
    const forgotten = new Set<string>();
    const queue = [...keys];
    for (let key = queue.pop(); key !== undefined; key = queue.pop()) {
      const cell = this.cells.get(key);
      if (cell) {
        this.cells.delete(key);
        forgotten.add(key);
        for (const dependency of cell.dependencies) this.dependants.get(dependency)?.delete(key);
      }
      const set = this.dependants.get(key);
      if (!set) continue;
      this.dependants.delete(key);
      queue.push(...set);
    }
    return forgotten;
  }
}
