/** The built server, driven as an editor drives it, on copies of the samples. */
import { cpSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type {
  CompletionList,
  DocumentSymbol,
  Hover,
  InlayHint,
  Location,
  TextEdit,
  WorkspaceEdit,
} from "vscode-languageserver";
import { codes, Editor } from "./client.js";

const SAMPLES = join(import.meta.dirname, "../../samples");
const HOPS = "learning/hops.hop";
const SITES = "learning/sites.hop";

let folder: string;
let editor: Editor;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "hopwright-"));
  cpSync(SAMPLES, folder, { recursive: true });
  editor = await Editor.start(folder);
  editor.open(HOPS);
  await editor.settled();
});

afterAll(async () => {
  await editor.stop();
  rmSync(folder, { recursive: true, force: true });
});

describe("diagnostics", () => {
  it("tell the lesson's findings with rule, page and related places", () => {
    const found = editor.of(HOPS);
    const clearance = found.find(({ code, severity }) => code === "clearance" && severity === 1);
    expect(clearance?.message).toMatch(
      /^ALDER-HAZEL: the ray is blocked by .* the objective asks 1 F1; raise HAZEL to .* m or ALDER to .* m/,
    );
    expect(clearance?.source).toBe("hopwright");
    expect(clearance?.codeDescription?.href).toMatch(/language\/reference\/rules\/clearance\.md$/);
    expect(clearance?.relatedInformation?.map(({ location }) => location.uri.split("/").at(-1))).toContain(
      "network.hop",
    );
    expect(found.find(({ code }) => code === "availability")?.severity).toBe(1);
    // An accepted finding stays to be seen, as information.
    expect(found.find(({ message }) => /^[A-Z]+-[A-Z]+: accepted/.test(String(message)))?.severity).toBe(3);
  });

  it("follow an edit of a height, both ways", async () => {
    const before = codes(editor.of(HOPS));
    const hazel = editor.text(HOPS).indexOf("HAZEL {");
    const line = editor
      .text(HOPS)
      .slice(hazel)
      .match(/antenna DISH60-18 at 15 m/)![0];
    // The antenna behind `HAZEL {`: typed over with what the message asks, then back.
    const block = editor.text(HOPS).slice(hazel, editor.text(HOPS).indexOf("}", hazel));
    editor.replace(HOPS, block, block.replace(line, "antenna DISH60-18 at 39 m"));
    await editor.until(
      HOPS,
      (now) => !now.some(({ code, severity }) => code === "clearance" && severity === 1),
    );
    editor.replace(HOPS, block.replace(line, "antenna DISH60-18 at 39 m"), block);
    await editor.until(HOPS, (now) => JSON.stringify(codes(now)) === JSON.stringify(before));
  });

  it("say at once what is wrong with the text, and let the other hops stand", async () => {
    editor.replace(HOPS, "  radio R18", "  raido R18");
    const now = await editor.until(HOPS, (all) => all.some(({ code }) => code === "unknown-word"));
    expect(codes(now)).toContain("availability");
    editor.replace(HOPS, "  raido R18", "  radio R18");
    await editor.until(HOPS, (all) => !all.some(({ code }) => code === "unknown-word"));
  });

  it("reach hops in a file through an edit in another one", async () => {
    editor.open(SITES);
    editor.replace(SITES, "site HAZEL", "site HAZELS");
    const now = await editor.until(HOPS, (all) => all.some(({ code }) => code === "unknown-name"));
    expect(now.find(({ code }) => code === "unknown-name")?.message).toBe(
      "there is no site HAZEL; did you mean HAZELS?",
    );
    editor.replace(SITES, "site HAZELS", "site HAZEL");
    await editor.until(HOPS, (all) => !all.some(({ code }) => code === "unknown-name"));
  });

  it("vanish with a file, and a file that appears counts", async () => {
    writeFileSync(join(folder, "learning/extra.hop"), "hop EXTRA {\n  ALDER {}\n  NOWHERE {}\n}\n");
    const uri = editor.uri("learning/extra.hop");
    await editor.connection.sendNotification("workspace/didChangeWatchedFiles", {
      changes: [{ uri, type: 1 }],
    });
    await editor.until("learning/extra.hop", (all) => all.some(({ code }) => code === "unknown-name"));
    rmSync(join(folder, "learning/extra.hop"));
    await editor.connection.sendNotification("workspace/didChangeWatchedFiles", {
      changes: [{ uri, type: 3 }],
    });
    await editor.until("learning/extra.hop", (all) => all.length === 0);
  });

  it("survive a burst of half-typed lines and end where they began", async () => {
    await editor.settled();
    const before = JSON.stringify(editor.of(HOPS));
    const typed = "\nhop X-Y {\n  channel F.595 / 55 MHz / 4\n  ALDER { antenna DISH60-18 at 2";
    const end = editor.text(HOPS);
    for (const letter of typed) appendText(letter);
    await editor.settled();
    for (let i = 0; i < typed.length; i++) removeLast();
    expect(editor.text(HOPS)).toBe(end);
    await editor.settled();
    expect(JSON.stringify(editor.of(HOPS))).toBe(before);
  });
});

function appendText(letter: string): void {
  const text = editor.text(HOPS);
  replaceAll(text + letter);
}

function removeLast(): void {
  const text = editor.text(HOPS);
  replaceAll(text.slice(0, -1));
}

/** The whole text as one change. */
function replaceAll(text: string): void {
  editor.replace(HOPS, editor.text(HOPS), text);
}

