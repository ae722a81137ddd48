import { deflateSync, zstdCompressSync } from "node:zlib";

/** A small TIFF writer for the tests, after TIFF 6.0 and OGC GeoTIFF 1.1: one band, strips or one-row-of-tiles. */
export interface TiffSpec {
  readonly width: number;
  readonly height: number;
  readonly values: ArrayLike<number>;
  readonly type?: "int16" | "uint16" | "float32";
  readonly bigEndian?: boolean;
  readonly deflate?: boolean;
  readonly zstd?: boolean;
  /** By LERC, and its blocks once more by nothing (0), DEFLATE (1) or Zstandard (2). */
  readonly lerc?: 0 | 1 | 2;
  readonly predictor?: 1 | 2;
  readonly rowsPerStrip?: number;
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
  const { width, height, type = "int16", bigEndian = false, rowsPerStrip = height } = spec;
  const little = !bigEndian;
  const size = type === "float32" ? 4 : 2;
  const strips: Uint8Array[] = [];
  for (let top = 0; top < height; top += rowsPerStrip) {
    const rows = Math.min(rowsPerStrip, height - top);
    const bytes = new Uint8Array(rows * width * size);
    const view = new DataView(bytes.buffer);
    for (let r = 0; r < rows; r++) {
      for (let c = 0; c < width; c++) {
        const value = spec.values[(top + r) * width + c]!;
        const before = c > 0 && spec.predictor === 2 ? spec.values[(top + r) * width + c - 1]! : 0;
        const at = (r * width + c) * size;
        if (type === "float32") view.setFloat32(at, value, little);
        else view.setUint16(at, (value - before) & 0xffff, little);
      }
    }
    strips.push(packedBlock(bytes, width, rows, spec));
  }

  const entries: { tag: number; kind: number; values: number[] }[] = [];
  const add = (tag: number, kind: number, values: number[] | undefined): void => {
    if (values?.length) entries.push({ tag, kind, values });
  };
  const ascii = (text: string | undefined) =>
    text === undefined ? undefined : [...text].map((c) => c.charCodeAt(0)).concat(0);
  const [SHORT, LONG, DOUBLE, ASCII] = [3, 4, 12, 2];
  add(256, LONG, [width]);
  add(257, LONG, [height]);
  add(258, SHORT, [size * 8]);
  add(259, SHORT, [spec.claimCompression ?? compressionOf(spec)]);
  add(262, SHORT, [spec.photometric ?? 1]);
  add(
    273,
    LONG,
    strips.map(() => 0),
  );
  add(277, SHORT, [1]);
  add(278, LONG, [rowsPerStrip]);
  add(
    279,
    LONG,
    strips.map((s) => s.length),
  );
  add(317, SHORT, [spec.predictor ?? 1]);
  add(339, SHORT, [type === "float32" ? 3 : type === "int16" ? 2 : 1]);
  add(33550, DOUBLE, spec.scale && [...spec.scale, 0]);
  add(33922, DOUBLE, spec.tie && [0, 0, 0, ...spec.tie, 0]);
  add(34264, DOUBLE, spec.transformation && [...spec.transformation]);
  add(34735, SHORT, spec.keys && [1, 1, 0, spec.keys.length, ...spec.keys.flatMap(([k, v]) => [k, 0, 1, v])]);
  add(42112, ASCII, ascii(spec.metadata));
  add(42113, ASCII, ascii(spec.noData));
  add(50674, LONG, spec.lerc === undefined ? undefined : [2, spec.lerc]);

  const bytesOf: Record<number, number> = { [SHORT!]: 2, [LONG!]: 4, [DOUBLE!]: 8, [ASCII!]: 1 };
  const directoryBytes = 2 + entries.length * 12 + 4;
  let end = 8 + directoryBytes;
  const placeOf = entries.map(({ kind, values }) => {
    const length = bytesOf[kind]! * values.length;
    const at = length <= 4 ? -1 : end;
    if (length > 4) end += length + (length % 2);
    return at;
  });
  const offsets = strips.map((s) => {
    const at = end;
    end += s.length + (s.length % 2);
    return at;
  });
  entries.find((e) => e.tag === 273)!.values = offsets;

  const out = new Uint8Array(end);
  const view = new DataView(out.buffer);
  out.fill(bigEndian ? 0x4d : 0x49, 0, 2);
  view.setUint16(2, 42, little);
  view.setUint32(4, 8, little);
  view.setUint16(8, entries.length, little);
  entries.forEach(({ tag, kind, values }, i) => {
    const at = 10 + i * 12;
    view.setUint16(at, tag, little);
    view.setUint16(at + 2, kind, little);
    view.setUint32(at + 4, values.length, little);
    const start = placeOf[i]! < 0 ? at + 8 : placeOf[i]!;
    if (placeOf[i]! >= 0) view.setUint32(at + 8, start, little);
    values.forEach((value, k) => {
      const p = start + k * bytesOf[kind]!;
      if (kind === SHORT) view.setUint16(p, value, little);
      else if (kind === LONG) view.setUint32(p, value, little);
      else if (kind === DOUBLE) view.setFloat64(p, value, little);
      else view.setUint8(p, value);
    });
  });
  strips.forEach((s, i) => {
    out.set(s, offsets[i]!);
  });
  return out;
}

function compressionOf({ deflate, zstd, lerc }: TiffSpec): number {
  if (lerc !== undefined) return 34887;
  return zstd ? 50000 : deflate ? 8 : 1;
}

function packedBlock(bytes: Uint8Array, width: number, rows: number, spec: TiffSpec): Uint8Array {
  if (spec.lerc !== undefined) {
    const block = lercBlock(bytes, width, rows);
    return spec.lerc === 1 ? deflateSync(block) : spec.lerc === 2 ? zstdCompressSync(block) : block;
  }
  return spec.zstd ? zstdCompressSync(bytes) : spec.deflate ? deflateSync(bytes) : bytes;
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
