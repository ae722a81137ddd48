/** What is told where a statement cannot be read whole, and what would mend it. */
import { intersection, spanOf, spanWords } from "../../shared/design/state.js";
import { nearest } from "../../shared/format/nearest.js";
import { alternatives, contextsOf, propertiesOf, propertyAlsoCalled } from "../schema/index.js";
import type { ArgSpec, Context, Property } from "../schema/types.js";
import { type Atom, head } from "../syntax/tree.js";
import type { Fact, TextProblem } from "./fact.js";
import { stateOf } from "./states.js";
import { article, describe } from "./value.js";

export function doubledFact(fact: Fact, first: Fact): TextProblem {
  const word = head(fact.statement);
  const times = bothStand(fact, first);
  if (times) return { ...times, start: word.start, end: word.end };
  return {
    rule: "doubled-fact",
    severity: "error",
    start: word.start,
    end: word.end,
    message: `${word.text} is stated twice in this block; the first one counts`,
    help: "remove one of the two",
  };
}

/** What replaces another is written beside it, where the other one ends when it begins. */
function bothStand(fact: Fact, first: Fact): Omit<TextProblem, "start" | "end"> | undefined {
  const [one, other] = [first, fact].map(stateOf);
  if (one === undefined && other === undefined) return undefined;
  const is = spanOf(other);
  const both = intersection(spanOf(one), is);
  const word = head(fact.statement).text;
  const { end } = first.statement;
  return {
    rule: "doubled-fact",
    severity: "error",
    message: `${word} is stated twice ${spanWords(both) || "at all times"}; the first one counts`,
    help:
      word === "state"
        ? "say it in one line, for example: state planned 2027-03-01 until 2028-01-01"
        : "let the first end when the second begins",
    fixes:
      one === undefined && is.from === both.from && other?.date !== undefined
        ? [
            {
              title: `Write that the first is removed ${other.date}`,
              start: end,
              end,
              newText: ` state removed ${other.date}`,
            },
          ]
        : undefined,
  };
}

/** What a fix writes where something has to be chosen. */
export const OPEN = "?";

const FEW = 6;

export function unfinished(property: Property, spec: ArgSpec, start: number, end: number): TextProblem {
  const [value] = alternatives(spec);
  const words = value?.type === "word" ? Object.keys(value.words) : [];
  return {
    rule: "unfinished",
    severity: "info",
    start,
    end,
    message: `${property.name} is not finished: ${describe(value!)} goes here`,
    help: `for example: ${property.example}`,
    fixes: (words.length <= FEW ? words : []).map((newText) => ({
      title: `Write ${newText}`,
      start,
      end,
      newText,
    })),
  };
}

/** `channel F.595/55 MHz/3`: without blanks the words run together, and every complaint about them would mislead. */
export function gluedSlash(
  property: Property,
  atoms: readonly Atom[],
  from: number,
): TextProblem | undefined {
  if (!property.args.some(({ slash }) => slash)) return undefined;
  const stated = atoms.slice(from);
  if (!stated.some(({ kind, text }) => kind !== "slash" && kind !== "string" && text.includes("/")))
    return undefined;
  const newText = stated
    .map(({ text }) => text)
    .join(" ")
    .replace(/\s*\/\s*/g, " / ")
    .trim();
  const range = { start: stated[0]!.start, end: stated.at(-1)!.end };
  return {
    rule: "unexpected-value",
    severity: "error",
    ...range,
    message: `put blanks around each /: ${property.name} ${newText}`,
    fixes: [{ title: `Write ${newText}`, ...range, newText, certain: true }],
  };
}

export function unexpected(
  property: Property,
  atoms: readonly Atom[],
  at: number,
  taken: ReadonlySet<ArgSpec>,
): TextProblem {
  const atom = atoms[at]!;
  const open = property.args.filter((spec) => !taken.has(spec));
  const labels = open.flatMap(({ label }) => label ?? []);
  const next = open.flatMap((spec) => spec.label ?? describe(alternatives(spec)[0]!));
  const meant = atom.kind === "word" ? nearest(atom.text, labels) : undefined;
  return {
    rule: "unexpected-value",
    severity: "error",
    start: atom.start,
    end: atoms.at(-1)!.end,
    message:
      next.length > 0
        ? `${atom.text} is not expected here; ${property.name} may go on with ${next.join(", ")}`
        : `${atom.text} is not expected here; ${property.name} ends before it`,
    help: `for example: ${property.example}`,
    fixes: meant ? [{ title: `Write ${meant}`, start: atom.start, end: atom.end, newText: meant }] : [],
  };
}

export function unknownWord(word: Atom, context: Context): TextProblem {
  const known = propertiesOf(context).map((property) => property.name);
  const called = calledHere(context, word.text);
  const meant = called ?? nearest(word.text, known);
  const elsewhere = contextsOf(word.text);
  const place = context === "file" ? "at the left margin" : `in ${article(context)}`;
  if (elsewhere.length > 0 && !called) {
    const where = [...new Set(elsewhere)].map((other) =>
      other === "file" ? "at the left margin" : `in ${article(other)}`,
    );
    return problem(
      "misplaced",
      word,
      `${word.text} does not stand ${place}; it belongs ${where.join(" or ")}`,
    );
  }
  return {
    ...problem(
      "unknown-word",
      word,
      `${word.text} is not known ${place}${meant ? `; did you mean ${meant}?` : ""}`,
    ),
    help: meant ? undefined : `known here: ${known.join(", ")}`,
    fixes: meant
      ? [
          {
            title: `Write ${meant}`,
            start: word.start,
            end: word.end,
            newText: meant,
            certain: onlyMeant(word.text, known),
          },
        ]
      : [],
  };
}

/** Whether one word alone is near: letters exchanged, one too many, one lost. */
function onlyMeant(written: string, known: readonly string[]): true | undefined {
  const first = nearest(written, known);
  const next = nearest(
    written,
    known.filter((word) => word !== first),
  );
  return first !== undefined && next === undefined ? true : undefined;
}

/** What a word of the trade is here; a word that is a choice of the property (`tower`) stays behind its name. */
function calledHere(context: Context, word: string): string | undefined {
  const property = propertyAlsoCalled(context, word);
  const first = property?.args[0];
  if (!property || !first) return property?.name;
  const isChoice = alternatives(first).some(
    (spec) => spec.type === "word" && Object.hasOwn(spec.words, word),
  );
  return isChoice ? `${property.name} ${word}` : property.name;
}

export function problem(rule: TextProblem["rule"], atom: Atom, message: string): TextProblem {
  return { rule, severity: "error", start: atom.start, end: atom.end, message };
}
