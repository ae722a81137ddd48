/** What things of the design have in common, whatever they are. */
import { wordOf } from "../facts/fact.js";
import type { Declaration } from "../model/source-file.js";

export function named(entry: Declaration): { readonly name: string; readonly title?: string } {
  return { name: entry.name, title: wordOf(entry.fact, "title") };
}

/** An object in which nothing is stated says nothing; it would only make every result depend on it. */
export function unlessEmpty<T extends object>(stated: T): T | undefined {
  const says = Object.values(stated).some((value) =>
    Array.isArray(value) ? value.length > 0 : value !== undefined,
  );
  return says ? stated : undefined;
}
