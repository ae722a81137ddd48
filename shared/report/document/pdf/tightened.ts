/** A document with everything a little lower, for one whose last words would open a side of their own. */
import type { Margin, Node, PdfDocument } from "./nodes.js";
import { SIZE } from "./spans.js";

/** Letters of usual tables stay above 7 points. */
const FACTOR = 0.92;

/** Widths stay: what fitted into a line fits into it all the more. */
export function tightened(document: PdfDocument): PdfDocument {
  return { ...document, content: document.content.map(lower) };
}

function lower<N extends Node>(node: N): N {
  const margin = node.margin && { margin: lowerMargin(node.margin) };
  return { ...node, ...margin, ...(inside(node) as Partial<N>) };
}

function inside(node: Node): Partial<Node> {
  if ("text" in node || "pageReference" in node) return { fontSize: lowerSize(node.fontSize) };
  if ("stack" in node) return { stack: node.stack.map(lower) };
  if ("ul" in node) return { ul: node.ul.map(lower) };
  if ("columns" in node) return { columns: node.columns.map(lower) };
  if ("svg" in node) return { fit: [node.fit[0] * FACTOR, node.fit[1] * FACTOR] };
  // A picture is somebody's own.
  if ("image" in node) return {};
  const { table } = node;
  const heights = table.heights === undefined ? {} : { heights: table.heights * FACTOR };
  return { table: { ...table, ...heights, body: table.body.map((row) => row.map(lower)) } };
}

/** No smaller than tables are set at the least. */
function lowerSize(fontSize: number): number {
  return Math.max(fontSize * FACTOR, Math.min(fontSize, SIZE.least));
}

function lowerMargin([left, top, right, bottom]: Margin): Margin {
  return [left, top * FACTOR, right, bottom * FACTOR];
}
