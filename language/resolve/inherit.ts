/**
 * Facts of a catalogue entry with what it inherits by `like`. A fact stated in the entry replaces all
 * facts of that name further up, repeatable ones too: stating one mode states them all.
 */
import { type Fact, wordOf } from "../facts/fact.js";
import type { Declaration } from "../model/source-file.js";
import type { Lookup, ResolveProblem } from "./lookup.js";

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
      problems.push(loopProblem(entry, key));
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

function loopProblem(entry: Declaration, key: string): ResolveProblem {
  const like = entry.fact.args.find((arg) => arg.spec.label === "like")!;
  return {
    file: entry.file,
    problem: {
      rule: "inheritance-loop",
      severity: "error",
      start: like.start,
      end: like.end,
      message: `${entry.key} inherits from itself by way of ${key}`,
      help: "remove one of the `like` on the way",
    },
  };
}
