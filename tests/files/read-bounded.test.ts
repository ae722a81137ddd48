/** Only plain files are read, and no further than a bound: a name may lead to anything. */
import { execFileSync } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { readBounded, readBoundedSync, UnfitFile } from "../../server/files/read-bounded.js";

const folder = mkdtempSync(join(tmpdir(), "hopwright-bounded-"));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string) => join(folder, name);

writeFileSync(at("plain"), "abc");
writeFileSync(at("empty"), "");
mkdirSync(at("folder"));
writeFileSync(at("huge"), "");
// Takes no room on the disk.
truncateSync(at("huge"), 5e9);
symlinkSync("/dev/zero", at("device"));
writeFileSync(
  at("pointer"),
  "version https://git-lfs.github.com/spec/v1\noid sha256:4d7a214614ab2935c943f9e0ff69d22eadbb8f32b1258daaa5e2ca24d17e2393\nsize 12345\n",
);
writeFileSync(at("annexed"), "/annex/objects/SHA256E-s12345--4d7a214614ab2935.tif\n");

const unfit: [string, string][] = [
  ["folder", "it is a folder"],
  ["huge", "4769 MB are more than the 1 MB that such a file may have"],
  ["pointer", "it only points to a file in large-file storage"],
  ["annexed", "it only points to a file in large-file storage"],
  ...(existsSync("/dev/zero") ? [["device", "it is a device or a pipe, no file"] as [string, string]] : []),
];

test.each(unfit)("%s: %s", async (name, said) => {
  await expect(readBounded(at(name), 2 ** 20)).rejects.toThrow(said);
  await expect(readBounded(at(name), 2 ** 20)).rejects.toBeInstanceOf(UnfitFile);
  expect(() => readBoundedSync(at(name), 2 ** 20)).toThrow(said);
});

test("a plain file is read whole, up to the bound itself", async () => {
  for (const [name, text] of [
    ["plain", "abc"],
    ["empty", ""],
  ] as const) {
    expect(Buffer.from(await readBounded(at(name), 3)).toString()).toBe(text);
    expect(Buffer.from(readBoundedSync(at(name), 3)).toString()).toBe(text);
  }
  await expect(readBounded(at("plain"), 2)).rejects.toBeInstanceOf(UnfitFile);
});

test.skipIf(process.platform === "win32")("a pipe that nobody writes keeps nobody waiting", async () => {
  execFileSync("mkfifo", [at("pipe")]);
  await expect(readBounded(at("pipe"), 100)).rejects.toThrow("it is a device or a pipe");
  expect(() => readBoundedSync(at("pipe"), 100)).toThrow("it is a device or a pipe");
});
