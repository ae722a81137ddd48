/** The state of a fact: from a `state` line in its block, or from the words at its end. */
import type { State, StateWord } from "../../shared/design/state.js";
import { argument, type Fact, factNamed, wordOf } from "./fact.js";

export function stateOf(fact: Fact): State | undefined {
  const line = fact.property.block === undefined ? fact : factNamed(fact.facts, "state");
  // An alarm has a state of another kind.
  if (!line?.property.args.some(({ name }) => name === "date")) return undefined;
  const word = wordOf(line, "state") as StateWord | undefined;
  if (word === undefined || isSpoilt(line)) return undefined;
  const date = wordOf(line, "date");
  const until = wordOf(line, "until");
  return { word, ...(date && { date }), ...(until && { until }) };
}

const DATES: ReadonlySet<string> = new Set(["date", "until"]);

/** Words behind it that cannot be read: without the day that they may be it would stand at quite another time. */
function isSpoilt({ args, statement }: Fact): boolean {
  return (
    args.some(({ spec, value, open }) => DATES.has(spec.name) && value === undefined && !open) ||
    statement.atoms.at(-1)!.end > args.at(-1)!.end
  );
}

/** Whether a state is written of which the day cannot be read: it is told, and the thing counts as standing. */
export function hasSpoiltState(fact: Fact): boolean {
  const line = fact.property.block === undefined ? fact : factNamed(fact.facts, "state");
  return argument(line, "state") !== undefined && stateOf(fact) === undefined;
}

/** Whether anything in it has a state: nearly nothing has. */
export function hasStates(fact: Fact): boolean {
  return stateOf(fact) !== undefined || fact.facts.some(hasStates);
}
