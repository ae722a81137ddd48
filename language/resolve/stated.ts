/** What things of the design have in common, whatever they are. */
import { type Fact, factNamed, wordOf } from "../facts/fact.js";
import type { Declaration } from "../model/source-file.js";

interface Named {
  readonly name: string;
  readonly title?: string;
  readonly orderCode?: string;
}

export function named(entry: Declaration): Named {
  // Of the entry itself: what differs in anything from the one that it is like is another article.
  const orderCode = wordOf(factNamed(entry.fact.facts, "order-code"), "code");
  const title = titleOf(entry.fact);
  return orderCode === undefined ? { name: entry.name, title } : { name: entry.name, title, orderCode };
}

/** One of nothing but blanks is none: what has it is called by its name then. */
export function titleOf(fact: Fact | undefined): string | undefined {
  const title = wordOf(fact, "title");
  return title === undefined || title.trim() === "" ? undefined : title;
}

/** An object in which nothing is stated says nothing; it would only make every result depend on it. */
export function unlessEmpty<T extends object>(stated: T): T | undefined {
  const says = Object.values(stated).some((value) =>
    Array.isArray(value) ? value.length > 0 : value !== undefined,
  );
  return says ? stated : undefined;
}
