/**
 * What a drawing of equipment is made of once everything has its place: numbers and words, no markup. Boxes keep what
 * they say inside; nothing is told by colour alone.
 */
import type { Address } from "../../../design/address.js";
import { coordinate, element, escaped, withMinus } from "../../document/markup.js";
import { sizeOf, type TextStyle } from "./fit.js";

export interface Placed {
  readonly width: number;
  readonly height: number;
  /** In the order in which they are drawn. */
  readonly items: readonly PlacedItem[];
}

export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * `part`: what is mounted; `open`: what lacks or is free; `frame`: holds boxes; `space`: what is no part, as the air;
 * `label`: words on a wire, which is hidden behind them; `plug` and `socket`: a port with something on it, a free one.
 */
type BoxKind = "part" | "open" | "frame" | "space" | "label" | "plug" | "socket";

/** The fact that states what is drawn: whoever shows the drawing beside the text leads there. */
interface Stated {
  readonly at?: Address;
}

export type PlacedItem =
  | (Rect &
      Stated & {
        readonly kind: "box";
        readonly box: BoxKind;
        readonly proposed?: boolean;
        readonly round?: boolean;
        /** All that it says, where it is cut. */
        readonly title?: string;
      })
  | {
      readonly kind: "text";
      readonly x: number;
      /** Of the base line. */
      readonly y: number;
      readonly text: string;
      readonly style?: TextStyle;
      readonly anchor?: "start" | "middle" | "end";
      /** The whole, where the text is cut. */
      readonly title?: string;
    }
  | (Stated & {
      readonly kind: "wire";
      readonly points: readonly (readonly [number, number])[];
      readonly wire: "joint" | "air" | "structure" | "line" | "faint";
      readonly proposed?: boolean;
    })
  | { readonly kind: "dot"; readonly x: number; readonly y: number }
  /** Which way a level goes. */
  | { readonly kind: "arrow"; readonly x: number; readonly y: number; readonly to: Way }
  /** What is round, as an antenna; a ring is only a line. */
  | (Stated & {
      readonly kind: "circle" | "ring";
      readonly x: number;
      readonly y: number;
      readonly radius: number;
    });

export type Way = "up" | "down" | "left" | "right";

/** Paint stands in attributes, so that paper and any viewer show it; the page's style sheet comes on top by class. */
const INK = "#000";
const PAPER = "#fff";
const FONT = "system-ui, 'Segoe UI', 'Noto Sans', sans-serif";

const BOX_PAINT: Readonly<Record<BoxKind, Readonly<Record<string, string | number | undefined>>>> = {
  part: { fill: PAPER, stroke: INK, "stroke-width": 1.3 },
  open: { fill: "none", stroke: INK, "stroke-width": 1, "stroke-dasharray": "1 3" },
  frame: { fill: "none", stroke: "#777", "stroke-width": 0.8 },
  space: { fill: "none", stroke: "#777", "stroke-width": 0.8, "stroke-dasharray": "8 3 2 3" },
  label: { fill: PAPER, stroke: "none" },
  plug: { fill: PAPER, stroke: INK, "stroke-width": 2.2 },
  socket: { fill: "none", stroke: INK, "stroke-width": 0.8, "stroke-dasharray": "1 2" },
};

const WIRE_PAINT: Readonly<Record<string, Readonly<Record<string, string | number | undefined>>>> = {
  joint: { stroke: INK, "stroke-width": 1.6 },
  air: { stroke: INK, "stroke-width": 1.2, "stroke-dasharray": "8 3 2 3" },
  structure: { stroke: INK, "stroke-width": 2.5 },
  line: { stroke: "#777", "stroke-width": 0.8 },
  faint: { stroke: "#ccc", "stroke-width": 0.6 },
};

const PROPOSED = "5 3";

/** Does nothing by itself. */
const AT = "data-at";

/** @param look `whole`: as large as it is, however narrow the screen, which is scrolled */
export function draw({ width, height, items }: Placed, look?: "whole"): string {
  return element(
    "svg",
    {
      viewBox: `0 0 ${coordinate(width)} ${coordinate(height)}`,
      width,
      height,
      class: look === undefined ? "system" : `system ${look}`,
      "font-family": FONT,
      "font-size": sizeOf(),
      fill: INK,
    },
    ...items.map(itemSvg),
  );
}

function itemSvg(item: PlacedItem): string {
  switch (item.kind) {
    case "box": {
      const { x, y, width, height, box, proposed, round, title, at } = item;
      const shape = {
        [AT]: at,
        class: proposed ? `box ${box} proposed` : `box ${box}`,
        ...BOX_PAINT[box],
        ...(proposed && { "stroke-dasharray": PROPOSED }),
        x,
        y,
        width,
        height,
        rx: round ? 6 : undefined,
      };
      return title === undefined
        ? element("rect", shape)
        : element("rect", shape, element("title", {}, escaped(title)));
    }
    case "text":
      return textSvg(item);
    case "wire": {
      const { points, wire, proposed, at } = item;
      const d = points
        .map(([x, y], index) => `${index === 0 ? "M" : "L"}${coordinate(x)} ${coordinate(y)}`)
        .join("");
      return element("path", {
        [AT]: at,
        class: proposed ? `wire ${wire} proposed` : `wire ${wire}`,
        fill: "none",
        ...WIRE_PAINT[wire],
        ...(proposed && { "stroke-dasharray": PROPOSED }),
        d,
      });
    }
    case "dot":
      return element("circle", { class: "joint-end", fill: INK, cx: item.x, cy: item.y, r: 2.6 });
    case "circle":
    case "ring":
      return element("circle", {
        [AT]: item.at,
        class: item.kind === "circle" ? "box part" : "box frame",
        ...BOX_PAINT[item.kind === "circle" ? "part" : "frame"],
        cx: item.x,
        cy: item.y,
        r: item.radius,
      });
    case "arrow":
      return element("path", { class: "arrow", fill: INK, d: ARROWS[item.to](item.x, item.y) });
  }
}

function textSvg({
  x,
  y,
  text,
  style = "plain",
  anchor,
  title,
}: Extract<PlacedItem, { kind: "text" }>): string {
  return element(
    "text",
    {
      class: CLASSES[style],
      "font-size": style === "quiet" ? sizeOf(style) : undefined,
      "font-weight": style === "strong" ? 600 : undefined,
      x,
      y,
      "text-anchor": anchor,
    },
    ...(title === undefined ? [] : [element("title", {}, escaped(withMinus(title)))]),
    escaped(withMinus(text)),
  );
}

const CLASSES: Readonly<Record<TextStyle, string | undefined>> = {
  strong: "strong",
  plain: undefined,
  quiet: "small",
};

/** A stem of eight with its head, drawn, since not every font has arrows. */
const ARROWS: Readonly<Record<Way, (x: number, y: number) => string>> = {
  up: (x, y) => arrow(x, y, (along, across) => [across, -along]),
  down: (x, y) => arrow(x, y, (along, across) => [across, along]),
  left: (x, y) => arrow(x, y, (along, across) => [-along, across]),
  right: (x, y) => arrow(x, y, (along, across) => [along, across]),
};

function arrow(x: number, y: number, turned: (along: number, across: number) => [number, number]): string {
  const outline = [
    [-5, -0.8],
    [0, -0.8],
    [0, -3.2],
    [5, 0],
    [0, 3.2],
    [0, 0.8],
    [-5, 0.8],
  ] as const;
  const points = outline.map(([along, across]) => {
    const [dx, dy] = turned(along, across);
    return `${coordinate(x + dx)} ${coordinate(y + dy)}`;
  });
  return `M${points.join("L")}Z`;
}
