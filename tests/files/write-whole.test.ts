/** A file is written whole or not at all, and nothing is written through what a stranger laid beside it. */
import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { rewriteWhole, writeWhole } from "../../server/files/write-whole.js";

// The name beside cannot be guessed; here it can.
vi.mock("node:crypto", () => ({ randomBytes: () => Buffer.from("guessed") }));
const GUESSED = `.${Buffer.from("guessed").toString("hex")}.part`;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "hopwright-whole-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

test.each([
  ["written", writeWhole],
  ["rewritten", rewriteWhole],
] as const)("a link that lies in wait is not written through when a file is %s", (_how, write) => {
  const [target, elsewhere] = [join(folder, "a.hop"), join(folder, "elsewhere")];
  writeFileSync(target, "before");
  for (const content of ["precious", undefined]) {
    if (content !== undefined) writeFileSync(elsewhere, content);
    symlinkSync(elsewhere, join(folder, GUESSED));
    expect(() => write(target, "after")).toThrow(/a\.hop: cannot be written/);
    expect(existsSync(elsewhere) ? readFileSync(elsewhere, "utf8") : undefined).toBe(content);
    expect(readFileSync(target, "utf8")).toBe("before");
    rmSync(join(folder, GUESSED), { force: true });
    rmSync(elsewhere, { force: true });
  }
  write(target, "after");
  expect(readFileSync(target, "utf8")).toBe("after");
  expect(readdirSync(folder)).toEqual(["a.hop"]);
});
