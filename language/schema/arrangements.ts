import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";

/** Arrangements as the language names them, each with its meaning. */
export const ARRANGEMENT_WORDS: Readonly<Record<string, string>> = Object.fromEntries(
  ARRANGEMENTS.map((facts) => [facts.name, facts.title]),
);
