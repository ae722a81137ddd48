/** Texts changed as careless hands, half-done merges and strangers change them. */
import { RULES } from "../../shared/rules/index.js";
import { UNITS } from "../../shared/units/units.js";
import { SAMPLE_TEXTS } from "../support/reworded.js";
import type { Chance } from "./chance.js";

/** Lines of the samples and of the examples of all rules. */
const LINES = [
  ...new Set(
    [...SAMPLE_TEXTS.values(), ...[...RULES.values()].flatMap(({ good, bad }) => [good, bad])].flatMap(
      (text) => text.split("\n").filter((line) => line.trim() !== ""),
    ),
  ),
];
const WORD = /[A-Za-z][\w+-]*/g;
const WORDS = [...new Set(LINES.flatMap((line) => line.match(WORD) ?? []))];
const FEW_NAMES = ["KELD", "TARN", "R18", "DISH60-18", "trunk"];
const SYMBOLS = [
  ...new Set(Object.values(UNITS).flatMap((units) => units.map(({ symbol }) => symbol))),
  "furlong",
  "M",
  "",
];

const NUMBERS = [
  "0", "-0", "1", "-1", "0.0", "1e308", "-1e308", "1e-320", "1e999", "999999999999", "-273.15", "90", "-90", "180", "360",
  "0.1", "0.30000000000000004", "1.", ".5", "1e5", "1,5", "1'000", "0x10", "9007199254740993", "1".repeat(400), `0.${"0".repeat(300)}1`,
]; // biome-ignore format: a list
const ODD = [
  "\u0007", "\u001b[31m", "\ufeff", "\u202e", "\u200b", "\u0391", "\ud800", "\u{1f4e1}", "\u00a0", "\u2028", "\u0085", "\t", "\\", "é", "%", "::", "]]>", "|", "`", "<b>",
]; // biome-ignore format: a list
const MARKS = ["{", "}", "{ }", '"', "'", ";", "/*", "*/", "//", "/", ",", "(", "°", "\\", "#", "="];

type Mutation = (text: string, chance: Chance) => string;

/** Every kind of change; a case has some of them only. */
export const MUTATIONS: Readonly<Record<string, Mutation>> = {
  number: (text, chance) => replaceOne(text, /-?\d+(?:\.\d+)?/g, chance, (old) => oddNumber(old, chance)),
  figure: (text, chance) =>
    replaceOne(text, /-?\d+(?:\.\d+)?/g, chance, (old) =>
      String(Number(old) * chance.of([0.1, 0.5, 0.99, 1.01, 2, 10, -1])),
    ),
  unit: (text, chance) => replaceOne(text, /(?<=\d )[A-Za-z%][\w/%]*/g, chance, () => chance.of(SYMBOLS)),
  name: (text, chance) => replaceOne(text, /\b[A-Z][A-Z0-9][\w-]*/g, chance, () => chance.of(FEW_NAMES)),
  word: (text, chance) => replaceOne(text, WORD, chance, () => chance.of(WORDS)),
  everywhere(text, chance) {
    const words = text.match(WORD) ?? [];
    return words.length === 0 ? text : text.replaceAll(chance.of(words), () => chance.of(WORDS));
  },
  double: lines((all, at) => all.toSpliced(at, 0, all[at]!)),
  drop: lines((all, at, chance) => all.toSpliced(at, 1 + chance.below(3))),
  exchange: lines((all, at, chance) => {
    const other = chance.below(all.length);
    return all.with(at, all[other]!).with(other, all[at]!);
  }),
  foreign: lines((all, at, chance) => all.toSpliced(at, 0, chance.of(LINES))),
  instead: lines((all, at, chance) => all.with(at, chance.of(LINES))),
  mark: (text, chance) => put(text, chance, chance.of(MARKS)),
  odd: (text, chance) => put(text, chance, chance.of(ODD)),
  cut: (text, chance) => (chance.likely(0.3) ? text.slice(0, chance.below(text.length + 1)) : text),
  bite(text, chance) {
    const from = chance.below(text.length + 1);
    return text.slice(0, from) + text.slice(from + chance.below(40));
  },
  lineEnds: (text, chance) => text.replaceAll("\n", chance.of(["\r\n", "\r", "\n\r", "\u2028"])),
  conflict: lines((all, at, chance) => [
    ...all.slice(0, at),
    "<<<<<<< ours",
    all[at]!,
    "=======",
    chance.of(LINES),
    ">>>>>>> theirs",
    ...all.slice(at + 1),
  ]),
  deep: (text, chance) =>
    put(text, chance, `${chance.of(["KELD { ", "{", "radio { ", "/* "])}`.repeat(2 ** chance.below(11))),
  long: (text, chance) =>
    put(text, chance, chance.of(["x", " ", "9", "{}", '"', "KELD ", "1 m "]).repeat(2 ** chance.below(13))),
  often: lines((all, at, chance) =>
    all.toSpliced(at, 0, ...Array<string>(2 ** chance.below(8)).fill(all[at]!)),
  ),
};

/** Those that leave most of a text as it was. */
export const GENTLE: readonly string[] = [
  "number",
  "figure",
  "unit",
  "name",
  "word",
  "double",
  "drop",
  "exchange",
  "foreign",
  "instead",
];

/** Lines made long and then doubled a hundred times would outgrow any memory: a change that makes more is left out. */
const LONGEST_TEXT = 200_000;

export function mutated(text: string, kinds: readonly string[], times: number, chance: Chance): string {
  let now = text;
  for (let i = 0; i < times; i++) {
    const next = MUTATIONS[chance.of(kinds)]!(now, chance);
    if (next.length <= Math.max(LONGEST_TEXT, now.length)) now = next;
  }
  return now;
}

function oddNumber(old: string, chance: Chance): string {
  return chance.likely(0.5) ? chance.of(NUMBERS) : `${old}${chance.of(["0", "00", ".5", "e3", "e-9", "-"])}`;
}

function replaceOne(text: string, pattern: RegExp, chance: Chance, by: (old: string) => string): string {
  const found = [...text.matchAll(pattern)];
  if (found.length === 0) return text;
  const { 0: old, index } = chance.of(found);
  return text.slice(0, index) + by(old) + text.slice(index + old.length);
}

function lines(change: (all: readonly string[], at: number, chance: Chance) => readonly string[]): Mutation {
  return (text, chance) => {
    const all = text.split("\n");
    return change(all, chance.below(all.length), chance).join("\n");
  };
}

function put(text: string, chance: Chance, what: string): string {
  const at = chance.below(text.length + 1);
  return text.slice(0, at) + what + text.slice(at);
}
