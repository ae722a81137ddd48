/** From a place in the text to the address of the fact there: the way back from `locate`. */
import { type Address, nth } from "../../shared/design/address.js";
import { type Fact, wordOf } from "../facts/fact.js";
import { END } from "../schema/index.js";
import { declarationAt } from "./declaration-at.js";
import type { SourceFile } from "./source-file.js";

/** @returns undefined outside of every declaration */
export function addressAt(file: SourceFile, offset: number): Address | undefined {
  const declaration = declarationAt(file, offset);
  if (!declaration) return undefined;
  const steps: string[] = [];
  let facts: readonly Fact[] = declaration.fact.facts;
  for (let here = factAt(facts, offset); here !== undefined; here = factAt(facts, offset)) {
    const name = nameOf(here);
    const same = facts.filter((fact) => nameOf(fact) === name);
    steps.push(nth(name, same.indexOf(here)));
    facts = here.facts;
  }
  return [declaration.key, ...steps].join(" / ");
}

function factAt(facts: readonly Fact[], offset: number): Fact | undefined {
  return facts.findLast(({ statement }) => statement.start <= offset && offset <= statement.end);
}

/** As `locate` finds it: ends go by their sites. */
function nameOf(fact: Fact): string {
  return (fact.property === END ? wordOf(fact, "site") : undefined) ?? fact.property.name;
}
