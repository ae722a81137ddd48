/** What names stand for, kind by kind: looked up once, and again only where something that it was made from changed. */

interface Kind {
  names: readonly string[];
  /** Handed out, so never changed: a change makes another one. */
  all: ReadonlyMap<string, unknown>;
  readonly stale: Set<string>;
}

export class Resolved {
  private readonly kinds: Map<string, Kind>;

  constructor(like?: Resolved) {
    this.kinds = new Map(
      [...(like?.kinds ?? [])].map(([kind, known]) => [kind, { ...known, stale: new Set(known.stale) }]),
    );
  }

  forget(kind: string, name: string): void {
    this.kinds.get(kind)?.stale.add(name);
  }

  /**
   * In the order of the names; the same map as before when nothing is another value.
   * @param names those of the kind, the same list as long as none came, went or moved past another
   */
  of<T>(
    kind: string,
    names: readonly string[],
    find: (name: string) => T | undefined,
  ): ReadonlyMap<string, T> {
    const known = this.kinds.get(kind);
    const all = known?.names === names ? renewed(known, find) : made(known, names, find);
    this.kinds.set(kind, { names, all, stale: new Set() });
    return all as ReadonlyMap<string, T>;
  }
}

function renewed<T>({ names, all, stale }: Kind, find: (name: string) => T | undefined) {
  // A copy is dear among many names, and most kinds stay as they are.
  let next: Map<string, unknown> | undefined;
  for (const name of stale) {
    const value = find(name);
    if (value === all.get(name)) continue;
    // One that is new among the others has a place that no end of a map is.
    if (value !== undefined && !all.has(name))
      return inOrder(names, (one) => (stale.has(one) ? find(one) : all.get(one)));
    next ??= new Map(all);
    if (value === undefined) next.delete(name);
    else next.set(name, value);
  }
  return next ?? all;
}

/** Names that stay keep what they stand for. */
function made<T>(known: Kind | undefined, names: readonly string[], find: (name: string) => T | undefined) {
  const before = new Set(known?.names);
  return inOrder(names, (name) =>
    known && before.has(name) && !known.stale.has(name) ? known.all.get(name) : find(name),
  );
}

function inOrder(names: readonly string[], find: (name: string) => unknown): Map<string, unknown> {
  const all = new Map<string, unknown>();
  for (const name of names) {
    const value = find(name);
    if (value !== undefined) all.set(name, value);
  }
  return all;
}
