/** Whether a thing is built, planned or removed, as the words of a cell say it; common practice, no source. */
import { isDay } from "../design/day.js";
import { type State, type StateWord, stateWords } from "../design/state.js";
import { type Statement, statement } from "./state.js";

const WORDS: Readonly<Record<StateWord, readonly string[]>> = {
  built: ["built", "existing", "in service", "operational", "live", "active", "in betrieb"],
  planned: ["planned", "plan", "proposed", "future", "design", "new", "geplant"],
  removed: ["removed", "dismantled", "decommissioned", "retired", "abgebaut"],
};

/** @returns undefined for other words: a column of that name may hold something else, such as a part of a country */
export function stateIn(text: string): State | undefined {
  const shape = /^([a-z ]+?)(?:\s+(\d{4}-\d{2}-\d{2}))?(?:\s+until\s+(\d{4}-\d{2}-\d{2}))?$/i.exec(
    text.trim(),
  );
  if (!shape) return undefined;
  const [, written, date, until] = shape as unknown as readonly [string, string, ...(string | undefined)[]];
  const word = (Object.keys(WORDS) as StateWord[]).find((one) => WORDS[one].includes(written.toLowerCase()));
  if (word === undefined || ![date, until].every((one) => one === undefined || isDay(one))) return undefined;
  return { word, ...(date && { date }), ...(until && word !== "removed" && { until }) };
}

export function stateStatement(state: State, known: State | undefined): Statement {
  const changed = known !== undefined && stateWords(known) === stateWords(state) ? undefined : true;
  return statement(
    "state",
    { name: "state", text: state.word, changed },
    state.date === undefined ? undefined : { name: "date", text: state.date, changed },
    state.until === undefined ? undefined : { name: "until", label: "until", text: state.until, changed },
  );
}
