/** Equality of plain data by content. */

/**
 * A comparison that remembers pairs of objects: hops share their radios, sites and climates, which are then compared
 * once, not once a hop.
 */
export function contentComparison(): (a: unknown, b: unknown) => boolean {
  const known = new WeakMap<object, WeakMap<object, boolean>>();

  function same(a: unknown, b: unknown): boolean {
    if (Object.is(a, b)) return true;
    if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
    let pairs = known.get(a);
    if (!pairs) known.set(a, (pairs = new WeakMap()));
    let equal = pairs.get(b);
    if (equal === undefined) pairs.set(b, (equal = sameObjects(a, b)));
    return equal;
  }

  /** A property that is undefined and one that is not there say the same. */
  function sameObjects(a: object, b: object): boolean {
    if (Array.isArray(a) !== Array.isArray(b)) return false;
    const [left, right] = [a as Record<string, unknown>, b as Record<string, unknown>];
    if (Array.isArray(a) && a.length !== (b as unknown[]).length) return false;
    for (const key of Object.keys(left)) if (!same(left[key], right[key])) return false;
    return Object.keys(right).every((key) => right[key] === undefined || left[key] !== undefined);
  }

  return same;
}
