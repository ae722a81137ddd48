import { constants, deflateSync, zstdCompressSync } from "node:zlib";
import { lzw, packBits } from "./tiff-packing.js";

/** A small TIFF writer for the tests, after TIFF 6.0, BigTIFF and OGC GeoTIFF 1.1: one band, strips or tiles. */
export interface TiffSpec {
  readonly width: number;
  readonly height: number;
  readonly values: ArrayLike<number>;
  readonly type?: "int16" | "uint16" | "float32";
  readonly bigEndian?: boolean;
  readonly deflate?: boolean;
  /** With or without the checksum that a frame may have. */
  readonly zstd?: boolean | "checksum";
  readonly lzw?: boolean;
  readonly packBits?: boolean;
  /** By LERC, and its blocks once more by nothing (0), DEFLATE (1) or Zstandard (2). */
  readonly lerc?: 0 | 1 | 2;
  readonly predictor?: 1 | 2 | 3;
  readonly rowsPerStrip?: number;
  /** Side of square tiles, in the place of strips. */
  readonly tile?: number;
  /** Blocks that are not written: their place and length are 0. */
  readonly sparse?: readonly number[];
  readonly bigTiff?: boolean;
  /** Pixel width and height, then the place tied to the first pixel. */
  readonly scale?: readonly [number, number];
  readonly tie?: readonly [number, number];
  readonly transformation?: readonly number[];
  /** Pairs of geo key and value. */
  readonly keys?: readonly (readonly [number, number])[];
  readonly noData?: string;
  readonly metadata?: string;
  readonly photometric?: number;
  /** Compression number to write in the place of the true one. */
  readonly claimCompression?: number;
}

export const WGS84_POINT = [
  [1024, 2],
  [1025, 2],
  [2048, 4326],
] as const;

export function tiff(spec: TiffSpec): Uint8Array {
  return tiffWithBlocks(spec).bytes;
}

