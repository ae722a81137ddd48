/** Head, foot and paper of an HTML page: what those who hand it out have there. */
import { base64 } from "../../format/base64.js";
import { breakable } from "./breaks.js";
import type { Letterhead, Paper } from "./document.js";
import { escaped } from "./markup.js";

export function paperStyle({ size, landscape }: Paper = {}): string {
  const words = [...(size === undefined ? [] : [size]), ...(landscape ? ["landscape"] : [])];
  return words.length === 0 ? "" : `@page{size:${words.join(" ")}}\n`;
}

export function letterheadHtml(letterhead: Letterhead | undefined): string {
  if (letterhead === undefined) return "";
  const { name, logo, head } = letterhead;
  const lines = head.map((line) => `<p>${breakable(line)}</p>`);
  if (name !== undefined) lines.unshift(`<p><strong>${breakable(name)}</strong></p>`);
  const picture =
    logo === undefined
      ? ""
      : `<img alt="${escaped(logo.alt)}" width="${logo.widthPx}" height="${logo.heightPx}" src="data:${logo.type};base64,${base64(logo.bytes)}">`;
  if (lines.length === 0 && picture === "") return "";
  return `<div class="letterhead"><div>${lines.join("")}</div>${picture}</div>\n`;
}

export function footLines(letterhead: Letterhead | undefined): string {
  const lines = (letterhead?.foot ?? []).map((line) => `<p>${breakable(line)}</p>`);
  return lines.length === 0 ? "" : `<div class="foot">${lines.join("")}</div>\n`;
}
