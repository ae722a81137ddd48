/**
 * Remembers what steps made of things: of a thing that is the same object the outcome is the same. Whoever keeps a
 * design up to date hands one in and keeps it; without one everything is worked out anew.
 */
export class Memory {
  private readonly steps = new Map<object, WeakMap<object, unknown>>();
  private readonly rows = new Map<object, Made>();

  /** @param step stands for what `make` does; the same object each time */
  of<Key extends object, T>(step: object, key: Key, make: (key: Key) => T): T {
    const known = this.outcomesOf(step);
    const outcome = known.get(key);
    // An outcome may be undefined.
    if (outcome !== undefined || known.has(key)) return outcome as T;
    const made = make(key);
    known.set(key, made);
    return made;
  }

  /** Puts another outcome in place of the known one, for a step that goes on from it. */
  renew<Key extends object, T>(step: object, key: Key, make: (known: T | undefined) => T): T {
    const known = this.outcomesOf(step);
    const before = known.get(key) as T | undefined;
    const outcome = make(before);
    if (outcome !== before || before === undefined) known.set(key, outcome);
    return outcome;
  }

  /**
   * What a step makes of each of many rows, in their order. An edit changes few of many: rows that stand where they stood
   * the last time are known at a glance.
   * @returns the same array as long as all rows are the same
   */
  each<Row, T>(step: object, rows: readonly Row[], make: (row: Row) => T): readonly T[] {
    const making = this.eachInSteps(step, rows, make);
    for (let next = making.next(); ; next = making.next()) if (next.done) return next.value;
  }

  /** The same, with stops where many are made anew. */
  *eachInSteps<Row, T>(
    step: object,
    rows: readonly Row[],
    make: (row: Row) => T,
  ): Generator<void, readonly T[]> {
    const known = (this.rows.get(step) ?? NONE_MADE) as Made<Row, T>;
    const first = firstOther(known.rows, rows);
    if (first === undefined) return known.made;
    // Where rows came or went, the others are found by themselves.
    const places = known.rows.length === rows.length ? undefined : placesOf(known.rows);
    const made = known.made.slice(0, first);
    let anew = 0;
    for (let index = first; index < rows.length; index++) {
      const row = rows[index]!;
      const place = known.rows[index] === row ? index : places?.get(row);
      if (place !== undefined) {
        made.push(known.made[place]!);
        continue;
      }
      made.push(make(row));
      if (++anew % AT_ONCE === 0) yield;
    }
    this.rows.set(step, { rows, made });
    return made;
  }

  private outcomesOf(step: object): WeakMap<object, unknown> {
    let known = this.steps.get(step);
    if (known === undefined) this.steps.set(step, (known = new WeakMap()));
    return known;
  }
}

interface Made<Row = unknown, T = unknown> {
  readonly rows: readonly Row[];
  readonly made: readonly T[];
}

const NONE_MADE: Made = { rows: [], made: [] };
/** So many are made between two stops. */
const AT_ONCE = 256;

/** The first place where the one has another row than the other; undefined: they have the same. */
function firstOther(some: readonly unknown[], others: readonly unknown[]): number | undefined {
  if (some === others) return undefined;
  const shorter = Math.min(some.length, others.length);
  let place = 0;
  while (place < shorter && some[place] === others[place]) place++;
  return place === some.length && place === others.length ? undefined : place;
}

function placesOf<Row>(rows: readonly Row[]): ReadonlyMap<Row, number> {
  return new Map(rows.map((row, index) => [row, index]));
}
