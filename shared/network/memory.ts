/**
 * Remembers what steps made of things: of a thing that is the same object the outcome is the same. Whoever keeps a
 * design up to date hands one in and keeps it; without one everything is worked out anew.
 */
export class Memory {
  private readonly steps = new Map<object, WeakMap<object, unknown>>();

  /** @param step stands for what `make` does; the same object each time */
  of<Key extends object, T>(step: object, key: Key, make: (key: Key) => T): T {
    let known = this.steps.get(step);
    if (known === undefined) this.steps.set(step, (known = new WeakMap()));
    const outcome = known.get(key);
    // An outcome may be undefined.
    if (outcome !== undefined || known.has(key)) return outcome as T;
    const made = make(key);
    known.set(key, made);
    return made;
  }

  /** Puts another outcome in place of the known one, for a step that goes on from it. */
  renew<Key extends object, T>(step: object, key: Key, make: (known: T | undefined) => T): T {
    let known = this.steps.get(step);
    if (known === undefined) this.steps.set(step, (known = new WeakMap()));
    const before = known.get(key) as T | undefined;
    const outcome = make(before);
    if (outcome !== before || before === undefined) known.set(key, outcome);
    return outcome;
  }
}
