/**
 * Opens a font once for all documents: the bundle leads here whoever opens one (`esbuild.config.mjs`). Taking a font
 * apart costs more than a page, and what is taken out of it is the same for every document.
 */
import { create as open } from "fontkit";

const opened: { readonly bytes: Uint8Array; readonly font: ReturnType<typeof open> }[] = [];

export function create(bytes: Uint8Array, name?: string): ReturnType<typeof open> {
  const known = opened.find((one) => Buffer.compare(one.bytes, bytes) === 0);
  if (known) return known.font;
  const font = open(bytes, name);
  opened.push({ bytes, font });
  return font;
}
