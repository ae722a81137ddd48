/** A drawing as a PDF takes it: every paint an attribute, no style sheet, no class, nothing that is not drawn. */
import { textWidth } from "../../draw/labels.js";
import { paintOf } from "../drawing-paint.js";
import { type Attributes, element } from "../markup.js";
import { PRINT } from "../palette.js";
import type { DrawingNode } from "./nodes.js";

/** Units of a drawing are pixels, of which 96 make an inch. */
const PT_PER_UNIT = 72 / 96;

/** As large as meant, unless the room is smaller. @param widthPt, @param heightPt the room */
export function drawingNode(svg: string, widthPt: number, heightPt: number): DrawingNode {
  const [width, height] = sizeOf(svg);
  const scale = Math.min(PT_PER_UNIT, widthPt / width, heightPt / height);
  return { svg: painted(svg), fit: [width * scale, height * scale], margin: [0, 2, 0, 4] };
}

const TAG = /<(\/?)([a-zA-Z]+)((?:\s+[\w:-]+="[^"]*")*)\s*(\/?)>/g;
const ATTRIBUTE = /([\w:-]+)="([^"]*)"/g;

/** Of the document around it, or of a browser alone. */
const LEFT_OUT = /^(class|data-.*|role|aria-.*|font-family|font-variant-numeric|paint-order)$/;

export function painted(svg: string): string {
  const drawn = svg.replace(/<title>[^<]*<\/title>/g, "").replace(HALO, behind);
  return drawn.replace(TAG, (_, close: string, name: string, attributes: string, empty: string) =>
    close ? `</${name}>` : `<${name}${attributesOf(name, attributes)}${empty && "/"}>`,
  );
}

function attributesOf(name: string, text: string): string {
  const own = new Map([...text.matchAll(ATTRIBUTE)].map(([, key, value]) => [key!, value!]));
  const classes = own.get("class")?.split(" ") ?? [];
  for (const [key, value] of Object.entries(paintOf(name, classes))) own.set(key, String(value));
  const weight = own.get("font-weight");
  if (weight !== undefined) own.set("font-weight", Number(weight) >= 600 ? "bold" : "normal");
  if (name === "text" && own.get("stroke") === PRINT.paper) own.delete("stroke");
  // Clipped to its size otherwise, and not scaled.
  if (name === "svg") for (const size of ["width", "height"]) own.delete(size);
  const kept = [...own].filter(([key]) => !LEFT_OUT.test(key));
  return kept.map(([key, value]) => ` ${key}="${value}"`).join("");
}

const HALO = /<text([^>]*class="[^"]*\bhalo\b[^>]*)>([^<]*)<\/text>/g;

/** In place of the edge around letters, which a PDF draws over them: paper behind the word. */
function behind(whole: string, attributes: string, words: string): string {
  const own = new Map([...attributes.matchAll(ATTRIBUTE)].map(([, key, value]) => [key!, value!]));
  const [x, y] = [Number(own.get("x")), Number(own.get("y"))];
  if (!Number.isFinite(x) || !Number.isFinite(y) || own.has("transform")) return whole;
  const width = textWidth(words.replace(/&[#\w]+;/g, "x"));
  const left = { start: 0, middle: width / 2, end: width }[own.get("text-anchor") ?? "start"] ?? 0;
  const paper: Attributes = { fill: PRINT.paper, "fill-opacity": "0.8", x: x - left - 1, y: y - 10 };
  return element("rect", { ...paper, width: width + 2, height: 13 }) + whole;
}

function sizeOf(svg: string): readonly [number, number] {
  const [, width, height] = /viewBox="\S+ \S+ (\S+) (\S+)"/.exec(svg) ?? [];
  const size = [Number(width), Number(height)] as const;
  if (size.every((one) => Number.isFinite(one) && one > 0)) return size;
  throw new RangeError("a drawing without a size: a fault of ours");
}
