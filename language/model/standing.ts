/** What of a declaration stands in a view: facts that do not are as if they were not written. */
import { type Span, spanOf, standsIn, type View } from "../../shared/design/state.js";
import { type Fact, wordOf } from "../facts/fact.js";
import { stateOf } from "../facts/states.js";
import type { Declaration } from "./source-file.js";

/** @returns undefined where the declaration itself does not stand; itself where all of it does */
export function standing(entry: Declaration, view: View): Declaration | undefined {
  if (!entry.states) return entry;
  if (!standsIn(view, stateOf(entry.fact))) return undefined;
  const facts = standingFacts(entry.fact.facts, view);
  return facts === entry.fact.facts ? entry : { ...entry, fact: { ...entry.fact, facts } };
}

/** Whether the same of a declaration stands in two views. */
export function sameFacts(one: Declaration | undefined, other: Declaration | undefined): boolean {
  return (
    one === other || (one !== undefined && other !== undefined && sameList(one.fact.facts, other.fact.facts))
  );
}

function sameList(one: readonly Fact[], other: readonly Fact[]): boolean {
  return (
    one === other ||
    (one.length === other.length &&
      one.every(
        ({ statement, facts }, i) => statement === other[i]!.statement && sameList(facts, other[i]!.facts),
      ))
  );
}

/** When each thing in it stands that has a state. */
export function* spansIn(fact: Fact): Iterable<Span> {
  const state = stateOf(fact);
  if (state) yield spanOf(state);
  for (const inner of fact.facts) yield* spansIn(inner);
}

/** Last days of the acceptances in it. */
export function* acceptedUntil({ facts }: Fact): Iterable<string> {
  for (const fact of facts) {
    const until = fact.property.name === "accept" ? wordOf(fact, "until") : undefined;
    if (until !== undefined) yield until;
  }
}

/** The same list where all of them stand. */
function standingFacts(facts: readonly Fact[], view: View): readonly Fact[] {
  let whole = true;
  const kept = facts.flatMap((fact) => {
    const stands = standsIn(view, stateOf(fact));
    const inner = stands ? standingFacts(fact.facts, view) : fact.facts;
    if (stands && inner === fact.facts) return [fact];
    whole = false;
    return stands ? [{ ...fact, facts: inner }] : [];
  });
  return whole ? facts : kept;
}
