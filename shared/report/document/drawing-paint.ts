/**
 * Colours and strokes of every drawing by class; nothing in a drawing has a colour of its own. A style sheet says them
 * by class, for browsers; where none is read, on paper, they stand at each element as attributes.
 */
import { type Palette, PRINT } from "./palette.js";

type ColourName = keyof Palette;

/** Properties of CSS that are attributes of SVG as well; lengths in units of the drawing. */
interface Paint {
  readonly fill?: ColourName | "none";
  readonly stroke?: ColourName | "none";
  readonly "fill-opacity"?: number;
  readonly "stroke-opacity"?: number;
  readonly "stroke-width"?: number;
  readonly "stroke-dasharray"?: string;
  readonly "stroke-linejoin"?: "round";
  readonly "stroke-linecap"?: "round";
  readonly "font-family"?: string;
  readonly "font-size"?: number;
  readonly "font-weight"?: number;
  readonly "font-variant-numeric"?: "tabular-nums";
  readonly "paint-order"?: "stroke";
}

/** As in a style sheet: an element, classes that are all on it, or both. */
type Rule = readonly [select: string, paint: Paint];

const TONES = ["good", "error", "warning", "info", "accepted", "unjudged"] as const;

const RULES: readonly Rule[] = [
  [
    "text",
    {
      "font-family": 'ui-sans-serif,system-ui,"Segoe UI","Noto Sans",sans-serif',
      "font-size": 12,
      fill: "ink",
      "font-variant-numeric": "tabular-nums",
    },
  ],
  [".quiet", { fill: "quiet" }],
  [".strong", { "font-weight": 600 }],
  [".small", { "font-size": 11 }],
  [".grid", { stroke: "rule", "stroke-width": 1, fill: "none" }],
  [".axis", { stroke: "quiet", "stroke-width": 1, fill: "none" }],
  [".land", { fill: "land" }],
  [".land-edge", { stroke: "land-edge", "stroke-width": 1.5, fill: "none", "stroke-linejoin": "round" }],
  [".zone", { fill: "zone", "fill-opacity": 0.65 }],
  [".asked", { stroke: "zone-edge", "stroke-width": 1.2, "stroke-dasharray": "5 3", fill: "none" }],
  [".ray", { stroke: "ray", "stroke-width": 1.8, fill: "none" }],
  [".diversity", { stroke: "ray", "stroke-width": 0.8, fill: "none" }],
  [".second-antenna", { fill: "paper", stroke: "ray", "stroke-width": 1.5 }],
  [".reflected", { stroke: "info", "stroke-width": 1.2, "stroke-dasharray": "7 3 1.5 3", fill: "none" }],
  [".surface", { stroke: "info", "stroke-width": 3.5, fill: "none" }],
  [".ripple", { stroke: "ray", "stroke-width": 1.8, fill: "none", "stroke-linejoin": "round" }],
  [".antenna", { fill: "ray", stroke: "paper", "stroke-width": 1.5 }],
  [".mast", { stroke: "ink", "stroke-width": 2.5 }],
  [".low-k", { stroke: "low-k", "stroke-width": 1.2, "stroke-dasharray": "2 3", fill: "none" }],
  [".was", { stroke: "low-k", "stroke-width": 1.5, "stroke-dasharray": "6 3", fill: "none" }],
  [".obstacle", { stroke: "obstacle", "stroke-width": 3, fill: "obstacle" }],
  [".gap", { fill: "rule", "fill-opacity": 0.6 }],
  [".cover", { fill: "land-edge", "fill-opacity": 0.45 }],
  [
    ".bridge",
    {
      fill: "paper",
      "fill-opacity": 0.65,
      stroke: "land-edge",
      "stroke-width": 1.2,
      "stroke-dasharray": "4 3",
    },
  ],
  [".gap-edge", { stroke: "quiet", "stroke-width": 1, "stroke-dasharray": "1 3" }],
  [".leader", { stroke: "quiet", "stroke-width": 1, "stroke-dasharray": "2 2", fill: "none" }],
  [".mark", { fill: "paper", stroke: "ink", "stroke-width": 1.5 }],
  [".halo", { stroke: "paper", "stroke-width": 3, "stroke-linejoin": "round", "paint-order": "stroke" }],
  [".step", { stroke: "ray", "stroke-width": 2, fill: "none", "stroke-linejoin": "round" }],
  [".threshold", { stroke: "error", "stroke-width": 1.2, "stroke-dasharray": "5 3", fill: "none" }],
  [".margin", { fill: "zone", "fill-opacity": 0.65 }],
  [".bar", { fill: "zone-edge" }],
  [".bar-worst", { fill: "zone", stroke: "zone-edge", "stroke-width": 1 }],
  [".bar-rain", { fill: "info" }],
  [".box", { stroke: "ink", "stroke-width": 1.3 }],
  [".box.part", { fill: "panel" }],
  [".box.plug", { fill: "paper", "stroke-width": 2.2 }],
  [".box.open", { fill: "none" }],
  [".box.socket", { fill: "none", "stroke-width": 0.8 }],
  [".box.frame", { fill: "none", stroke: "quiet", "stroke-width": 0.8 }],
  [".box.space", { fill: "none", stroke: "quiet", "stroke-width": 0.8 }],
  [".box.label", { fill: "paper", stroke: "none" }],
  [".wire", { fill: "none", stroke: "ink" }],
  [".wire.joint", { "stroke-width": 1.6 }],
  [".wire.air", { stroke: "ray" }],
  [".wire.line", { stroke: "quiet" }],
  [".wire.faint", { stroke: "rule" }],
  [".joint-end", { fill: "ink" }],
  [".arrow", { fill: "ink" }],
  [".hop.planned", { "stroke-opacity": 0.45 }],
  [".site", { fill: "ink", stroke: "paper", "stroke-width": 1.5 }],
  [".site.planned", { fill: "paper", stroke: "ink", "stroke-width": 2 }],
  [".hop", { fill: "none", "stroke-width": 2.5, "stroke-linecap": "round" }],
  ...TONES.flatMap((tone): Rule[] => [
    [`.hop.${tone}`, { stroke: tone }],
    [`text.${tone}`, { fill: tone }],
    [`.mark.${tone}`, { stroke: tone }],
  ]),
  [".hop.error", { "stroke-width": 4 }],
  [".hop.warning", { "stroke-dasharray": "9 4" }],
  [".hop.accepted", { "stroke-dasharray": "2 5" }],
  [".hop.unjudged", { "stroke-width": 1.5 }],
  [".hop.unknown", { stroke: "quiet", "stroke-dasharray": "1 5" }],
];

