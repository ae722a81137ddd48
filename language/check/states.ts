/** States that contradict each other: a hop without its site, a part that never stands, an end before the beginning. */
import {
  covers,
  intersection,
  overlap,
  type Span,
  spanOf,
  spanWords,
  stateWords,
} from "../../shared/design/state.js";
import { argument, type Fact, factNamed, type TextProblem, wordOf } from "../facts/fact.js";
import { stateOf } from "../facts/states.js";
import type { Declaration } from "../model/source-file.js";
import { END } from "../schema/index.js";
import { head } from "../syntax/tree.js";

/** @param declared the first declaration of a key, whatever stands */
export function contradictions(
  entry: Declaration,
  declared: (key: string) => Declaration | undefined,
): readonly TextProblem[] {
  const own = entry.states ? within(entry.fact, spanOf(undefined), entry.name) : [];
  return entry.kind === "hop" ? [...own, ...withoutSites(entry, declared)] : own;
}

/** What stands in something that has times of its own. */
function within(fact: Fact, around: Span, name: string): readonly TextProblem[] {
  const state = stateOf(fact);
  const span = spanOf(state);
  if (state?.word === "removed" && state.until !== undefined)
    return [
      told(
        fact,
        "error",
        "what is removed has no until",
        `to stand until then: state built until ${state.until}`,
      ),
    ];
  if (state && state.word !== "removed" && span.from >= span.until)
    return [
      told(fact, "error", `${stateWords(state)} ends before it has stood a day`, "mend one of the dates"),
    ];
  if (state && !overlap(span, around) && span.from < span.until)
    return [
      told(
        fact,
        "warning",
        `this never stands: it does ${spanWords(span)}, and ${name} ${spanWords(around)}`,
        "mend one of the two",
      ),
    ];
  const both = intersection(span, around);
  return fact.facts.flatMap((inner) =>
    within(inner, both, wordOf(fact, "name") ?? wordOf(fact, "chassis") ?? name),
  );
}

/** A hop that says itself when it stands needs both sites then; one that does not stands when they do. */
function withoutSites(
  entry: Declaration,
  declared: (key: string) => Declaration | undefined,
): readonly TextProblem[] {
  const state = stateOf(entry.fact);
  if (state === undefined) return [];
  const span = spanOf(state);
  return entry.fact.facts
    .filter((fact) => fact.property === END)
    .flatMap((fact) => {
      const site = declared(`site ${wordOf(fact, "site")}`);
      const stands = spanOf(site && stateOf(site.fact));
      if (!site || covers(stands, span)) return [];
      return [
        told(
          fact,
          "error",
          `${entry.name} stands ${spanWords(span) || "at all times"}, its site ${site.name} ${spanWords(stands) || "never"}`,
          "let the site stand as long as the hop does, or the hop as long as the site",
        ),
      ];
    });
}

function told(fact: Fact, severity: "error" | "warning", message: string, help: string): TextProblem {
  const line = fact.property.block === undefined ? fact : factNamed(fact.facts, "state");
  const range = argument(line, "state") ?? head(fact.statement);
  return { rule: "state-contradiction", severity, start: range.start, end: range.end, message, help };
}
