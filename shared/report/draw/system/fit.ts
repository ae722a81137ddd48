/** Words that must stay inside a width: broken at spaces and hyphens, then cut with an ellipsis; the whole is kept beside. */
import { textWidth } from "../labels.js";

export type TextStyle = "strong" | "plain" | "quiet";

export interface Words {
  readonly text: string;
  readonly style?: TextStyle;
}

/** Sizes of type, in units of the sheet. */
const SIZE: Readonly<Record<TextStyle, number>> = { strong: 12, plain: 12, quiet: 11 };

const ELLIPSIS = "\u2026";

/** Longer ones are no words: nobody reads them in a drawing, and measuring them would take its time. */
const LONGEST_MEASURED = 300;

export function sizeOf(style: TextStyle = "plain"): number {
  return SIZE[style];
}

export function widthOf({ text, style = "plain" }: Words): number {
  return (textWidth(text, style === "strong") * SIZE[style]) / 12;
}

/** @returns the text, or as much of it as has room, with an ellipsis */
function cut(words: Words, width: number): string {
  const signs = [...words.text].slice(0, LONGEST_MEASURED);
  const whole = signs.join("");
  if (whole === words.text && widthOf(words) <= width) return whole;
  let low = 0;
  let high = signs.length;
  const cutAt = (count: number) => `${signs.slice(0, count).join("").trimEnd()}${ELLIPSIS}`;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (widthOf({ ...words, text: cutAt(middle) }) <= width) low = middle;
    else high = middle - 1;
  }
  return cutAt(low);
}

/** A line that fits; `title` is the whole where it is cut. */
export interface Fitted extends Words {
  readonly title?: string;
}

/** In lines of a width; what does not fit into the last is cut. */
export function broken<W extends Words>(words: W, width: number, mostLines = 2): (W & Fitted)[] {
  const lines: (W & Fitted)[] = [];
  let rest = words.text;
  while (lines.length < mostLines - 1 && !fits(rest, words, width)) {
    const at = lastBreak(rest, words, width);
    if (at === undefined) break;
    lines.push({ ...words, text: rest.slice(0, at) });
    rest = rest.slice(at).trimStart();
  }
  const text = cut({ ...words, text: rest }, width);
  return [...lines, { ...words, text, ...(text !== rest && { title: words.text }) }];
}

function fits(text: string, words: Words, width: number): boolean {
  return text.length <= LONGEST_MEASURED && widthOf({ ...words, text }) <= width;
}

/** Words that no line parts: a figure and its unit. */
export function whole(text: string): string {
  return text.replaceAll(" ", "\u00a0");
}

/** Behind a space, or behind a hyphen within a name. */
function lastBreak(text: string, words: Words, width: number): number | undefined {
  let last: number | undefined;
  for (const { index, 0: sign } of text.matchAll(/(?<=\S) |(?<=[^\s-])-(?=[^\s-])/g)) {
    const at = sign === " " ? index : index + 1;
    if (!fits(text.slice(0, at), words, width)) break;
    last = at;
  }
  return last;
}
