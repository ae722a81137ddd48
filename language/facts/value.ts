/** Reads one value out of the atoms of a statement, as one entry of the property table asks for it. */

import { nearest } from "../../shared/format/nearest.js";
import { type Dimension, findUnit, unitSymbols } from "../../shared/units/units.js";
import { listed } from "../../shared/words/lists.js";
import type { ReferenceSpec, TextSpec, ValueSpec } from "../schema/types.js";
import { type Atom, unquote } from "../syntax/tree.js";
import { readDate, resemblesDate } from "./date.js";
import type { TextFix, TextProblem, Value } from "./fact.js";
import { readPosition } from "./position.js";
import type { Reading } from "./reading.js";
import { otherSign, readingFixes, readings } from "./readings.js";
import { readWord } from "./words.js";

type QuantitySpec = Extract<ValueSpec, { type: "quantity" }>;

/** Whether an atom can begin a value of this kind at all; decides between alternatives and optional arguments. */
export function fits(spec: ValueSpec, atom: Atom): boolean {
  switch (spec.type) {
    case "quantity":
      return atom.kind === "number" || (atom.kind === "word" && GLUED.test(atom.text));
    case "number":
      return atom.kind === "number" || (atom.kind === "word" && /^[+\-−]?\d+,\d+$/.test(atom.text));
    case "text":
    case "path":
      return atom.kind === "string";
    case "date":
      return resemblesDate(atom);
    case "position":
      return atom.kind === "angle" || atom.kind === "number" || atom.kind === "word";
    case "word":
      // `10GE` is a word of the trade although it begins like a quantity.
      if (Object.hasOwn(spec.words, atom.text)) return true;
      return atom.kind === "word" && !/^[\d.]+(?![+\d])/.test(atom.text);
    default:
      return atom.kind === "word" || atom.kind === "number";
  }
}

/** @param labels words that announce another argument, so no misspelt units */
export function readValue(
  spec: ValueSpec,
  atoms: readonly Atom[],
  at: number,
  labels: ReadonlySet<string> = new Set(),
): Reading {
  const atom = atoms[at]!;
  const next = at + 1;
  switch (spec.type) {
    case "quantity":
      return readQuantity(spec, atoms, at, labels);
    case "number":
      return readRatio(spec, atoms, at) ?? { ...readNumber(spec, atom), next };
    case "word":
      return readWord(spec, atoms, at);
    case "free":
    case "name":
    case "rule":
      return { value: { type: spec.type, word: atom.text }, next };
    case "reference":
      if (spec.words && Object.hasOwn(spec.words, atom.text))
        return { value: { type: "word", word: atom.text }, next };
      return { value: referenceTo(spec, atom.text), next };
    case "text":
      return {
        value: { type: "text", text: unquote(atom.text) },
        next,
        problem: (spec.stands && standingForNothing(atom, spec.stands)) ?? lackingAll(atom, spec.oneOf),
      };
    case "path":
      return { value: { type: "path", text: unquote(atom.text) }, next };
    case "date":
      return { ...readDate(atom), next };
    case "position":
      return readPosition(atoms, at);
  }
}

function referenceTo({ kind, orKind }: ReferenceSpec, name: string): Value {
  return { type: "reference", kind, name, ...(orKind && { orKind }) };
}

/** A word in braces that would be printed as it is. */
function standingForNothing(
  { text, start }: Atom,
  stands: Readonly<Record<string, string>>,
): TextProblem | undefined {
  const found = [...text.matchAll(/\{([^{}]*)\}/g)].find((match) => !Object.hasOwn(stands, match[1]!));
  if (found === undefined) return undefined;
  const words = listed(Object.keys(stands).map((word) => `{${word}}`));
  const message = `${found[0]} stands for nothing; there are ${words}`;
  return outOfRange({ start: start + found.index, end: start + found.index + found[0].length }, message, []);
}

function lackingAll({ text, start, end }: Atom, oneOf: TextSpec["oneOf"]): TextProblem | undefined {
  if (oneOf === undefined || oneOf.words.some((word) => text.includes(`{${word}}`))) return undefined;
  const words = oneOf.words.map((word) => `{${word}}`).join(" or ");
  return outOfRange({ start, end }, `${oneOf.why}: say ${words}`, []);
}

