/** Messages of any size and shape: the server answers or refuses them, and goes on. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { Editor } from "./client.js";

const folder = mkdtempSync(join(tmpdir(), "hopwright-messages-"));
let editor: Editor;
let before: readonly unknown[];

beforeAll(async () => {
  mkdirSync(join(folder, "hops"));
  writeFileSync(join(folder, "network.hop"), 'network "N" {}\nsite A { at 47 -30 }\nantenna B like C {}\n');
  writeFileSync(join(folder, "hops/large.hop"), "");
  editor = await Editor.start(folder);
  await editor.settled();
  before = editor.of("network.hop").map(({ code }) => code);
  expect(before).toContain("unknown-name");
});
afterAll(async () => {
  await editor.stop();
  rmSync(folder, { recursive: true, force: true });
});

/** What was wrong before is still told, and nothing else. */
async function expectAlive(): Promise<void> {
  await editor.settled();
  expect(editor.of("network.hop").map(({ code }) => code)).toEqual(before);
}

test("a document beyond the bound of a file is told so and costs the design nothing", async () => {
  editor.open("hops/large.hop", "site X { at 47 -30 }\n".repeat(1_000_000));
  await editor.settled();
  const [told, ...others] = editor.of("hops/large.hop");
  expect([told?.message, others]).toEqual([
    expect.stringMatching(/^21 MB is too large for a design file \(limit 20 MB\)/),
    [],
  ]);
  for (const method of ["documentSymbol", "foldingRange", "semanticTokens/full", "formatting"])
    await editor.request(`textDocument/${method}`, "hops/large.hop", {
      options: { tabSize: 2, insertSpaces: true },
    });
  await expectAlive();
  editor.close("hops/large.hop");
  await editor.settled();
  expect(editor.of("hops/large.hop")).toEqual([]);
});

const FAR = [
  { line: 1e9, character: 1e9 },
  { line: -1, character: -5 },
  { line: 0.5, character: 1e300 },
];

test("places that are nowhere, and documents that nobody opened, get an answer", async () => {
  const context = { includeDeclaration: true, diagnostics: [] };
  for (const position of FAR)
    for (const uri of [
      editor.uri("network.hop"),
      editor.uri("none.hop"),
      "untitled:Untitled-1",
      "git:/a.hop?x",
      "",
      "%",
    ])
      for (const method of [
        "hover",
        "completion",
        "definition",
        "references",
        "documentHighlight",
        "prepareRename",
        "rename",
        "inlayHint",
        "codeAction",
      ])
        await editor.connection
          .sendRequest(`textDocument/${method}`, {
            textDocument: { uri },
            position,
            range: { start: position, end: position },
            newName: "x".repeat(1_000_000),
            context,
          })
          // To refuse is an answer; a fault of the server would say what it stumbled over.
          .catch((error: Error) =>
            expect(error.message).not.toMatch(/undefined|not a function|Cannot read|NaN/),
          );
  await expectAlive();
});

test("queries of a megabyte, unknown methods and changes of what is not open are borne", async () => {
  expect(await editor.connection.sendRequest("workspace/symbol", { query: "q".repeat(1_000_000) })).toEqual(
    [],
  );
  await expect(editor.connection.sendRequest("no/such", {})).rejects.toThrow(
    "no/such: there is no such request",
  );
  await editor.connection.sendNotification("textDocument/didChange", {
    textDocument: { uri: editor.uri("none.hop"), version: 3 },
    contentChanges: [{ text: "site" }],
  });
  await editor.connection.sendNotification("textDocument/didClose", {
    textDocument: { uri: editor.uri("none.hop") },
  });
  await editor.connection.sendNotification("workspace/didChangeWatchedFiles", {
    changes: [...Array(10_000).keys()].map((n) => ({ uri: editor.uri(`none-${n}.hop`), type: 1 + (n % 3) })),
  });
  await expectAlive();
});

test("a change with ranges that are nowhere leaves a text that is judged", async () => {
  editor.open("network.hop");
  for (const [index, start] of FAR.entries())
    await editor.connection.sendNotification("textDocument/didChange", {
      textDocument: { uri: editor.uri("network.hop"), version: 2 + index },
      contentChanges: [{ range: { start, end: start }, text: "\n" }],
    });
  await expectAlive();
});