/** @returns the file too, and where its first block lies: from there on it holds nothing else */
export function tiffWithBlocks(spec: TiffSpec): { readonly bytes: Uint8Array; readonly blocksAt: number } {
  const { width, height, type = "int16", bigEndian = false, bigTiff = false, tile } = spec;
  const little = !bigEndian;
  const size = type === "float32" ? 4 : 2;
  const rowsPerStrip = tile ?? spec.rowsPerStrip ?? height;
  const strips: Uint8Array[] = [];
  for (let top = 0; top < height; top += rowsPerStrip)
    for (let left = 0; left < width; left += tile ?? width) {
      const rows = tile ?? Math.min(rowsPerStrip, height - top);
      const isSparse = spec.sparse?.includes(strips.length);
      strips.push(
        isSparse ? new Uint8Array() : packedBlock(blockAt(spec, left, top, rows), tile ?? width, rows, spec),
      );
    }

  const entries: { tag: number; kind: number; values: number[] }[] = [];
  const add = (tag: number, kind: number, values: number[] | undefined): void => {
    if (values?.length) entries.push({ tag, kind, values });
  };
  const ascii = (text: string | undefined) =>
    text === undefined ? undefined : [...text].map((c) => c.charCodeAt(0)).concat(0);
  const [SHORT, LONG, DOUBLE, ASCII, LONG8] = [3, 4, 12, 2, 16];
  const PLACE = bigTiff ? LONG8! : LONG!;
  const [offsetsTag, countsTag] = tile ? [324, 325] : [273, 279];
  add(256, LONG, [width]);
  add(257, LONG, [height]);
  add(258, SHORT, [size * 8]);
  add(259, SHORT, [spec.claimCompression ?? compressionOf(spec)]);
  add(262, SHORT, [spec.photometric ?? 1]);
  add(277, SHORT, [1]);
  if (!tile) add(278, LONG, [rowsPerStrip]);
  add(322, LONG, tile ? [tile] : undefined);
  add(323, LONG, tile ? [tile] : undefined);
  const places = strips.map(() => 0);
  const lengths = strips.map((s) => s.length);
  add(offsetsTag!, PLACE, places);
  add(countsTag!, PLACE, lengths);
  add(317, SHORT, [spec.predictor ?? 1]);
  add(339, SHORT, [type === "float32" ? 3 : type === "int16" ? 2 : 1]);
  add(33550, DOUBLE, spec.scale && [...spec.scale, 0]);
  add(33922, DOUBLE, spec.tie && [0, 0, 0, ...spec.tie, 0]);
  add(34264, DOUBLE, spec.transformation && [...spec.transformation]);
  add(34735, SHORT, spec.keys && [1, 1, 0, spec.keys.length, ...spec.keys.flatMap(([k, v]) => [k, 0, 1, v])]);
  add(42112, ASCII, ascii(spec.metadata));
  add(42113, ASCII, ascii(spec.noData));
  add(50674, LONG, spec.lerc === undefined ? undefined : [2, spec.lerc]);

  const bytesOf: Record<number, number> = { [SHORT!]: 2, [LONG!]: 4, [DOUBLE!]: 8, [ASCII!]: 1, [LONG8!]: 8 };
  // Entries stand in the order of their tags.
  entries.sort((x, y) => x.tag - y.tag);
  const [countBytes, entryBytes, placeBytes, headerBytes] = bigTiff ? [8, 20, 8, 16] : [2, 12, 4, 8];
  let end = headerBytes! + countBytes! + entries.length * entryBytes! + placeBytes!;
  const placeOf = entries.map(({ kind, values }) => {
    const length = bytesOf[kind]! * values.length;
    const at = length <= placeBytes! ? -1 : end;
    if (length > placeBytes!) end += length + (length % 2);
    return at;
  });
  const blocksAt = end;
  strips.forEach((s, i) => {
    places[i] = s.length === 0 ? 0 : end;
    end += s.length + (s.length % 2);
  });

  const out = new Uint8Array(end);
  const view = new DataView(out.buffer);
  const putPlace = (at: number, value: number) =>
    bigTiff ? view.setBigUint64(at, BigInt(value), little) : view.setUint32(at, value, little);
  out.fill(bigEndian ? 0x4d : 0x49, 0, 2);
  view.setUint16(2, bigTiff ? 43 : 42, little);
  if (bigTiff) view.setUint16(4, 8, little);
  putPlace(headerBytes! - placeBytes!, headerBytes!);
  if (bigTiff) putPlace(headerBytes!, entries.length);
  else view.setUint16(headerBytes!, entries.length, little);
  entries.forEach(({ tag, kind, values }, i) => {
    const at = headerBytes! + countBytes! + i * entryBytes!;
    view.setUint16(at, tag, little);
    view.setUint16(at + 2, kind, little);
    putPlace(at + 4, values.length);
    const field = at + 4 + placeBytes!;
    const start = placeOf[i]! < 0 ? field : placeOf[i]!;
    if (placeOf[i]! >= 0) putPlace(field, start);
    values.forEach((value, k) => {
      const p = start + k * bytesOf[kind]!;
      if (kind === SHORT) view.setUint16(p, value, little);
      else if (kind === LONG) view.setUint32(p, value, little);
      else if (kind === LONG8) view.setBigUint64(p, BigInt(value), little);
      else if (kind === DOUBLE) view.setFloat64(p, value, little);
      else view.setUint8(p, value);
    });
  });
  strips.forEach((s, i) => {
    if (s.length > 0) out.set(s, places[i]!);
  });
  return { bytes: out, blocksAt };
}

