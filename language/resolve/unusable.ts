/** What a hop states and nobody can use: names that nothing bears, values that cannot be read. The text tells why. */
import type { UnusableFact } from "../../shared/design/design.js";
import type { Argument, Fact } from "../facts/fact.js";
import { END } from "../schema/index.js";
import { isInstalled } from "../schema/kinds.js";
import type { Lookup } from "./lookup.js";

/**
 * @param own those of the facts that the hop states itself
 * @param site of the end that the facts are of; undefined: of the hop itself, whose ends are left to calls of their own
 */
export function unusableIn(
  facts: readonly Fact[],
  own: readonly Fact[],
  lookup: Lookup,
  site?: string,
): UnusableFact[] {
  return facts
    .filter((fact) => fact.property !== END && isUnusable(fact, lookup))
    .map((fact) => ({
      fact: fact.property.name,
      site,
      ...(isOpen(fact) && { open: true as const }),
      ...(own.includes(fact) ? {} : { inherited: true as const }),
    }));
}

function isOpen({ args, facts }: Fact): boolean {
  return args.some(({ open }) => open) || facts.some(isOpen);
}

function isUnusable({ args, facts }: Fact, lookup: Lookup): boolean {
  return args.some((arg) => isUnread(arg, lookup)) || facts.some((fact) => isUnusable(fact, lookup));
}

function isUnread({ value }: Argument, lookup: Lookup): boolean {
  if (value === undefined) return true;
  if (value.type !== "reference") return false;
  return isInstalled(value.kind) && lookup[value.kind](value.name) === undefined;
}
