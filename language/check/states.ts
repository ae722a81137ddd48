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

type Declared = (key: string) => Declaration | undefined;

/** @param declared the first declaration of a key, whatever stands */
export function contradictions(entry: Declaration, declared: Declared): readonly TextProblem[] {
  const own = entry.states ? within(entry.fact, spanOf(undefined), entry.name) : [];
  if (entry.kind === "demand") return [...own, ...withoutSites(entry, declared)];
  return entry.kind === "hop"
    ? [...own, ...withoutSites(entry, declared), ...withoutPair(entry, declared)]
    : own;
}

/** What was planned for a day that has passed. @param today ISO date */
export function overdue(fact: Fact, today: string, name: string): readonly TextProblem[] {
  const state = stateOf(fact);
  // The line that states it belongs to the thing itself.
  const parts = fact.facts.filter(({ property }) => property.name !== "state");
  const inner = parts.flatMap((one) => overdue(one, today, partName(one, name)));
  if (state?.word !== "planned" || state.date === undefined || state.date >= today) return inner;
  const line = fact.property.block === undefined ? fact : factNamed(fact.facts, "state");
  const { start, end } = argument(line, "state")!;
  const problem: TextProblem = {
    rule: "state-overdue",
    severity: "warning",
    start,
    end,
    message: `${name} was planned for ${state.date}, which has passed: is it built?`,
    help: "it counts as standing since; write state built, or a new date",
    fixes: [{ title: `Write that it is built since ${state.date}`, start, end, newText: "built" }],
  };
  return [problem, ...inner];
}

/** `antenna of KELD-TARN at KELD`. */
function partName(fact: Fact, of: string): string {
  return fact.property === END ? `${of} at ${wordOf(fact, "site")}` : `${fact.property.name} of ${of}`;
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

/** A hop or a demand that says itself when it stands needs both sites then; one that does not stands when they do. */
function withoutSites(entry: Declaration, declared: Declared): readonly TextProblem[] {
  const state = stateOf(entry.fact);
  if (state === undefined) return [];
  const span = spanOf(state);
  return endSites(entry.fact).flatMap(({ name, range }) => {
    const site = declared(`site ${name}`);
    const stands = spanOf(site && stateOf(site.fact));
    if (!site || covers(stands, span)) return [];
    return [
      {
        rule: "state-contradiction",
        severity: "error",
        ...range,
        message: `it stands ${spanWords(span) || "at all times"}, its site ${site.name} ${spanWords(stands) || "never"}`,
        help: `let the site stand as long as the ${entry.kind} does, or the ${entry.kind} as long as the site`,
      },
    ];
  });
}

/** The hops of a dual-band pair carry together: where one stands alone the other is missing in its figures. */
function withoutPair(entry: Declaration, declared: Declared): readonly TextProblem[] {
  const fact = factNamed(entry.fact.facts, "pair");
  const other = fact && declared(`hop ${wordOf(fact, "hop")}`);
  if (!fact || !other) return [];
  const [span, ofOther] = [hopSpan(entry, declared), hopSpan(other, declared)];
  if (covers(ofOther, span)) return [];
  const range = argument(fact, "hop") ?? head(fact.statement);
  return [
    {
      rule: "state-contradiction",
      severity: "warning",
      start: range.start,
      end: range.end,
      message: `it stands ${spanWords(span) || "at all times"}, the other band ${other.name} ${spanWords(ofOther) || "at all times"}; for a time it carries alone`,
      help: "let both stand at the same times, or judge the hop by what it carries alone",
    },
  ];
}

/** When a hop stands: as it says, and as long as both of its sites do. */
export function hopSpan(entry: Declaration, declared: Declared): Span {
  return endSites(entry.fact)
    .map(({ name }) => declared(`site ${name}`))
    .reduce(
      (span, site) => (site ? intersection(span, spanOf(stateOf(site.fact))) : span),
      spanOf(stateOf(entry.fact)),
    );
}

interface EndSite {
  readonly name: string;
  readonly range: { readonly start: number; readonly end: number };
}

/** Sites at which a hop or a demand ends, as written. */
export function endSites({ property, facts }: Fact): readonly EndSite[] {
  const ends = facts.filter(
    (one) => one.property === END || (property.name === "demand" && one.property.name === "from"),
  );
  return ends.flatMap(({ args }) =>
    args.flatMap(({ value, start, end }) =>
      value?.type === "reference" ? [{ name: value.name, range: { start, end } }] : [],
    ),
  );
}

function told(fact: Fact, severity: "error" | "warning", message: string, help: string): TextProblem {
  const line = fact.property.block === undefined ? fact : factNamed(fact.facts, "state");
  const range = argument(line, "state") ?? head(fact.statement);
  return { rule: "state-contradiction", severity, start: range.start, end: range.end, message, help };
}
