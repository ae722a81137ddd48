/** From a place in the text to the address of the fact there: the way back from `locate`. */
import { type Address, nth } from "../../shared/design/address.js";
import { type Fact, wordOf } from "../facts/fact.js";
import { END } from "../schema/index.js";
import { declarationAt } from "./declaration-at.js";
import type { Declaration, SourceFile } from "./source-file.js";

/**
 * @param standing what of a declaration stands, where addresses count that alone
 * @returns undefined outside of every declaration
 */
export function addressAt(
  file: SourceFile,
  offset: number,
  standing: (entry: Declaration) => Declaration | undefined = (entry) => entry,
): Address | undefined {
  const found = declarationAt(file, offset);
  const declaration = found && standing(found);
  if (!declaration) return undefined;
  const steps: string[] = [];
  let facts: readonly Fact[] = declaration.fact.facts;
  for (let here = factAt(facts, offset); here !== undefined; here = factAt(facts, offset)) {
    steps.push(stepsOf(facts).get(here)!);
    facts = here.facts;
  }
  return [topOf(file, found), ...steps].join(" / ");
}

/** Its key; of several without a name in a file all but the first are numbered, as `locate` numbers them. */
function topOf({ declarations }: SourceFile, found: Declaration): string {
  if (found.name !== "") return found.key;
  let tops = nameless.get(declarations);
  if (!tops) {
    const byKey = Map.groupBy(
      declarations.filter(({ name }) => name === ""),
      ({ key }) => key,
    );
    tops = new Map(
      [...byKey].flatMap(([key, those]) => those.map((one, index) => [one, nth(key, index)] as const)),
    );
    nameless.set(declarations, tops);
  }
  return tops.get(found) ?? found.key;
}

/** Worked out once a file, as the steps are. */
const nameless = new WeakMap<readonly Declaration[], ReadonlyMap<Declaration, string>>();

const known = new WeakMap<readonly Fact[], ReadonlyMap<Fact, string>>();

/** What each of the facts of a block is called: worked out once, since a block may have a mistake in each of thousands. */
function stepsOf(facts: readonly Fact[]): ReadonlyMap<Fact, string> {
  let steps = known.get(facts);
  if (!steps) {
    const counts = new Map<string, number>();
    steps = new Map(
      facts.map((fact) => {
        const name = nameOf(fact);
        const index = counts.get(name) ?? 0;
        counts.set(name, index + 1);
        return [fact, nth(name, index)];
      }),
    );
    known.set(facts, steps);
  }
  return steps;
}

/** The last that holds the place; facts stand in the order of the text and apart. */
function factAt(facts: readonly Fact[], offset: number): Fact | undefined {
  let low = 0;
  let high = facts.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (facts[middle]!.statement.start <= offset) low = middle + 1;
    else high = middle;
  }
  const before = facts[low - 1];
  return before && offset <= before.statement.end ? before : undefined;
}

/** As `locate` finds it: ends go by their sites. */
function nameOf(fact: Fact): string {
  return (fact.property === END ? wordOf(fact, "site") : undefined) ?? fact.property.name;
}
