/** From the address of a fact to its place in the text. */
import type { Address } from "../../shared/design/address.js";
import { type Fact, wordOf } from "../facts/fact.js";
import { END } from "../schema/index.js";
import { head } from "../syntax/tree.js";
import type { DesignModel } from "./design-model.js";
import { type Declaration, nameRange } from "./source-file.js";

export interface Place {
  readonly file: string;
  readonly start: number;
  readonly end: number;
}

/** The shortest range that carries the fact; where it is absent, that of what would hold it. */
export function locate(address: Address, model: DesignModel): Place | undefined {
  const [top, ...steps] = address.split(" / ");
  const entry = declarationOf(top!, model);
  if (!entry) return undefined;
  let place: Place = { file: entry.file, ...nameRange(entry) };
  let facts: readonly Fact[] = entry.fact.facts;
  for (const step of steps) {
    const [factName, argName] = step.split(".") as [string, string?];
    const found = findFact(facts, factName);
    if (!found) return place;
    const arg =
      argName === undefined
        ? undefined
        : found.args.find(({ spec }) => spec.name === argName || spec.label === argName);
    place = { file: entry.file, ...(arg ?? factRange(found)) };
    facts = found.facts;
  }
  return place;
}

/** Of the declaration that an address begins with. */
export function fileOf(address: Address, model: DesignModel): string | undefined {
  return declarationOf(address.split(" / ", 1)[0]!, model)?.file;
}

function declarationOf(top: string, model: DesignModel): Declaration | undefined {
  // One of several without a name: `policy#1` is the second.
  const [key = "", index] = top.trim().split("#");
  // `network Eskerfold` and `network` are the same: a design has one.
  return (
    model.standing(key)[Number(index ?? 0)] ??
    (key.startsWith("network") ? model.standing("network")[0] : undefined)
  );
}

/** `antenna`, `obstacle#1`, or the name of a site for an end. */
function findFact(facts: readonly Fact[], step: string): Fact | undefined {
  const [name, index] = step.split("#") as [string, string?];
  const same = facts.filter((fact) =>
    fact.property === END ? wordOf(fact, "site") === name : fact.property.name === name,
  );
  return same[Number(index ?? 0)];
}

/** The arguments of a fact; its word where it has none. */
function factRange(fact: Fact): { readonly start: number; readonly end: number } {
  const first = fact.args[0];
  if (!first || fact.property === END) return head(fact.statement);
  return { start: first.start, end: fact.args.at(-1)!.end };
}
