/** Channels in the editor: figures beside the numbers, fixes that say them, and all open hops in one edit. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { ApplyWorkspaceEditParams, CodeAction, CompletionList } from "vscode-languageserver/node";
import { fromHub } from "../../shared/rules/example-interference.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { Editor } from "./client.js";

const grounded = (text: string) => text.replaceAll("structure mast", "ground 200 m\n  structure mast");
const [, SITE = "", KELD = "", MOSS = ""] =
  /^(site[\s\S]*?\n\}\n)\n(hop KELD[\s\S]*?\n\}\n)\n(hop MOSS[\s\S]*)$/.exec(fromHub({ channel: 8 }))!;
const OPEN = MOSS.replace("55 MHz / 8", "55 MHz").replace("  polarization vertical\n", "");

let folder: string;
let editor: Editor;
const edits: ApplyWorkspaceEditParams[] = [];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "hopwright-open-"));
  writeFileSync(join(folder, "network.hop"), grounded(`${EXAMPLE_PREAMBLE}\n${SITE}`));
  writeFileSync(join(folder, "keld.hop"), KELD);
  writeFileSync(join(folder, "moss.hop"), OPEN);
  editor = await Editor.start(folder);
  editor.connection.onRequest("workspace/applyEdit", (params: ApplyWorkspaceEditParams) => {
    edits.push(params);
    return { applied: true };
  });
  for (const file of ["keld.hop", "moss.hop"]) editor.open(file);
  await editor.settled();
}, 120_000);
afterAll(async () => {
  await editor.stop();
  rmSync(folder, { recursive: true, force: true });
});

const at = (file: string, what: string, by = 0) => ({
  textDocument: { uri: editor.uri(file) },
  position: editor.position(file, what, by),
});

test("completion at the number tells what each channel suffers and causes, the best first", async () => {
  editor.replace("moss.hop", "55 MHz\n", "55 MHz / \n");
  await editor.settled();
  const { items } = (await editor.connection.sendRequest(
    "textDocument/completion",
    at("moss.hop", "55 MHz / ", 9),
  )) as CompletionList;
  expect(items).toHaveLength(17);
  const detail = (label: string) => items.find((one) => one.label === label)!.detail!;
  expect(detail("4")).toMatch(
    /^low 17\.92 GHz, high 18\.93 GHz; suffers \d+\.\d dB from KELD-TARN.*, causes \d+\.\d dB at KELD-TARN/,
  );
  expect(detail("12")).toMatch(/; suffers 0\.0 dB, causes 0\.0 dB(, [\d.]+ % available)?$/);
  const order = items.toSorted((a, b) => (a.sortText! < b.sortText! ? -1 : 1)).map(({ label }) => label);
  expect(order.at(-1)).toBe("4");
  editor.replace("moss.hop", "55 MHz / \n", "55 MHz\n");
  await editor.settled();
});

const actionsAt = async (triggerKind: 1 | 2) => {
  const { textDocument, position } = at("moss.hop", "P18 / 55 MHz");
  return (await editor.connection.sendRequest("textDocument/codeAction", {
    textDocument,
    range: { start: position, end: position },
    context: { diagnostics: [], triggerKind },
  })) as CodeAction[];
};

test("fixes of an open hop say both figures; the caret alone tries nothing", async () => {
  const channels = (actions: readonly CodeAction[]) =>
    actions.filter(({ title }) => title.startsWith("Take channel"));
  const asked = channels(await actionsAt(1));
  expect(asked).toHaveLength(3);
  for (const { title, edit } of asked) {
    expect(title).toMatch(/^Take channel P18 \/ 55 MHz \/ \d+: suffers \d+\.\d dB.*, causes \d+\.\d dB/);
    const number = /MHz \/ (\d+)/.exec(title)![1];
    expect(edit!.changes![editor.uri("moss.hop")]).toMatchObject([{ newText: `55 MHz / ${number}` }]);
  }
  expect(channels(await actionsAt(2))).toEqual([]);
});

test("all open hops are proposed in one edit", async () => {
  const action = (await actionsAt(2)).find(({ command }) => command !== undefined)!;
  expect(action.title).toBe("Propose number, polarization and half for all open hops");
  const { command, arguments: args } = action.command!;
  await editor.connection.sendRequest("workspace/executeCommand", { command, arguments: args });
  expect(edits).toHaveLength(1);
  const texts = edits[0]!.edit.changes![editor.uri("moss.hop")]!.map(({ newText }) => newText.trim());
  expect(texts).toEqual([
    expect.stringMatching(/^55 MHz \/ \d+$/),
    expect.stringMatching(/^polarization (vertical|horizontal)$/),
  ]);
});

test("a command for nothing is answered with nothing", async () => {
  for (const args of [undefined, [], [7], ["file:///nowhere/x.hop"]])
    expect(
      await editor.connection.sendRequest("workspace/executeCommand", {
        command: "hopwright.proposeChannels",
        ...(args && { arguments: args }),
      }),
    ).toBeNull();
  expect(edits).toHaveLength(1);
});
