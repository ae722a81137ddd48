import { chmodSync, existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import type { CodeLens } from "vscode-languageserver";
import {
  CHANGED,
  type ChangedParams,
  COMPARE,
  type CompareParams,
  type CompareResult,
  TRUSTED,
} from "../../server/lsp/protocol.js";
import { files, hop } from "../compare/network.js";
import { TestRepository } from "../compare/repository.js";
import { Editor } from "./client.js";

let repository: TestRepository;
let editor: Editor;
let changed: ChangedParams[];

beforeEach(async () => {
  repository = TestRepository.create();
  repository.write(files());
  repository.commit("base");
  repository.edit("hops/south.hop", "DISH60-18", "DISH120-18");
  editor = await Editor.start(repository.root);
  changed = [];
  editor.connection.onNotification(CHANGED, (params: ChangedParams) => void changed.push(params));
});

afterEach(async () => {
  await editor.stop();
  repository.remove();
});

function compare(revision: string | null): Promise<CompareResult> {
  const params: CompareParams = { uri: editor.uri("network.hop"), revision };
  return editor.connection.sendRequest(COMPARE, params);
}

async function lenses(file: string): Promise<string[]> {
  const textDocument = { uri: editor.uri(file) };
  const found = await editor.connection.sendRequest<CodeLens[]>("textDocument/codeLens", { textDocument });
  return found.map(({ range, command }) => `${range.start.line} ${command!.title}`);
}

async function until<T>(look: () => T | undefined | Promise<T | undefined>): Promise<T> {
  for (let waited = 0; waited < 10_000; waited += 50) {
    const found = await look();
    if (found !== undefined) return found;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error("waited in vain");
}

test("a comparison is a page, lenses over the hops that changed, and marks in the margin", async () => {
  editor.open("hops/south.hop");
  expect(await lenses("hops/south.hop")).toEqual([]);
  const { title, html, problem } = await compare("main");
  expect([title, problem]).toEqual(["Since main", undefined]);
  expect(html).toContain("<h1>Changes of Change</h1>");
  expect(html).toMatch(/FELL-TARN: margin \+11\.0\u00a0dB/);
  expect(html).not.toContain("<script");
  expect(await lenses("hops/south.hop")).toEqual([
    expect.stringMatching(/^0 changed since main: margin \+11\.0 dB/),
  ]);
  expect(changed.at(-1)).toEqual({
    revision: "main",
    files: [
      {
        uri: editor.uri("hops/south.hop"),
        marks: [
          { fromLine: 0, toLine: 10, kind: "better", text: expect.stringContaining("margin +11.0 dB") },
        ],
      },
    ],
  });
});

test("it follows what is typed, also in hops that nobody edits, and ends when told", async () => {
  editor.open("hops/south.hop");
  editor.open("catalogue.hop");
  await compare("HEAD");
  editor.replace("hops/south.hop", "DISH120-18", "DISH60-18");
  editor.replace("hops/south.hop", "DISH120-18", "DISH60-18");
  await until(async () => ((await lenses("hops/south.hop")).length === 0 ? true : undefined));
  editor.replace("catalogue.hop", "gain 38.5 dBi", "gain 30 dBi");
  const told = await until(() =>
    changed.at(-1)?.files.find(({ uri }) => uri === editor.uri("hops/north.hop")),
  );
  expect(told.marks.map(({ kind }) => kind)).toEqual(["worse", "worse"]);
  // Two antennas, 8.5 dB each.
  const over = await lenses("hops/north.hop");
  expect(over.map((lens) => lens.slice(0, 2).trim()).sort()).toEqual(["0", "12"]);
  for (const lens of over) expect(lens).toContain(" changed without an edit since HEAD: margin -17.0 dB");
  expect(await compare(null)).toEqual({});
  expect(await lenses("hops/north.hop")).toEqual([]);
  expect(changed.at(-1)).toEqual({ files: [] });
});

test("what cannot be compared is told in a sentence", async () => {
  expect((await compare("mian")).problem).toMatch(/^mian: there is no such revision/);
  repository.write({ "hops/new.hop": hop("KELD-FELL", "KELD", "FELL", 10) });
  repository.git("checkout", "-q", "--orphan", "alone");
  expect((await compare("alone")).problem).toMatch(/^alone: there is no such revision/);
});

test("git is not started in a workspace that is not trusted, which is told; once it is trusted, without a restart", async () => {
  await editor.stop();
  // A program of this name that leaves a mark, first on the path.
  const bin = mkdtempSync(join(tmpdir(), "hopwright-bin-"));
  const started = join(bin, "started");
  writeFileSync(
    join(bin, "git"),
    `#!/bin/sh\necho git >> "${started}"\nPATH="${process.env.PATH}" exec git "$@"\n`,
  );
  chmodSync(join(bin, "git"), 0o755);
  const path = process.env.PATH!;
  process.env.PATH = `${bin}${delimiter}${path}`;
  try {
    for (const options of [{ trusted: false }, {}, { trusted: "yes" }]) {
      editor = await Editor.start(repository.root, options);
      editor.open("network.hop");
      expect(await compare("main")).toEqual({
        problem: expect.stringMatching(/^Comparing starts git, and nothing is started .* not trusted/),
        untrusted: true,
      });
      expect(await lenses("network.hop")).toEqual(["0 not compared with main: the workspace is not trusted"]);
      expect(existsSync(started)).toBe(false);
      await editor.connection.sendNotification(TRUSTED);
      expect((await compare("main")).title).toBe("Since main");
      expect(await lenses("network.hop")).toEqual([]);
      expect(await lenses("hops/south.hop")).toHaveLength(1);
      expect(existsSync(started)).toBe(true);
      rmSync(started);
      await editor.stop();
    }
    editor = await Editor.start(repository.root, { trusted: true });
    editor.open("network.hop");
    expect((await compare("main")).title).toBe("Since main");
  } finally {
    process.env.PATH = path;
    rmSync(bin, { recursive: true, force: true });
  }
}, 120_000);
