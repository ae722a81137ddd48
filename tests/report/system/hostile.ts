/** The same design under other names: what strangers may call things. */

export const LONG = `${"x".repeat(60)} ${"Lorem-ipsum ".repeat(12)}`.slice(0, 200);
export const MARKUP = "</text><script>alert(1)</script>\"&'>";

/** Every text that is one of the names is the other, keys of maps too. */
export function renamed<T>(value: T, names: Readonly<Record<string, string>>): T {
  const seen = new Map<object, unknown>();
  const of = (one: unknown): unknown => {
    if (typeof one === "string") return names[one] ?? one;
    if (typeof one !== "object" || one === null) return one;
    const known = seen.get(one);
    if (known !== undefined) return known;
    if (one instanceof Map) {
      const map = new Map([...one].map(([key, held]) => [of(key), of(held)]));
      seen.set(one, map);
      return map;
    }
    if (one instanceof Set) return new Set([...one].map(of));
    if (Array.isArray(one)) {
      const list = one.map(of);
      seen.set(one, list);
      return list;
    }
    const copy = Object.fromEntries(Object.entries(one).map(([key, held]) => [key, of(held)]));
    seen.set(one, copy);
    return copy;
  };
  return of(value) as T;
}
