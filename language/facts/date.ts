/** Days are written year-month-day. Other ways to write one are known again, and never taken for a day. */
import { isDay } from "../../shared/design/day.js";
import { daysMeant, YEAR_FIRST, YEAR_LAST } from "../../shared/design/written-day.js";
import type { Atom } from "../syntax/tree.js";
import type { TextFix } from "./fact.js";
import type { Reading } from "./reading.js";

const ISO = /^\d{4}-\d{2}-\d{2}$/;
const SHORT = /^\d{1,2}([-./])\d{1,2}\1\d{1,2}$/;
const MONTH = /^\d{4}[-/]\d{1,2}$/;

/** Whether somebody meant a day by it, however it is written. */
export function resemblesDate({ text }: Pick<Atom, "text">): boolean {
  return (
    ISO.test(text) || YEAR_FIRST.test(text) || YEAR_LAST.test(text) || MONTH.test(text) || SHORT.test(text)
  );
}

/** The same atoms, where figures run together by strokes are one: `31/12/2027`. */
export function withDates(atoms: readonly Atom[]): readonly Atom[] {
  const joined: Atom[] = [];
  for (let at = 0; at < atoms.length; at++) {
    const parts = atoms.slice(at, at + 5);
    const glued = parts.every(({ start }, i) => i === 0 || start === parts[i - 1]!.end);
    const text = parts.map((one) => one.text).join("");
    if (!glued || !resemblesDate({ text })) joined.push(atoms[at]!);
    else {
      joined.push({ kind: "date", text, start: parts[0]!.start, end: parts.at(-1)!.end });
      at += parts.length - 1;
    }
  }
  return joined;
}

export function readDate({ text, start, end }: Atom): Omit<Reading, "next"> {
  if (isDay(text)) return { value: { type: "date", date: text } };
  const days = daysMeant(text);
  const written = "dates are written year-month-day, for example 2027-05-01";
  const message = MONTH.test(text)
    ? `${text} names no day; ${written}`
    : ISO.test(text) || days.length === 0
      ? `${text} is not a day of the calendar; ${written}`
      : `${text} is not written as dates are here; ${written}`;
  const fixes = days.map((newText): TextFix => ({ title: `Write ${newText}`, start, end, newText }));
  return { problem: { rule: "value-range", severity: "error", start, end, message, fixes } };
}