describe("requests", () => {
  it("hover shows the level diagram of a hop", async () => {
    const hover = await editor.request<Hover>("textDocument/hover", HOPS, {
      position: editor.position(HOPS, "ALDER-HAZEL", 2),
    });
    const { value } = hover.contents as { value: string };
    expect(value).toMatch(/free space/i);
    expect(value).toMatch(/dBm/);
    expect(value).not.toMatch(/NaN|undefined|Infinity/);
  });

  it("completion knows what an end of a hop may still say", async () => {
    const at = editor.position(HOPS, "transmits high");
    const { items } = await editor.request<CompletionList>("textDocument/completion", HOPS, { position: at });
    expect(items.map(({ label }) => label)).toEqual(expect.arrayContaining(["coupler", "feeder", "power"]));
    expect(items.map(({ label }) => label)).not.toContain("tuning");
  });

  it("definition leads to the catalogue in another folder, references come back", async () => {
    const position = editor.position(HOPS, "radio R18", 7);
    const [target] = await editor.request<Location[]>("textDocument/definition", HOPS, { position });
    expect(target?.uri).toMatch(/catalogue\/radios\.hop$/);
    const references = await editor.request<Location[]>("textDocument/references", HOPS, {
      position,
      context: { includeDeclaration: true },
    });
    expect(references.length).toBeGreaterThan(1);
  });

  it("rename changes a site in every file that names it", async () => {
    const edit = await editor.request<WorkspaceEdit>("textDocument/rename", HOPS, {
      position: editor.position(HOPS, "HAZEL {", 1),
      newName: "WILLOWBANK",
    });
    const files = Object.keys(edit.changes ?? {}).map((uri) => uri.split("/").slice(-2).join("/"));
    expect(files.sort()).toEqual(["learning/hops.hop", "learning/sites.hop"]);
  });

  it("rename is refused with a reason where a name is taken", async () => {
    const renaming = editor.request("textDocument/rename", HOPS, {
      position: editor.position(HOPS, "HAZEL {", 1),
      newName: "ALDER",
    });
    await expect(renaming).rejects.toThrow(/ALDER/);
  });

  it("symbols, folding and tokens cover the file", async () => {
    const symbols = await editor.request<DocumentSymbol[]>("textDocument/documentSymbol", HOPS);
    expect(symbols.map(({ name }) => name)).toContain("ALDER-HAZEL");
    expect(symbols[0]?.children?.length).toBe(2);
    expect((await editor.request<unknown[]>("textDocument/foldingRange", HOPS)).length).toBeGreaterThan(4);
    const tokens = await editor.request<{ data: number[] }>("textDocument/semanticTokens/full", HOPS);
    expect(tokens.data.length % 5).toBe(0);
    expect(tokens.data.length).toBeGreaterThan(100);
    const found = await editor.connection.sendRequest<{ name: string }[]>("workspace/symbol", {
      query: "crawf",
    });
    expect(found.map(({ name }) => name)).toContain("CRAWFELL");
  });

  it("inlay hints tell length, azimuth, level, margin and availability", async () => {
    await editor.settled();
    const lines = editor.text(HOPS).split("\n").length;
    const hints = await editor.request<InlayHint[]>("textDocument/inlayHint", HOPS, {
      range: { start: { line: 0, character: 0 }, end: { line: lines, character: 0 } },
    });
    const all = hints
      .flatMap(({ label }) => (typeof label === "string" ? [label] : label.map(({ value }) => value)))
      .join(" ");
    for (const part of [/km/, /°/, /dBm/, /margin/, /%/]) expect(all).toMatch(part);
    expect(all).not.toMatch(/NaN|undefined/);
  });

  it("formatting leaves canonical text alone and mends the rest", async () => {
    expect(
      await editor.request<TextEdit[]>("textDocument/formatting", HOPS, {
        options: { tabSize: 2, insertSpaces: true },
      }),
    ).toEqual([]);
    editor.open("learning/draft.hop", "site   DRAFT {ground 4m}\n");
    const edits = await editor.request<TextEdit[]>("textDocument/formatting", "learning/draft.hop", {
      options: { tabSize: 2, insertSpaces: true },
    });
    expect(edits[0]?.newText).toBe("site DRAFT {\n  ground 4 m\n}\n");
    editor.close("learning/draft.hop");
  });

  it("quick fixes write what the message proposes", async () => {
    editor.open("learning/fix.hop", "site FIX {\n  groud 4 m\n}\n");
    const [diagnostic] = await editor.until("learning/fix.hop", (all) => all.length > 0);
    const actions = await editor.request<{ title: string; edit: WorkspaceEdit }[]>(
      "textDocument/codeAction",
      "learning/fix.hop",
      { range: diagnostic!.range, context: { diagnostics: [diagnostic] } },
    );
    expect(actions.map(({ title }) => title)).toEqual(["Write ground"]);
    editor.close("learning/fix.hop");
  });

  it("report gives a whole page for a hop without scripts", async () => {
    const page = await editor.connection.sendRequest<{ title: string; html: string; hop?: string }>(
      "hopwright/report",
      {
        uri: editor.uri(HOPS),
        line: editor.position(HOPS, "hop ALDER-HAZEL").line,
      },
    );
    expect(page.hop).toBe("ALDER-HAZEL");
    expect(page.html).toMatch(/<svg/);
    expect(page.html).not.toMatch(/<script|NaN/);
  });
});
