/** Documents that no file of the opened folders holds: unsaved ones, those of a revision, folders opened later. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { CodeAction, CompletionList, Diagnostic, Hover, SemanticTokens } from "vscode-languageserver";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { Editor } from "./client.js";

const all = mkdtempSync(join(tmpdir(), "hopwright-documents-"));
let editor: Editor;
const diagnostics = new Map<string, Diagnostic[]>();

beforeAll(async () => {
  for (const name of ["design", "later"]) mkdirSync(join(all, name));
  writeFileSync(join(all, "design", "main.hop"), `${EXAMPLE_PREAMBLE}\n${exampleHop()}`);
  writeFileSync(join(all, "later", "main.hop"), 'network "Later" {}\nnonsense\n');
  editor = await Editor.start(join(all, "design"));
  editor.connection.onNotification("textDocument/publishDiagnostics", (params) => {
    diagnostics.set(params.uri, params.diagnostics);
  });
  await editor.settled();
});

afterAll(async () => {
  await editor.stop();
  rmSync(all, { recursive: true, force: true });
});

const open = (uri: string, text: string) =>
  editor.connection.sendNotification("textDocument/didOpen", {
    textDocument: { uri, languageId: "hopwright", version: 1, text },
  });
const ask = <T>(method: string, uri: string, rest: object = {}) =>
  editor.connection.sendRequest<T>(method, { textDocument: { uri }, ...rest });

it("an unsaved document has completion, hovers, findings and fixes, and changes no design", async () => {
  const uri = "untitled:Untitled-1";
  const text = exampleHop({ keld: "antenna DISH60-1 at 40 m\n    transmits high" }).replaceAll(
    "KELD-TARN",
    "NEW",
  );
  await open(uri, text);
  await editor.settled();
  expect(diagnostics.get(uri)!.map(({ code }) => code)).toContain("unknown-name");
  const line = text.split("\n").findIndex((one) => one.includes("DISH60-1"));
  const at = { line, character: text.split("\n")[line]!.indexOf("DISH60-1") + 1 };
  const offered = await ask<CompletionList>("textDocument/completion", uri, { position: at });
  expect(offered.items.map(({ label }) => label)).toContain("DISH60-18");
  const radio = text.split("\n").findIndex((one) => one.includes("radio R18"));
  const hover = await ask<Hover>("textDocument/hover", uri, { position: { line: radio, character: 9 } });
  expect(JSON.stringify(hover.contents)).toContain("R18");
  const actions = await ask<CodeAction[]>("textDocument/codeAction", uri, {
    range: { start: at, end: at },
    context: { diagnostics: [] },
  });
  expect(actions.length).toBeGreaterThan(0);
  for (const { edit } of actions) expect(Object.keys(edit!.changes!)).toEqual([uri]);
  const rename = ask("textDocument/rename", uri, { position: { line: radio, character: 9 }, newName: "R99" });
  await expect(rename).rejects.toThrow(/the design has this name too/);
  const { designs } = await editor.connection.sendRequest<{
    designs: { standing: string; hops: number }[];
  }>("hopwright/check", {});
  expect(designs.map(({ standing, hops }) => [standing, hops])).toEqual([
    ["opened", 1],
    ["copy", 2],
  ]);
});

it("what is shown of a revision is coloured, and nothing else", async () => {
  const uri = `git:${join(all, "design", "main.hop")}?HEAD`;
  await open(uri, "nonsense\nradio R18 { tuning 1 GHz to 2 GHz }\n");
  await editor.settled();
  expect(diagnostics.get(uri)).toBeUndefined();
  const { data } = await ask<SemanticTokens>("textDocument/semanticTokens/full", uri);
  expect(data.length).toBeGreaterThan(0);
  expect(await ask("textDocument/hover", uri, { position: { line: 1, character: 7 } })).toBeNull();
  expect(await ask("textDocument/documentSymbol", uri)).toEqual([]);
});

it("a folder that is opened later is judged, and one that is closed is not shown any more", async () => {
  const later = pathToFileURL(join(all, "later")).href;
  const change = (added: string[], removed: string[]) =>
    editor.connection.sendNotification("workspace/didChangeWorkspaceFolders", {
      event: {
        added: added.map((uri) => ({ uri, name: "later" })),
        removed: removed.map((uri) => ({ uri, name: "later" })),
      },
    });
  await change([later], []);
  await editor.settled();
  expect(diagnostics.get(`${later}/main.hop`)).toHaveLength(1);
  await change([], [later]);
  await editor.settled();
  expect(diagnostics.get(`${later}/main.hop`)).toEqual([]);
});
