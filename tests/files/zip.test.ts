/** Archives of strangers: nothing is unpacked beyond what the directory states, and nothing of another checksum. */

import fc from "fast-check";
import { zipSync } from "fflate";
import { expect, test } from "vitest";
import { DIRECTORY_BYTES, unzipEntry, zipEntries } from "../../server/files/zip.js";

const CONTENT = Uint8Array.from({ length: 5000 }, (_, i) => (i * i) % 253);
const ARCHIVE = zipSync({ "a.txt": Uint8Array.of(1, 2, 3), "folder/tile.hgt": CONTENT }, { level: 6 });
const read = (bytes: Uint8Array, name = "folder/tile.hgt", most = 10_000) =>
  unzipEntry(bytes, zipEntries(bytes).find((entry) => entry.name === name)!, most);

test("what another library packed comes out, stored and deflated, from the whole and by the archive's end", () => {
  expect(Buffer.from(read(ARCHIVE)).equals(Buffer.from(CONTENT))).toBe(true);
  const stored = read(zipSync({ "folder/tile.hgt": CONTENT }, { level: 0 }));
  expect(Buffer.from(stored).equals(Buffer.from(CONTENT))).toBe(true);
  const padded = zipSync(
    { filler: Uint8Array.from({ length: 200_000 }, (_, i) => i * 97), b: CONTENT },
    { level: 0 },
  );
  const from = padded.length - DIRECTORY_BYTES;
  expect(zipEntries(padded.subarray(from), from)).toEqual(zipEntries(padded));
});

test("what is damaged or false is told", () => {
  const at = (signature: number[]) => Buffer.from(ARCHIVE).lastIndexOf(Buffer.from(signature));
  const entry = at([0x50, 0x4b, 1, 2]);
  const changed = (offset: number, ...bytes: number[]) => {
    const copy = Uint8Array.from(ARCHIVE);
    copy.set(bytes, offset);
    return copy;
  };
  expect(() => zipEntries(ARCHIVE.subarray(0, 400))).toThrow("is no zip archive, or cut short");
  expect(() => zipEntries(new Uint8Array(10))).toThrow("is no zip archive");
  expect(() => read(changed(entry + 16, 0, 0, 0, 0))).toThrow("its checksum differs");
  expect(() => read(changed(entry + 24, 10, 0, 0, 0))).toThrow("unpacks to more than the directory says");
  expect(() => read(changed(entry + 24, 0xff, 0x20, 0, 0))).toThrow(
    "has 5000 bytes, the directory says 8447",
  );
  expect(() => read(changed(entry + 8, 1, 0))).toThrow("is encrypted");
  expect(() => read(changed(entry + 10, 14, 0))).toThrow("is packed by method 14");
  expect(() => read(changed(entry + 42, 9, 9, 9, 0))).toThrow("is not where the directory says");
  expect(() => read(changed(entry + 24, 0xff, 0xff, 0xff, 0xff))).toThrow("is of the kind for over 4 GB");
  const name = at([...Buffer.from("folder/tile.hgt")]);
  expect(() => read(changed(name + 7, 0x54), "folder/Tile.hgt")).toThrow("has another name where it lies");
  expect(() => read(ARCHIVE, "folder/tile.hgt", 4999)).toThrow("the most are 4999");
});

test("a changed byte is told, or changes nothing of what comes out", () => {
  fc.assert(
    fc.property(fc.nat(ARCHIVE.length - 1), fc.integer({ min: 1, max: 255 }), (at, by) => {
      const changed = Uint8Array.from(ARCHIVE);
      changed[at]! ^= by;
      let content: Uint8Array | undefined;
      try {
        const entry = zipEntries(changed).find(({ name }) => name === "folder/tile.hgt");
        content = entry && unzipEntry(changed, entry, 10_000);
      } catch (error) {
        expect(error).toBeInstanceOf(Error);
      }
      if (content) expect(Buffer.from(content).equals(Buffer.from(CONTENT))).toBe(true);
    }),
    { numRuns: 3000 },
  );
});

test("an archive that would unpack without end is refused by its directory, and stopped where that is false", () => {
  const bomb = zipSync({ "x.hgt": new Uint8Array(300_000_000) }, { level: 9 });
  const [entry] = zipEntries(bomb);
  expect(() => unzipEntry(bomb, entry!, 26_000_000)).toThrow("holds 300000000 bytes");
  const before = process.memoryUsage().rss;
  expect(() => unzipEntry(bomb, { ...entry!, sizeBytes: 1000 }, 26_000_000)).toThrow("unpacks to more");
  expect(process.memoryUsage().rss - before).toBeLessThan(100e6);
});
