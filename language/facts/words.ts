/** Reading of words that are a choice of the language. */
import { nearest } from "../../shared/format/nearest.js";
import type { LeftWord, ValueSpec } from "../schema/types.js";
import type { Atom } from "../syntax/tree.js";
import type { TextProblem } from "./fact.js";
import type { Reading } from "./reading.js";

type WordSpec = Extract<ValueSpec, { type: "word" }>;

/** Longest phrase first: `1+1 hot-standby two-antennas` before `1+1 hot-standby`. */
export function readWord({ words, left = {} }: WordSpec, atoms: readonly Atom[], at: number): Reading {
  for (let count = 3; count >= 1; count--) {
    const last = atoms[at + count - 1];
    if (!last) continue;
    const phrase = atoms
      .slice(at, at + count)
      .map((atom) => atom.text)
      .join(" ");
    if (Object.hasOwn(words, phrase)) return { value: { type: "word", word: phrase }, next: at + count };
  }
  const choices = Object.keys(words);
  const gone = whatLeft(left, atoms[at]!);
  if (gone) return { problem: gone, next: at + 1 };
  const otherCase = inOtherLetters(choices, atoms, at);
  if (otherCase) return otherCase;
  const rest = atoms.slice(at);
  const written = rest.map((atom) => atom.text).join(" ");
  // The more words agree, the fewer choices: `1+1 xpic` leaves two of all that begin with `1+1`.
  const sameStart =
    [2, 1]
      .filter((words) => words <= rest.length)
      .map((words) => rest.slice(0, words).map((atom) => atom.text))
      .map((begun) => choices.filter((choice) => choice.startsWith(`${begun.join(" ")} `)))
      .find((found) => found.length > 0) ?? [];
  const offered = sameStart.length > 0 ? sameStart : choices;
  const meant =
    nearest(written, offered) ?? (sameStart.length > 0 ? undefined : nearest(atoms[at]!.text, choices));
  // An ambiguous short form ("1+1") takes the whole rest with it; otherwise one word is wrong.
  const next = sameStart.length > 0 || choices.some((choice) => choice.includes(" ")) ? atoms.length : at + 1;
  const range = { start: atoms[at]!.start, end: atoms[next - 1]!.end };
  const problem: TextProblem = {
    rule: "unknown-choice",
    severity: "error",
    ...range,
    message:
      sameStart.length > 0
        ? severalMeant(written, sameStart, meant)
        : `${atoms[at]!.text} is not known here; ${meant ? `did you mean ${meant}? Possible: ` : "write one of: "}${offered.join(", ")}`,
    fixes: (meant ? [meant] : sameStart).map((choice) => ({
      title: `Write ${choice}`,
      ...range,
      newText: choice,
    })),
  };
  return { problem, next };
}

function severalMeant(written: string, choices: readonly string[], meant: string | undefined): string {
  if (meant) return `${written} is not known here; did you mean ${meant}? Possible: ${choices.join(", ")}`;
  return `${written} can mean several things; write one of: ${choices.join(", ")}`;
}

/** `2+0 XPIC` for `2+0 xpic`: what is meant is beyond doubt, and only that is told. */
function inOtherLetters(choices: readonly string[], atoms: readonly Atom[], at: number): Reading | undefined {
  for (let count = 3; count >= 1; count--) {
    const last = atoms[at + count - 1];
    if (!last) continue;
    const written = atoms
      .slice(at, at + count)
      .map((atom) => atom.text)
      .join(" ");
    const meant = choices.find((choice) => choice.toLowerCase() === written.toLowerCase());
    if (meant === undefined) continue;
    const range = { start: atoms[at]!.start, end: last.end };
    const problem: TextProblem = {
      rule: "unknown-choice",
      severity: "error",
      ...range,
      message: `${written} is not known here; did you mean ${meant}? Capital and small letters differ`,
      fixes: [{ title: `Write ${meant}`, ...range, newText: meant, certain: true }],
    };
    return { problem, next: at + count };
  }
  return undefined;
}

/** A word that was a choice once: what is to be done instead is known, and nothing else is guessed. */
function whatLeft(left: Readonly<Record<string, LeftWord>>, atom: Atom): TextProblem | undefined {
  if (!Object.hasOwn(left, atom.text)) return undefined;
  const told = left[atom.text]!;
  const range = { start: atom.start, end: atom.end };
  const problem = { rule: "unknown-choice", severity: "error", ...range } as const;
  if ("instead" in told)
    return { ...problem, message: `${atom.text} is no choice any more; ${told.instead}` };
  return {
    ...problem,
    message: `${atom.text} is no choice any more; write ${told.write}`,
    fixes: [{ title: `Write ${told.write}`, ...range, newText: told.write, certain: true }],
  };
}
