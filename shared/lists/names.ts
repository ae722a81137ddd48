/** Names of a list as names of the language: one word, of letters that are what they look like. */
import { LATIN_LIKE_LETTERS } from "../format/look-alikes.js";

const LONGEST = 60;

/**
 * @param taken words that mean something else where the name would stand
 * @returns undefined where nothing of a name is left
 * @example asName("Keld quarry (old)") // "KELD-QUARRY-OLD" would shout: "Keld-quarry-old"
 */
export function asName(written: string, taken: ReadonlySet<string>): string | undefined {
  const mended = /\p{Script=Latin}/u.test(written)
    ? [...written].map((letter) => LATIN_LIKE_LETTERS[letter] ?? letter).join("")
    : written;
  const name = mended
    .replace(/(\d),(?=\d)/g, "$1.")
    .replace(/[^\p{L}\p{M}\p{N}_.+]+/gu, "-")
    .replace(/^[-.+]+|[-.]+$/g, "")
    .slice(0, LONGEST);
  if (name === "") return undefined;
  // A bare figure reads as one, and a word of the language as that word.
  return /^[\d.]+$/.test(name) || /^\d{4}-\d{2}-\d{2}$/.test(name) || taken.has(name)
    ? `S${name.match(/^\d/) ? "" : "-"}${name}`
    : name;
}

/** The name itself, or the first of it with a number behind that is free. */
export function freeName(name: string, isTaken: (name: string) => boolean): string {
  if (!isTaken(name)) return name;
  for (let number = 2; ; number++) if (!isTaken(`${name}-${number}`)) return `${name}-${number}`;
}
