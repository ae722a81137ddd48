/** What every drawing is made of: a sheet with a plot in it, lines and words. */
import { coordinate, element, escaped } from "../document/markup.js";
import { textWidth } from "./labels.js";

export interface Plot {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** How wide a drawing is meant to be shown: beside text on a desk, or on a narrow screen, where words stay readable. */
export interface Sheet {
  readonly width: number;
  readonly plot: Plot;
  readonly narrow: boolean;
  /** A line has no more points than the sheet can show. */
  readonly mostPoints: number;
}

export type Scale = ((value: number) => number) & { ticks(count?: number): number[] };

export function path(style: string, d: string | null): string {
  return d ? element("path", { class: style, d }) : "";
}

export function text(
  x: number,
  y: number,
  words: string,
  style: string,
  anchor: "start" | "middle" | "end" = "start",
): string {
  return element("text", { class: style, x, y, "text-anchor": anchor }, escaped(words));
}

export interface LegendItem {
  readonly kind: string;
  readonly words: string;
  /** An area, not a line. */
  readonly area?: boolean;
}

const LEGEND_ROW = 18;

/** Of small words against usual ones. */
const SMALL = 11 / 12;

/** @returns the legend, as many rows as its sheet needs, and the height below `top` that they take */
export function legendBelow(
  items: readonly LegendItem[],
  top: number,
  { left, right }: Pick<Plot, "left" | "right">,
): { readonly svg: string; readonly height: number } {
  let x = left;
  let row = 0;
  const parts = items.map(({ kind, words, area }) => {
    const width = 28 + textWidth(words) * SMALL;
    if (x > left && x + width > right) {
      x = left;
      row++;
    }
    const y = top + row * LEGEND_ROW;
    const swatch = area
      ? element("rect", { class: kind, x, y, width: 22, height: 11 })
      : path(kind, `M${coordinate(x)} ${coordinate(y + 5.5)}h22`);
    const word = text(x + 28, y + 10, words, "small quiet");
    x += width + 16;
    return swatch + word;
  });
  return { svg: parts.join(""), height: (row + 1) * LEGEND_ROW };
}
