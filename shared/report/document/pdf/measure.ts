/** How much room words take, so that columns have widths in which figures do not break, and what is kept whole fits. */
import type { Node, TextPart } from "./nodes.js";

/** Of a run of text set at one point. */
export type Measure = (text: string, bold: boolean) => number;

/** Of lines over each other, as a share of the size of letters. */
const LINE = 1.35;

export function widthOf(parts: readonly TextPart[], fontSize: number, measure: Measure): number {
  return parts.reduce((sum, { text, bold }) => sum + measure(text, bold === true), 0) * fontSize;
}

/** Of the longest part that does not break. */
export function longestWord(parts: readonly TextPart[], fontSize: number, measure: Measure): number {
  let longest = 0;
  let open = 0;
  for (const { text, bold } of parts) {
    const words = text.split(/[ \t\n]/);
    words.forEach((word, index) => {
      const width = measure(word, bold === true);
      open = index === 0 ? open + width : width;
      longest = Math.max(longest, open);
    });
  }
  return longest * fontSize;
}

/** More rather than less: words break where they break, and lines are not filled. */
const UNFILLED = 1.25;

/** @returns points that a node takes at most, but for what nobody would write */
export function heightOf(node: Node, width: number, measure: Measure): number {
  const [left, top, right, bottom] = node.margin ?? [0, 0, 0, 0];
  return top + bottom + bareHeight(node, Math.max(1, width - left - right), measure);
}

function bareHeight(node: Node, width: number, measure: Measure): number {
  if ("text" in node) {
    const { fontSize, text } = node;
    const lines = Math.max(1, Math.ceil((widthOf(text, fontSize, measure) * UNFILLED) / width));
    return lines * fontSize * LINE;
  }
  if ("stack" in node) return sumOf(node.stack, width, measure);
  if ("ul" in node) return sumOf(node.ul, width - 12, measure);
  if ("svg" in node) return node.fit[1];
  if ("image" in node) return node.height;
  if ("pageReference" in node) return node.fontSize * LINE;
  if ("columns" in node)
    return Math.max(...node.columns.map((column) => heightOf(column, column.width ?? width, measure)));
  const { body, widths, heights = 0 } = node.table;
  return body.reduce((sum, row) => sum + Math.max(heights, rowHeight(row, widths, measure)), 0);
}

function sumOf(nodes: readonly Node[], width: number, measure: Measure): number {
  return nodes.reduce((sum, one) => sum + heightOf(one, width, measure), 0);
}

const ROW_PADDING = 6;

export function rowHeight(row: readonly Node[], widths: readonly number[], measure: Measure): number {
  return ROW_PADDING + Math.max(...row.map((cell, at) => heightOf(cell, widths[at]!, measure)));
}
