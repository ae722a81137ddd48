/** Runs of text as a PDF sets them. */
import { withoutSteering } from "../../../format/steering.js";
import { type Inline, type Span, spansOf, type Tone } from "../document.js";
import { PRINT } from "../palette.js";
import { typeset } from "../typeset.js";
import type { TextNode, TextPart } from "./nodes.js";

/** Letters in points, about as large as a browser prints the page. */
export const SIZE = {
  title: 16,
  heading: 10.5,
  key: 13,
  text: 8.2,
  table: 7.7,
  wide: 6.8,
  small: 7.2,
  least: 6.5,
} as const;

/** Beside the word, so that paper without colours says the same. */
const TONE_SIGN: Readonly<Record<Tone, string>> = {
  good: "✓",
  error: "✗",
  warning: "▲",
  info: "●",
  accepted: "◆",
  unjudged: "○",
};

export function partsOf(text: Inline, bold?: boolean): TextPart[] {
  return spansOf(text).map((span) => partOf(span, bold));
}

export function textNode(
  text: Inline,
  fontSize: number,
  more: Partial<TextNode> & { bold?: true } = {},
): TextNode {
  const { bold, ...rest } = more;
  return { text: partsOf(text, bold), fontSize, ...rest };
}

export function quiet(text: string, fontSize: number = SIZE.small, more: Partial<TextNode> = {}): TextNode {
  return { text: [{ text: plain(text), color: PRINT.quiet }], fontSize, ...more };
}

export function toned(text: string, tone: Tone): TextPart {
  return { text: `${TONE_SIGN[tone]}\u00a0${plain(text)}`, bold: true, color: PRINT[tone] };
}

function partOf(span: Span, bold: boolean | undefined): TextPart {
  const more = bold ? ({ bold } as const) : {};
  if (typeof span === "string") return { text: plain(span), ...more };
  const { text, mark } = span;
  switch (mark) {
    case undefined:
      return { text: plain(text), ...more };
    case "strong":
      return { text: plain(text), bold: true };
    case "code":
      return { text: plain(text), background: PRINT.panel, ...more };
    case "quiet":
      return { text: plain(text), color: PRINT.quiet, ...more };
    default:
      return toned(text, mark);
  }
}

/**
 * Lone halves of characters and what steers a reader do not come in. Blanks are one, as on a page: the layout sets a
 * line that it breaks within a word further right by as many as end the word.
 */
export function plain(text: string): string {
  return typeset(withoutSteering(text.toWellFormed(), () => " ").replace(/ {2,}/g, " "));
}

/** Of a section. A library that looks names up in a list would find its methods under `map` or `find`. */
export function placeOf(id: string): string {
  return `at-${id}`;
}
