/** Blocks of a TIFF unpack to what another program packed, within bounds, and never to less without a word. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { deflateSync } from "node:zlib";
import fc from "fast-check";
import { fromArrayBuffer } from "geotiff";
import { describe, expect, test } from "vitest";
import { openTerrain } from "../../server/terrain/store.js";
import { boundedBlocks } from "../../server/terrain/tiff-blocks.js";
import { decodeHgtRows } from "../../shared/terrain/hgt.js";
import { loadVectors } from "../support/vectors.js";
import { encodeHgt } from "./encode-hgt.js";
import { tiff, WGS84_POINT } from "./tiff.js";

const WIDTH = 120;
const HEIGHT = 90;
/** By what the vectors' source says of them. */
const HEIGHTS = Int16Array.from({ length: WIDTH * HEIGHT }, (_, i) => {
  const [c, r] = [i % WIDTH, Math.floor(i / WIDTH)];
  return Math.round(400 + 30 * Math.sin(c / 17) * Math.cos(r / 23) + ((c * 7 + r * 11) % 5));
});

const VECTORS = loadVectors<{ rows: { compression: string; base64: string }[] }>("terrain/tiff-blocks.json");

describe("what LibTIFF packed", () => {
  test.each(VECTORS.rows)("by $compression", async ({ base64 }) => {
    const bytes = Uint8Array.from(Buffer.from(base64, "base64"));
    const image = await (await fromArrayBuffer(bytes.buffer)).getImage();
    const [heights] = await image.readRasters({ samples: [0], pool: boundedBlocks(true) as never });
    expect([...(heights as Int16Array)]).toEqual([...HEIGHTS]);
  });
});

const BLOCK = { tileWidth: 64, tileHeight: 64, predictor: 1, bitsPerSample: 16, planarConfiguration: 1 };
const BYTES = 64 * 64 * 2;
const unpack = (compression: number, packed: Uint8Array) =>
  boundedBlocks(true)
    .bindParameters(compression, BLOCK)
    .decode(packed.slice().buffer as ArrayBuffer);

describe("a block that is not what the image says", () => {
  test.each([
    ["much more by DEFLATE", 8, deflateSync(new Uint8Array(200_000_000))],
    ["more by one row", 8, deflateSync(new Uint8Array(BYTES + 128))],
    ["a part of a row", 8, deflateSync(new Uint8Array(BYTES - 1))],
    ["nothing", 8, deflateSync(new Uint8Array(0))],
    ["cut short by PackBits", 32773, Uint8Array.of(0x81, 1, 0x40, 2)],
    ["cut short by LZW", 5, Uint8Array.of(0x80, 0x00)],
    ["a code of no table by LZW", 5, Uint8Array.of(0x80, 0x7f, 0xff, 0xff)],
    ["no LERC data", 34887, new Uint8Array(100)],
    ["a kind that nobody knows", 34925, new Uint8Array(100)],
  ])("%s is an error", async (_, compression, packed) => {
    await expect(unpack(compression, packed)).rejects.toThrow();
  });

  test("of a size that no raster has is refused before anything is unpacked", async () => {
    const huge = { ...BLOCK, tileWidth: 2 ** 20, tileHeight: 2 ** 20 };
    const decoder = boundedBlocks(true).bindParameters(8, huge);
    await expect(decoder.decode(new ArrayBuffer(8))).rejects.toThrow(/are not read/);
  });

  test("whatever the bytes, it is whole rows or an error", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(1, 5, 8, 32773, 34887, 50000),
        fc.uint8Array({ maxLength: 3000 }),
        async (compression, packed) => {
          const block = await unpack(compression, packed).catch(() => undefined);
          if (block) expect([block.byteLength % 128, block.byteLength <= BYTES]).toEqual([0, true]);
        },
      ),
      { numRuns: 500 },
    );
  });
});

test("a changed byte of a DEFLATE block is an error, or changes nothing", async () => {
  const plain = Uint8Array.from({ length: BYTES }, (_, i) => (i * 31) % 251);
  const packed = deflateSync(plain);
  await fc.assert(
    fc.asyncProperty(fc.nat(packed.length - 1), fc.integer({ min: 1, max: 255 }), async (at, by) => {
      const changed = Uint8Array.from(packed);
      changed[at]! ^= by;
      const block = await unpack(8, changed).catch(() => undefined);
      if (block) expect(Buffer.from(block).equals(Buffer.from(plain))).toBe(true);
    }),
    { numRuns: 500 },
  );
});

test.each([
  ["LERC", { lerc: 0 }],
  ["LERC and DEFLATE", { lerc: 1 }],
  ["LERC and Zstandard", { lerc: 2 }],
  ["Zstandard", { zstd: true }],
] as const)("packed by %s, a raster has the heights that it has unpacked", async (_, how) => {
  const folder = mkdtempSync(join(tmpdir(), "hopwright-packed-"));
  try {
    const [width, height] = [40, 40];
    const values = Array.from({ length: width * height }, (_one, i) => 3 * i + (i % 7));
    const spec = {
      width,
      height,
      values,
      scale: [0.01, 0.01],
      tie: [10, 41],
      keys: WGS84_POINT,
      noData: "-1",
    } as const;
    writeFileSync(join(folder, "a.tif"), tiff({ ...spec, rowsPerStrip: 8, ...how }));
    const store = await openTerrain(["."], { baseDir: folder });
    for (const [row, column] of [
      [0, 0],
      [7, 39],
      [8, 0],
      [30, 17],
    ] as const)
      expect(
        await store.heightAt({ latitudeDeg: 41 - row / 100, longitudeDeg: 10 + column / 100 }),
      ).toBeCloseTo(values[row * width + column]!, 6);
    expect(store.problems).toEqual([]);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test("a tile is read alike wherever its bytes lie in memory", () => {
  const tile = { southDeg: 40, westDeg: 10 };
  const bytes = encodeHgt(tile, 1201, (lat, lon) => Math.round(100 * lat + lon));
  const placed = (from: number) => {
    const amid = Buffer.alloc(bytes.length + from).subarray(from);
    amid.set(bytes);
    return amid;
  };
  const heights = decodeHgtRows(placed(0));
  for (const from of [1, 2, 6, 7])
    expect(decodeHgtRows(placed(from)).every((heightM, i) => heightM === heights[i])).toBe(true);
  // The corners in the north-west and the south-east; the count of samples is odd.
  expect([heights[0], heights.at(-1)]).toEqual([4110, 4011]);
});