/** How the kind of value is called in messages. */
export function describe(spec: ValueSpec): string {
  switch (spec.type) {
    case "quantity":
      return `${article(spec.dimension)} in ${listUnits(spec.dimension)}`;
    case "number":
      return "a number without a unit";
    case "word":
      return `one of ${Object.keys(spec.words).join(", ")}`;
    case "free":
      return `a word such as ${spec.example}`;
    case "name":
      return "a name";
    case "reference":
      return [
        `the name of ${article(spec.kind)}${spec.orKind ? ` or ${article(spec.orKind)}` : ""}`,
        ...Object.keys(spec.words ?? {}),
      ].join(" or ");
    case "text":
      return 'text in quotes ("...")';
    case "path":
      return 'a path in quotes ("...")';
    case "date":
      return "a date such as 2027-05-01";
    case "position":
      return `a latitude and a longitude such as 47.4534 -30.5808 or 47°27'12.4"N 30°34'51.0"W, or projected as utm 32 north 412345 E 5261234 N`;
    case "rule":
      return "the identifier of a rule";
  }
}

export function article(noun: string): string {
  return `${/^[aeiou]/.test(noun) ? "an" : "a"} ${noun}`;
}

const GLUED = /^([+\-−]?(?:\d+(?:[.,]\d*)?|\.\d+)(?:[eE][+-]?\d+)?)(\D.*)?$/;

function readQuantity(
  spec: QuantitySpec,
  atoms: readonly Atom[],
  at: number,
  labels: ReadonlySet<string>,
): Reading {
  const atom = atoms[at]!;
  const glued = GLUED.exec(atom.text);
  const digits = glued?.[1] ?? atom.text;
  if (digits.includes(",")) return { problem: commaProblem(atom, digits), next: at + (glued?.[2] ? 1 : 2) };
  const following = atoms[at + 1];
  const unitText = glued?.[2] ?? (following?.kind === "word" ? following.text : undefined);
  const next = glued?.[2] || unitText === undefined ? at + 1 : at + 2;
  const number = toNumber(digits);
  const found = unitText === undefined ? undefined : findUnit(unitText, spec.dimension);
  const range = { start: atom.start, end: atoms[next - 1]!.end };
  if (!found) {
    const unitStart = glued?.[2] ? atom.end - glued[2].length : following?.start;
    if (unitText === undefined || unitStart === undefined || labels.has(unitText))
      return { next: at + 1, problem: withoutUnit(spec, digits, atom) };
    const problem = unknownUnit(spec, digits, unitText, { ...range, unitStart });
    return { next, problem };
  }
  if (found.dimension !== spec.dimension) {
    return {
      next,
      problem: {
        rule: "wrong-dimension",
        severity: "error",
        ...range,
        message: `${digits} ${unitText} is ${article(found.dimension)}, but ${article(spec.dimension)} is wanted here: ${listUnits(spec.dimension)}`,
        fixes: readingFixes(possible(spec, digits), range),
      },
    };
  }
  const base = found.unit.toBase(number);
  const value: Value = { type: "quantity", base, dimension: spec.dimension, unit: found.unit.symbol };
  const message = limitMessage(spec, base, `${digits} ${unitText}`);
  if (!message) return { next, value };
  const meant = possible(spec, digits, found.unit.symbol);
  return { next, problem: outOfRange(range, message, readingFixes(meant, range)) };
}

function withoutUnit(spec: QuantitySpec, digits: string, { start, end }: Atom): TextProblem {
  return {
    rule: "unit-missing",
    severity: "error",
    start,
    end,
    message: `${digits} needs a unit; ${article(spec.dimension)} is written in ${listUnits(spec.dimension)}`,
    fixes: readingFixes(possible(spec, digits), { start, end }),
  };
}

function unknownUnit(
  spec: QuantitySpec,
  digits: string,
  unitText: string,
  { start, end, unitStart }: { readonly start: number; readonly end: number; readonly unitStart: number },
): TextProblem {
  const symbols = unitSymbols(spec.dimension);
  const inOtherLetters = symbols.filter((symbol) => symbol.toLowerCase() === unitText.toLowerCase());
  const certain = inOtherLetters.length === 1;
  const near = certain ? inOtherLetters[0] : nearest(unitText, symbols);
  const written = near === undefined ? [] : [`${digits} ${near}`].filter((one) => isPossible(spec, one));
  const others = certain ? [] : possible(spec, digits);
  const [first, ...rest] = readingFixes([...new Set([...written, ...others])], { start, end });
  return {
    rule: "unit-missing",
    severity: "error",
    start: unitStart,
    end,
    message: `${unitText} is not a unit; ${article(spec.dimension)} is written in ${listUnits(spec.dimension)}`,
    fixes: first === undefined ? [] : [certain ? { ...first, certain } : first, ...rest],
  };
}

/** What the figure may have been meant as, without what the limits refuse. */
function possible(spec: QuantitySpec, digits: string, unit?: string): readonly string[] {
  return readings(spec, digits, unit).filter((written) => isPossible(spec, written));
}

