/**
 * Facts of a catalogue entry with what it inherits by `like`. A fact stated in the entry replaces all
 * facts of that name further up, repeatable ones too: stating one mode states them all.
 */
import { type Fact, type TextRule, wordOf } from "../facts/fact.js";
import type { Declaration } from "../model/source-file.js";
import type { Lookup, ResolveProblem } from "./lookup.js";

/** Nobody follows a longer chain, and each entry of it would walk the whole. */
const MOST_ANCESTORS = 32;

export function inheritedFacts(
  entry: Declaration,
  lookup: Lookup,
  problems: ResolveProblem[] = [],
): readonly Fact[] {
  const visited = new Set([entry.key]);
  let facts: readonly Fact[] = entry.fact.facts;
  let current: Declaration | undefined = entry;
  while (current) {
    const name = wordOf(current.fact, "like");
    if (name === undefined) break;
    const key = `${current.kind} ${name}`;
    if (visited.has(key)) {
      problems.push(
        likeProblem(entry, "inheritance-loop", `${entry.key} inherits from itself by way of ${key}`),
      );
      break;
    }
    if (visited.size > MOST_ANCESTORS) {
      const message = `${entry.key} inherits by way of more than ${MOST_ANCESTORS} entries; what lies beyond ${current.key} is left out`;
      problems.push(likeProblem(entry, "inheritance-deep", message));
      break;
    }
    visited.add(key);
    current = lookup.declaration(key);
    if (current) facts = merge(facts, current.fact.facts);
  }
  return facts;
}

export function merge(own: readonly Fact[], inherited: readonly Fact[]): readonly Fact[] {
  if (inherited.length === 0) return own;
  const stated = new Set(own.map((fact) => fact.property.name));
  return [...own, ...inherited.filter((fact) => !stated.has(fact.property.name))];
}

function likeProblem(entry: Declaration, rule: TextRule, message: string): ResolveProblem {
  const like = entry.fact.args.find((arg) => arg.spec.label === "like")!;
  return {
    file: entry.file,
    problem: {
      rule,
      severity: "error",
      start: like.start,
      end: like.end,
      message,
      help: "remove one of the `like` on the way",
    },
  };
}
