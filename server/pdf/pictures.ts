/**
 * Whether a picture can be put into a PDF: the library unpacks some of them without a bound, and a fault in one would
 * end the program. So what is in it is counted here first.
 */
import { inflateSync } from "node:zlib";
import type { Letterhead } from "../../shared/report/document/document.js";

/** Larger ones are no logo. */
const MOST_DOTS = 2 ** 24;

/** Colours of a palette, which must be there. */
const INDEXED = 3;

const HIGHEST_FILTER = 4;

const SIGNATURE = Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]);

/** Samples a dot, by kind of colour (ISO/IEC 15948, table 11.1). */
const SAMPLES: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };

/** @returns one clause; undefined: it can be shown */
export function whyNotShown({ bytes }: NonNullable<Letterhead["logo"]>): string | undefined {
  // By what it is, and not by what it is called. Of a JPEG the head alone is read, and its bytes go in as they are.
  if (bytes[0] === 0xff && bytes[1] === 0xd8) return undefined;
  return faultOfPng(Buffer.from(bytes));
}

const CUT_OFF = "it is cut off";
const BROKEN = "what is in it is not what its head says";

function faultOfPng(bytes: Buffer): string | undefined {
  if (!bytes.subarray(0, 8).equals(SIGNATURE)) return "it is no PNG or JPEG picture";
  const packed: Buffer[] = [];
  let head: Buffer | undefined;
  let hasPalette = false;
  for (let at = 8; at + 12 <= bytes.length; ) {
    const length = bytes.readUInt32BE(at);
    const kind = bytes.toString("latin1", at + 4, at + 8);
    const content = bytes.subarray(at + 8, at + 8 + length);
    if (content.length < length) return CUT_OFF;
    if (kind === "IHDR") head = content;
    else if (kind === "PLTE") hasPalette = true;
    else if (kind === "IDAT") packed.push(content);
    else if (kind === "IEND")
      return head === undefined || (!hasPalette && head[9] === INDEXED)
        ? BROKEN
        : faultOfRows(head, Buffer.concat(packed));
    at += 12 + length;
  }
  return CUT_OFF;
}

/** Rows of dots, each behind a byte that names its filter; none in several passes. */
function faultOfRows(head: Buffer, packed: Buffer): string | undefined {
  if (head.length !== 13) return BROKEN;
  const [width, height] = [head.readUInt32BE(0), head.readUInt32BE(4)];
  const samples = SAMPLES[head[9]!];
  if (samples === undefined || width * height === 0) return BROKEN;
  if (width * height > MOST_DOTS) return "it has more dots than a logo needs";
  if (head[12] !== 0) return "it is interlaced: save it without";
  const wanted = height * (1 + Math.ceil((width * samples * head[8]!) / 8));
  try {
    const rows = inflateSync(packed, { maxOutputLength: wanted });
    if (rows.length !== wanted) return BROKEN;
    for (let at = 0; at < wanted; at += wanted / height) if (rows[at]! > HIGHEST_FILTER) return BROKEN;
    return undefined;
  } catch {
    return BROKEN;
  }
}
