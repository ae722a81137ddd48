/**
 * Opens a font once for all documents: the bundle leads here whoever reads a font or takes one apart
 * (`esbuild.config.mjs`). Both cost more than a page, and what comes out is the same for every document.
 */
import { readFileSync as readAnew } from "node:fs";
import { create as open } from "fontkit";

const read = new Map<string, Uint8Array>();
const opened = new Map<Uint8Array, ReturnType<typeof open>>();

/** In place of the file system, where the library that writes asks for it: it reads fonts, and has no other way. */
export function readFileSync(path: string): Uint8Array {
  let bytes = read.get(path);
  if (bytes === undefined) {
    if (!path.endsWith(".ttf")) throw new Error(`${path}: is no font; nothing else is read`);
    bytes = readAnew(path);
    read.set(path, bytes);
  }
  return bytes;
}

export function create(bytes: Uint8Array, name?: string): ReturnType<typeof open> {
  let font = opened.get(bytes);
  if (font === undefined) {
    font = open(bytes, name);
    opened.set(bytes, font);
  }
  return font;
}
