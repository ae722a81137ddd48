/** Places where a browser may break what has none of its own: no column and no page grows by a word of somebody's. */

import { escaped } from "./markup.js";

/** Letters of a word that nobody breaks; figures, names of hops and long German words stay whole. */
const LONGEST_WHOLE = 28;

/** A mark above a letter stays with it, and so does what is joined into one sign. */
const PIECE = /(?:\P{M}[\p{M}\u200d]*|\p{M}){1,8}/gu;

/** Behind a hyphen a word breaks by itself where a letter follows. */
const PART = /(?<=-)(?=\p{L})/u;

/** Escaped, with a `<wbr>` wherever a line may break within a word that is longer than any of a language. */
export function breakable(text: string): string {
  return pieces(text).map(escaped).join("<wbr>");
}

function pieces(text: string): string[] {
  const all = [""];
  for (const run of text.split(/([ \t\n]+)/))
    for (const part of run.split(PART)) {
      const isLong = part.length > LONGEST_WHOLE && /[^ \t\n]/.test(part);
      const [first = "", ...others] = isLong ? (part.match(PIECE) ?? [part]) : [part];
      all[all.length - 1] += first;
      all.push(...others);
    }
  return all;
}
