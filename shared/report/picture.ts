/**
 * Which picture some bytes are, and whether they reach its end: nothing of it is unpacked here, and a drawing that can
 * hold scripts is none. PNG: W3C Portable Network Graphics, third edition, section 5.2 (signature) and 11.2.1 (IHDR);
 * JPEG: Rec. ITU-T T.81 Annex B (markers and frame header); both from memory.
 */

export type PictureRead =
  | { readonly type: "image/png" | "image/jpeg"; readonly widthPx: number; readonly heightPx: number }
  | { readonly unusable: string };

/** A logo on paper needs no more. */
const MOST_PX = 4000;

export function pictureOf(bytes: Uint8Array): PictureRead {
  const size = pngSize(bytes) ?? jpegSize(bytes);
  if (size === undefined) return { unusable: "it is no PNG or JPEG picture" };
  const { type, widthPx, heightPx } = size;
  if (widthPx === 0 || heightPx === 0) return { unusable: "it has no width or no height" };
  if (!(type === "image/png" ? hasPngEnd(bytes) : hasJpegEnd(bytes)))
    return { unusable: "it is cut off: it ends before its picture does" };
  if (Math.max(widthPx, heightPx) > MOST_PX)
    return { unusable: `it has ${widthPx} x ${heightPx} dots; at most ${MOST_PX} x ${MOST_PX} are taken` };
  return { type, widthPx, heightPx };
}

interface Size {
  readonly type: "image/png" | "image/jpeg";
  readonly widthPx: number;
  readonly heightPx: number;
}

const PNG_BEGINS = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const IHDR = [0x49, 0x48, 0x44, 0x52];

function pngSize(bytes: Uint8Array): Size | undefined {
  if (bytes.length < 33 || !holds(bytes, 0, PNG_BEGINS) || !holds(bytes, 12, IHDR)) return undefined;
  return { type: "image/png", widthPx: word(bytes, 16, 4), heightPx: word(bytes, 20, 4) };
}

const IEND = [0x49, 0x45, 0x4e, 0x44];

/** Chunks follow each other whole up to the last: length, kind, content, checksum (section 5.3). */
function hasPngEnd(bytes: Uint8Array): boolean {
  for (let at = PNG_BEGINS.length; at + 12 <= bytes.length; at += 12 + word(bytes, at, 4))
    if (holds(bytes, at + 4, IEND)) return true;
  return false;
}

/** Within the picture no byte of its end follows a fill byte; some programs write more behind it. */
function hasJpegEnd(bytes: Uint8Array): boolean {
  for (let at = bytes.length - 2; at > 1; at--)
    if (bytes[at] === FILL && bytes[at + 1] === END_OF_IMAGE) return true;
  return false;
}

const FILL = 0xff;
const START_OF_IMAGE = 0xd8;
const START_OF_SCAN = 0xda;
const END_OF_IMAGE = 0xd9;
/** Start of frame of any process, without tables (C4), reserved (C8) and arithmetic conditioning (CC). */
const isFrame = (marker: number) => marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);

function jpegSize(bytes: Uint8Array): Size | undefined {
  if (!holds(bytes, 0, [FILL, START_OF_IMAGE, FILL])) return undefined;
  let at = 2;
  while (at + 9 <= bytes.length && bytes[at] === FILL) {
    const marker = bytes[at + 1]!;
    if (marker === FILL) at++;
    else if (isFrame(marker))
      return { type: "image/jpeg", heightPx: word(bytes, at + 5, 2), widthPx: word(bytes, at + 7, 2) };
    else if (marker === START_OF_SCAN || marker === END_OF_IMAGE) return undefined;
    else at += 2 + Math.max(2, word(bytes, at + 2, 2));
  }
  return undefined;
}

function holds(bytes: Uint8Array, at: number, wanted: readonly number[]): boolean {
  return wanted.every((byte, index) => bytes[at + index] === byte);
}

/** Most significant byte first. */
function word(bytes: Uint8Array, at: number, length: number): number {
  let value = 0;
  for (let index = 0; index < length; index++) value = value * 256 + (bytes[at + index] ?? 0);
  return value;
}
