/** Elements of HTML and SVG as text: everything that comes from a design passes through `escaped`. */
import { withoutSteering } from "../../format/steering.js";

export function escaped(text: string): string {
  const plain = text
    .replace(/[&<>"']/g, (sign) => ENTITIES[sign]!)
    .replace(/[\ufffe\uffff]|\p{Cs}/gu, "\ufffd");
  return withoutSteering(plain, (character) => {
    if (/[\t\n]/.test(character)) return character;
    // As blank as the others, and a terminal would write over the line.
    return character === "\r" ? " " : "\ufffd";
  });
}

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

const MINUS = /(?<=^|[\s(])-(?=\d)/g;

/** The sign of a figure as print has it. */
export function withMinus(text: string): string {
  return text.replace(MINUS, "\u2212");
}

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** @param content markup, escaped already */
export function element(name: string, attributes: Attributes, ...content: readonly string[]): string {
  const open = `<${name}${attributesText(attributes)}`;
  return content.length === 0 ? `${open}/>` : `${open}>${content.join("")}</${name}>`;
}

function attributesText(attributes: Attributes): string {
  let text = "";
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined) continue;
    text += ` ${name}="${typeof value === "number" ? coordinate(value) : escaped(value)}"`;
  }
  return text;
}

/** A coordinate of a drawing, to a tenth of its unit. @throws RangeError on what is no finite number: a fault of ours */
export function coordinate(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`${value} is no coordinate`);
  const text = value.toFixed(1).replace(/\.0$/, "");
  return text === "-0" ? "0" : text;
}