/** As a style sheet; @param colour how it says a colour of the palette */
export function drawingStyle(colour: (name: ColourName) => string): string {
  return RULES.map(([select, paint]) => {
    const declared = Object.entries(paint).map(
      ([name, value]) => `${name}:${name === "font-size" ? `${value}px` : coloured(value, colour)}`,
    );
    return `svg ${select}{${declared.join(";")}}`;
  }).join("\n");
}

function coloured(value: string | number, colour: (name: ColourName) => string): string | number {
  return typeof value === "string" && Object.hasOwn(PRINT, value) ? colour(value as ColourName) : value;
}

export type PaintedAttributes = Readonly<Record<string, string | number>>;

/**
 * What a style sheet would make of an element on paper, as attributes: what stands later goes over what stands before,
 * and more classes over fewer.
 * @param colours of the medium
 */
export function paintOf(
  element: string,
  classes: readonly string[],
  colours: Palette = PRINT,
): PaintedAttributes {
  const own = RULES.map(([select, paint]) => {
    const [of = "", ...asked] = select.split(".");
    const holds = (of === "" || of === element) && asked.every((one) => classes.includes(one));
    return { paint, weight: holds ? 2 * asked.length + (of === "" ? 0 : 1) : 0 };
  });
  const painted: Record<string, string | number> = {};
  for (const { paint } of own.filter(({ weight }) => weight > 0).toSorted((a, b) => a.weight - b.weight))
    for (const [name, value] of Object.entries(paint))
      painted[name] = coloured(value, (colour) => colours[colour]);
  return painted;
}
