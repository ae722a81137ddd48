/** The font that PDFs are set in, two cuts of it: where their files lie, how wide their signs are, which they have. */
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Font } from "fontkit";
import type { Measure } from "../../shared/report/document/pdf/measure.js";
import { create, readFileSync } from "./open-fonts.js";

const FILES = { normal: "DejaVuSans.ttf", bold: "DejaVuSans-Bold.ttf" } as const;

/** Beside the bundle; where the program is not built, as the package brings them. */
const PLACES = ["fonts/", "../../node_modules/dejavu-fonts-ttf/ttf/"];

export type Cut = keyof typeof FILES;

export const FONT_FILES: Readonly<Record<Cut, string>> = { normal: fileOf("normal"), bold: fileOf("bold") };

function fileOf(cut: Cut): string {
  const paths = PLACES.map((place) => fileURLToPath(new URL(place + FILES[cut], import.meta.url)));
  return paths.find((path) => existsSync(path)) ?? paths[0]!;
}

const opened: Partial<Record<Cut, Font>> = {};

function fontOf(cut: Cut): Font {
  opened[cut] ??= create(readFileSync(FONT_FILES[cut]));
  return opened[cut];
}

const widths: Readonly<Record<Cut, Map<string, number>>> = { normal: new Map(), bold: new Map() };

/** Signs are set beside each other as they are, without what a font draws closer together. */
export const measure: Measure = (text, bold) => {
  const cut = bold ? "bold" : "normal";
  const known = widths[cut];
  let sum = 0;
  for (const sign of text) {
    let width = known.get(sign);
    if (width === undefined) {
      const font = fontOf(cut);
      width = font.glyphForCodePoint(sign.codePointAt(0)!).advanceWidth / font.unitsPerEm;
      known.set(sign, width);
    }
    sum += width;
  }
  return sum;
};

export function hasSign(sign: string, cut: Cut): boolean {
  return fontOf(cut).hasGlyphForCodePoint(sign.codePointAt(0)!);
}