function isPossible(spec: QuantitySpec, written: string): boolean {
  const [digits, unit] = written.split(" ") as [string, string];
  const base = findUnit(unit, spec.dimension)!.unit.toBase(toNumber(digits));
  return limitMessage(spec, base, written) === undefined;
}

function outOfRange(
  range: { readonly start: number; readonly end: number },
  message: string,
  fixes: readonly TextFix[],
): TextProblem {
  const [likeliest] = fixes;
  const hint = likeliest === undefined ? "" : `; is ${likeliest.newText} meant?`;
  return { rule: "value-range", severity: "error", ...range, message: `${message}${hint}`, fixes };
}

function listUnits(dimension: Dimension): string {
  return unitSymbols(dimension).join(", ");
}

export function limitMessage(spec: QuantitySpec, base: number, written: string): string | undefined {
  const message = brokenLimit(spec, base, written);
  return message === undefined || spec.because === undefined ? message : `${message}: ${spec.because}`;
}

function brokenLimit(spec: QuantitySpec, base: number, written: string): string | undefined {
  if (!Number.isFinite(base)) return `${written} is not a possible ${spec.dimension}`;
  const limit = (limitWritten: string) => limitOf(limitWritten, spec.dimension);
  if (spec.above !== undefined && base <= limit(spec.above))
    return `${written} is not possible; it must be above ${spec.above}`;
  if (spec.below !== undefined && base >= limit(spec.below))
    return `${written} is not possible; it must be below ${spec.below}`;
  if (spec.min !== undefined && base < limit(spec.min) - rounding(limit(spec.min)))
    return `${written} is not possible; the least is ${spec.min}`;
  if (spec.max !== undefined && base > limit(spec.max) + rounding(limit(spec.max)))
    return `${written} is not possible; the most is ${spec.max}`;
  return undefined;
}

const limits = new Map<string, number>();

function limitOf(written: string, dimension: Dimension): number {
  const key = `${dimension} ${written}`;
  let base = limits.get(key);
  if (base === undefined) {
    const [number, unit] = written.split(" ") as [string, string];
    base = findUnit(unit, dimension)!.unit.toBase(Number(number));
    limits.set(key, base);
  }
  return base;
}

/** 24000 mm must not fail a limit of 24 m by the last bit. */
function rounding(limit: number): number {
  return Math.abs(limit) * 1e-12;
}

function readNumber(spec: Extract<ValueSpec, { type: "number" }>, atom: Atom): Omit<Reading, "next"> {
  const range = { start: atom.start, end: atom.end };
  const fail = (message: string, written: readonly string[] = []): Omit<Reading, "next"> => ({
    problem: outOfRange(range, message, readingFixes(written, range)),
  });
  if (atom.text.includes(",")) return { problem: commaProblem(atom, atom.text) };
  const number = toNumber(atom.text);
  if (!Number.isFinite(number)) return fail(`${atom.text} is not a number that can be used`);
  if (spec.integer && !Number.isInteger(number)) return fail(`${atom.text} is not a whole number`);
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = spec;
  const turned = -number >= min && -number <= max ? [otherSign(atom.text)] : [];
  if (number < min) return fail(`${atom.text} is not possible; the least is ${min}`, turned);
  if (number > max) return fail(`${atom.text} is not possible; the most is ${max}`, turned);
  return { value: { type: "number", number } };
}

function commaProblem(atom: Atom, digits: string): TextProblem {
  const point = digits.replace(",", ".");
  // Three digits behind it may be thousands.
  const thousands = /,\d{3}$/.test(digits) ? [digits.replace(",", "")] : [];
  const range = { start: atom.start, end: atom.start + digits.length };
  const [first, ...others] = readingFixes([point, ...thousands], range);
  return {
    rule: "value-range",
    severity: "error",
    start: atom.start,
    end: atom.end,
    message: `${digits} has a decimal comma; write ${point}`,
    fixes: others.length > 0 ? [first!, ...others] : [{ ...first!, certain: true }],
  };
}

/** The trade writes k as `4/3`. Behind such a number no argument is parted by a slash. */
function readRatio(
  spec: Extract<ValueSpec, { type: "number" }>,
  atoms: readonly Atom[],
  at: number,
): Reading | undefined {
  const [over, slash, under] = atoms.slice(at, at + 3);
  if (spec.integer || slash?.kind !== "slash" || under?.kind !== "number") return undefined;
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = spec;
  const number = toNumber(over!.text) / toNumber(under.text);
  const next = at + 3;
  if (number >= min && number <= max) return { value: { type: "number", number }, next };
  const message = `${over!.text}/${under.text} is not possible; it must lie from ${min} to ${max}`;
  return { problem: outOfRange({ start: over!.start, end: under.end }, message, []), next };
}

function toNumber(digits: string): number {
  return Number(digits.replace("−", "-"));
}
