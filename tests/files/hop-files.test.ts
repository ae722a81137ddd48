/** Folders as they are found: links, circles, rights. What cannot be read is told, and the rest is read. */
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { readHopFiles, textOf, withoutNamedLinks } from "../../server/files/hop-files.js";

let locked = "";
vi.mock("node:fs", async (original) => {
  const fs = await original<typeof import("node:fs")>();
  // Rights mean nothing to whoever may do everything, so the refusal is played.
  const readdirSync = (path: string, options: object) => {
    if (path === locked) throw Object.assign(new Error("EACCES: permission denied"), { code: "EACCES" });
    return fs.readdirSync(path, options as never);
  };
  return { ...fs, readdirSync };
});

let base = "";
beforeAll(() => {
  base = mkdtempSync(join(tmpdir(), "hopwright-files-")).replaceAll("\\", "/");
  mkdirSync(join(base, "design/locked"), { recursive: true });
  mkdirSync(join(base, "shared/deeper"), { recursive: true });
  writeFileSync(join(base, "design/network.hop"), 'network "N" {}\n');
  writeFileSync(join(base, "shared/sites.hop"), "site A {}\n");
  writeFileSync(join(base, "shared/deeper/more.hop"), "site B {}\n");
});
afterAll(() => rmSync(base, { recursive: true, force: true }));

const within = (paths: readonly { readonly path: string }[]) =>
  paths.map(({ path }) => path.replaceAll("\\", "/").slice(base.length + 1));

test("links that lead out of the folder are told and not followed; those that lead back are no matter", () => {
  symlinkSync("../shared", join(base, "design/other"));
  symlinkSync("../shared/sites.hop", join(base, "design/sites.hop"));
  symlinkSync("/etc/hostname", join(base, "design/away.hop"));
  symlinkSync("/etc", join(base, "design/.hidden"));
  symlinkSync("/etc/hostname", join(base, "design/notes.txt"));
  symlinkSync(".", join(base, "design/loop"));
  symlinkSync("network.hop", join(base, "design/again.hop"));
  const { texts, unreadable } = readHopFiles(join(base, "design"));
  expect(within(texts)).toEqual(["design/network.hop"]);
  expect(within(unreadable)).toEqual(["design/away.hop", "design/other", "design/sites.hop"]);
  expect(unreadable[1]!.message).toContain(
    `to ${base}/shared, and is not followed; name that as \`catalogue\``,
  );
  // What the network names is read by that name.
  expect(within(withoutNamedLinks(unreadable, [`${base}/shared`]))).toEqual(["design/away.hop"]);
  expect(within(withoutNamedLinks(unreadable, [`${base}/design/other`]))).toEqual(["design/away.hop"]);
  expect(within(withoutNamedLinks(unreadable, [`${base}/shared/deeper`]))).toHaveLength(3);
});

test("a link to nothing and a circle of links are told", () => {
  symlinkSync("nowhere.hop", join(base, "design/broken.hop"));
  symlinkSync("circle.hop", join(base, "design/circle.hop"));
  const { unreadable } = readHopFiles(join(base, "design"));
  const told = unreadable.filter(({ linkTo }) => linkTo === undefined);
  expect(within(told)).toEqual(["design/broken.hop", "design/circle.hop"]);
  expect(told[1]?.message).toContain("circle");
});

test("a folder that may not be read is told, and what lies beside it is read", () => {
  locked = join(base, "design/locked");
  const { texts, unreadable } = readHopFiles(join(base, "design"));
  locked = "";
  expect(within(unreadable)).toContain("design/locked");
  expect(within(texts)).toContain("design/network.hop");
});

test("bytes that are no UTF-8 are told with their line, UTF-16 by its name", () => {
  const bytes = (text: string) => Buffer.from(text, "latin1");
  expect(textOf("a.hop", bytes('site A {\n  title "Gr\xfcnberg"\n}\n'))).toEqual({
    path: "a.hop",
    message: "this is not UTF-8 text (line 2); save it as UTF-8",
  });
  expect(textOf("a.hop", Buffer.from("\ufeffsite A {}\n", "utf16le"))).toEqual({
    path: "a.hop",
    message: "this is UTF-16 text; save it as UTF-8",
  });
  expect(textOf("a.hop", Buffer.from("// Grünberg\n"))).toEqual({ path: "a.hop", text: "// Grünberg\n" });
});

// Where `/` alone parts folders; elsewhere no file can be called so.
test.skipIf(process.platform === "win32")("a backslash in a file's name is a part of it", () => {
  const odd = mkdtempSync(join(tmpdir(), "hopwright-names-"));
  writeFileSync(join(odd, "a\\b.hop"), "site A {}\n");
  const { texts, unreadable } = readHopFiles(odd);
  rmSync(odd, { recursive: true });
  expect(unreadable).toEqual([]);
  expect(texts).toEqual([{ path: `${odd}/a\\b.hop`, text: "site A {}\n" }]);
});