/** Heights of a block in the file's byte order, with the predictor's differences; what lies beyond the image is 0. */
function blockAt(spec: TiffSpec, left: number, top: number, rows: number): Uint8Array {
  const { width, height, type = "int16", predictor = 1, tile = width } = spec;
  const size = type === "float32" ? 4 : 2;
  const bytes = new Uint8Array(rows * tile * size);
  const view = new DataView(bytes.buffer);
  const valueAt = (row: number, column: number) =>
    column < left || column >= width || row >= height ? 0 : spec.values[row * width + column]!;
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < tile; c++) {
      const value = valueAt(top + r, left + c);
      const at = (r * tile + c) * size;
      // Predictor 3 takes the bytes apart in the order of big-endian files, whatever the file's own.
      if (type === "float32") view.setFloat32(at, value, predictor !== 3 && !spec.bigEndian);
      else {
        const before = predictor === 2 ? valueAt(top + r, left + c - 1) : 0;
        view.setUint16(at, (value - before) & 0xffff, !spec.bigEndian);
      }
    }
    if (predictor === 3) predictFloats(bytes.subarray(r * tile * size, (r + 1) * tile * size), size);
  }
  return bytes;
}

/** Floating point differences (TIFF Technical Note 3): the first bytes of all samples, the second, ..., each less the one before. */
function predictFloats(row: Uint8Array, size: number): void {
  const samples = row.length / size;
  const planes = Uint8Array.from(row, (_, i) => row[(i % samples) * size + Math.floor(i / samples)]!);
  for (let i = 0; i < row.length; i++) row[i] = planes[i]! - (i > 0 ? planes[i - 1]! : 0);
}

function compressionOf({ deflate, zstd, lerc, lzw, packBits }: TiffSpec): number {
  if (lerc !== undefined) return 34887;
  if (lzw) return 5;
  if (packBits) return 32773;
  return zstd ? 50000 : deflate ? 8 : 1;
}

function packedBlock(bytes: Uint8Array, width: number, rows: number, spec: TiffSpec): Uint8Array {
  if (spec.lerc !== undefined) {
    // Its own order of bytes is one, whatever the file's.
    const block = lercBlock(spec.bigEndian ? Buffer.from(bytes).swap16() : bytes, width, rows);
    return spec.lerc === 1 ? deflateSync(block) : spec.lerc === 2 ? zstdCompressSync(block) : block;
  }
  if (spec.lzw) return lzw(bytes);
  if (spec.packBits) return packBits(bytes);
  const checksum = Number(spec.zstd === "checksum");
  if (spec.zstd) return zstdCompressSync(bytes, { params: { [constants.ZSTD_c_checksumFlag]: checksum } });
  return spec.deflate ? deflateSync(bytes) : bytes;
}

/** A block of 16-bit integers as LERC 2 of version 3 has it without packing: header, checksum, no mask, the values as they are. */
function lercBlock(bytes: Uint8Array, width: number, rows: number): Uint8Array {
  const out = new Uint8Array(62 + 4 + 1 + bytes.length);
  const view = new DataView(out.buffer);
  out.set(new TextEncoder().encode("Lerc2 "));
  const heights = new Int16Array(bytes.slice().buffer);
  const [version, short] = [3, 2];
  view.setInt32(6, version, true);
  for (const [i, one] of [rows, width, rows * width, 8, out.length, short].entries())
    view.setInt32(14 + 4 * i, one, true);
  for (const [i, one] of [0.5, Math.min(...heights), Math.max(...heights)].entries())
    view.setFloat64(38 + 8 * i, one, true);
  out[66] = 1;
  out.set(bytes, 67);
  view.setUint32(10, fletcher32(out.subarray(14)), true);
  return out;
}

/** Pairs of bytes, the first on top. */
function fletcher32(bytes: Uint8Array): number {
  let [low, high] = [0xffff, 0xffff];
  for (let at = 0; at < bytes.length; at += 2) {
    low = (low + (bytes[at]! << 8) + (bytes[at + 1] ?? 0)) % 0xffff || 0xffff;
    high = (high + low) % 0xffff || 0xffff;
  }
  return ((high << 16) | low) >>> 0;
}
