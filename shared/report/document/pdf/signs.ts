/** Every sign that a PDF shows, once, in the cut that it is set in. */
import type { Node, PdfDocument } from "./nodes.js";

export interface Sign {
  readonly sign: string;
  readonly bold: boolean;
}

export function signsOf({ content, running, last, title }: PdfDocument): Sign[] {
  const normal = new Set([...running, ...last, ...title]);
  const bold = new Set<string>();
  const add = (text: string, isBold: boolean) => {
    for (const sign of text) (isBold ? bold : normal).add(sign);
  };
  const walk = (node: Node): void => {
    if ("text" in node) for (const part of node.text) add(part.text, part.bold === true);
    else if ("stack" in node) node.stack.forEach(walk);
    else if ("columns" in node) node.columns.forEach(walk);
    else if ("pageReference" in node) return;
    else if ("image" in node) add(node.alt, false);
    else if ("ul" in node) node.ul.forEach(walk);
    else if ("svg" in node)
      for (const [, words] of node.svg.matchAll(/<text[^>]*>([^<]*)/g)) add(unescaped(words!), false);
    else for (const row of node.table.body) row.forEach(walk);
  };
  content.forEach(walk);
  const shown = (signs: ReadonlySet<string>, isBold: boolean) =>
    [...signs].filter((sign) => !/\s/.test(sign)).map((sign) => ({ sign, bold: isBold }));
  return [...shown(normal, false), ...shown(bold, true)];
}

/** Entities stand for signs that every font has. */
function unescaped(markup: string): string {
  return markup.replace(/&[#\w]+;/g, "");
}
