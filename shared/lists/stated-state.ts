/** Whether a thing is built, planned or removed, as the words of a cell say it; common practice, no source. */
import { isDay } from "../design/day.js";
import { type State, type StateWord, stateWords } from "../design/state.js";
import { daysMeant, YEAR_FIRST, YEAR_LAST } from "../design/written-day.js";
import { short } from "./figures.js";
import { type Statement, statement } from "./state.js";

const WORDS: Readonly<Record<StateWord, readonly string[]>> = {
  built: ["built", "existing", "in service", "operational", "live", "active", "in betrieb"],
  planned: ["planned", "plan", "proposed", "future", "design", "new", "geplant"],
  removed: ["removed", "dismantled", "decommissioned", "retired", "abgebaut"],
};

const BY_WORD = (Object.keys(WORDS) as StateWord[])
  .flatMap((state) => WORDS[state].map((word) => [word, state] as const))
  .sort(([a], [b]) => b.length - a.length);

export type ReadState =
  | { readonly ok: true; readonly state: State }
  /** It begins as a state does, and its day cannot be read. */
  | { readonly ok: false; readonly reason: string }
  /** It is none; a column of that name may hold something else, such as a part of a country. */
  | undefined;

/** @example readState("geplant 1.3.2027") // planned 2027-03-01 */
export function readState(text: string): ReadState {
  const plain = text.trim();
  const lower = plain.toLowerCase();
  if (dayOf(plain) !== undefined)
    return {
      ok: false,
      reason: `${short(text)} is a day; whether it is built, planned or removed then, it does not say`,
    };
  const found = BY_WORD.find(
    ([word]) => lower === word || (/^[\s:,;(/-]/.test(plain.slice(word.length)) && lower.startsWith(word)),
  );
  if (!found) return undefined;
  const [written, word] = found;
  const behind = plain.slice(written.length).replace(/^[\s:,;(/-]+|[\s)]+$/g, "");
  if (!/\d/.test(behind)) return behind === "" ? { ok: true, state: { word } } : undefined;
  const [, from = "", until] = /^(.*?)(?:\s*\b(?:until|bis)\s+(.*))?$/i.exec(behind)!;
  const date = from === "" ? undefined : dayIn(from);
  const end = until === undefined ? undefined : dayIn(until);
  for (const day of [date, end]) if (day?.ok === false) return { ok: false, reason: day.reason };
  const days = { date: date?.ok ? date.day : undefined, until: end?.ok ? end.day : undefined };
  return {
    ok: true,
    state: { word, ...(days.date && { date: days.date }), ...(days.until && { until: days.until }) },
  };
}

type ReadDay = { readonly ok: true; readonly day: string } | { readonly ok: false; readonly reason: string };

function dayIn(written: string): ReadDay {
  const text = written.replace(/^(?:from|on|since|by|as of|ab|am|seit|zum)\s+|[.,;]$/gi, "");
  const days = dayOf(text);
  const [day, other] = days ?? [];
  if (other !== undefined)
    return { ok: false, reason: `${short(text)} may be ${day} and ${other}: write the one that is meant` };
  if (day !== undefined) return { ok: true, day };
  return {
    ok: false,
    reason: days
      ? `${short(text)} is not a day of the calendar`
      : `"${short(text)}" is no day that can be read; days are written as 2027-03-01`,
  };
}

/** @returns what it may be, none if it has the shape of a day and is none; undefined: it has not even that */
function dayOf(written: string): readonly string[] | undefined {
  const text = written.toLowerCase().replace(NO_TIME, "");
  if (YEAR_FIRST.test(text) || YEAR_LAST.test(text)) return daysMeant(text);
  const [, day, name, year] = DAY_FIRST.exec(text) ?? swapped(MONTH_FIRST.exec(text)) ?? [];
  const month =
    name === undefined ? -1 : MONTHS.findIndex((names) => names.some((one) => one.startsWith(name)));
  if (month < 0) return undefined;
  return [`${year}-${String(month + 1).padStart(2, "0")}-${day!.padStart(2, "0")}`].filter(isDay);
}

/** A spreadsheet writes a day that it holds with the hour at which it begins. */
const NO_TIME = /[t ]+0?0:00(?::00(?:\.0+)?)?z?$/;
const DAY_FIRST = /^(\d{1,2})[-. ]*(\p{L}{3,})[-., ]*(\d{4})$/u;
const MONTH_FIRST = /^(\p{L}{3,})[-. ]*(\d{1,2})[-., ]+(\d{4})$/u;

function swapped(found: readonly string[] | null): readonly string[] | undefined {
  return found ? [found[0]!, found[2]!, found[1]!, found[3]!] : undefined;
}

/** By three letters at least. */
const MONTHS: readonly (readonly string[])[] = [
  ["january", "januar", "jänner"],
  ["february", "februar"],
  ["march", "märz", "maerz"],
  ["april"],
  ["may", "mai"],
  ["june", "juni"],
  ["july", "juli"],
  ["august"],
  ["september", "sept"],
  ["october", "oktober"],
  ["november"],
  ["december", "dezember"],
];

export function stateStatement(state: State, known: State | undefined): Statement {
  const changed = known !== undefined && stateWords(known) === stateWords(state) ? undefined : true;
  return statement(
    "state",
    { name: "state", text: state.word, changed },
    state.date === undefined ? undefined : { name: "date", text: state.date, changed },
    state.until === undefined ? undefined : { name: "until", label: "until", text: state.until, changed },
  );
}
