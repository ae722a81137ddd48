/** The state of a fact: from a `state` line in its block, or from the words at its end. */
import type { State, StateWord } from "../../shared/design/state.js";
import { type Fact, factNamed, wordOf } from "./fact.js";

export function stateOf(fact: Fact): State | undefined {
  const line = fact.property.block === undefined ? fact : factNamed(fact.facts, "state");
  // An alarm has a state of another kind.
  if (!line?.property.args.some(({ name }) => name === "date")) return undefined;
  const word = wordOf(line, "state") as StateWord | undefined;
  if (word === undefined) return undefined;
  const date = wordOf(line, "date");
  const until = wordOf(line, "until");
  return { word, ...(date && { date }), ...(until && { until }) };
}

/** Whether anything in it has a state: nearly nothing has. */
export function hasStates(fact: Fact): boolean {
  return stateOf(fact) !== undefined || fact.facts.some(hasStates);
}
