/** Drawings beside the text, by the built server: which address the caret is at, and where what is drawn is stated. */
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { PlaceResult, ReportResult } from "../../server/lsp/protocol.js";
import { Editor } from "./client.js";

const SAMPLES = join(import.meta.dirname, "../../samples");
const SITES = "eskerfold/sites.hop";
const CARDS = "catalogue/indoor.hop";
const HOP = "eskerfold/hops/ring.hop";

let folder: string;
let editor: Editor;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "hopwright-drawings-"));
  cpSync(SAMPLES, folder, { recursive: true });
  editor = await Editor.start(folder);
  for (const file of [SITES, HOP, "learning/sites.hop"]) editor.open(file);
  await editor.settled();
});
afterAll(async () => {
  await editor.stop();
  rmSync(folder, { recursive: true, force: true });
});

function reportAt(file: string, text: string, by = 0): Promise<ReportResult> {
  return editor.connection.sendRequest("hopwright/report", {
    uri: editor.uri(file),
    ...editor.position(file, text, by),
  });
}

function placeOf(at: string, file = SITES): Promise<PlaceResult | null> {
  return editor.connection.sendRequest("hopwright/place", { uri: editor.uri(file), at });
}

function textAt(file: string, { start, end }: PlaceResult["range"]): string {
  expect(start.line).toBe(end.line);
  return editor.text(file).split("\n")[start.line]!.slice(start.character, end.character);
}

test("the caret at a card of a site: its page, and the box of that card", async () => {
  const { site, hop, at, html } = await reportAt(SITES, "BREEZE");
  expect([site, hop, at]).toEqual(["HIGHFOLD", undefined, "site HIGHFOLD / chassis / slot#1"]);
  expect(html).toContain(`data-at="${at}"`);
  expect(html).not.toMatch(/<script|NaN/);
  expect((await reportAt(SITES, "card EMBER 2")).at).toBe("site HIGHFOLD / chassis / card#2");
  expect((await reportAt(SITES, "chassis HEDGE")).at).toBe("site OSTREL / chassis");
});

test("the caret elsewhere in a site: what is drawn around it, from the blank before a line on", async () => {
  expect((await reportAt(SITES, "structure")).at).toBe("site HIGHFOLD / structure");
  expect((await reportAt(SITES, "  structure")).at).toBe("site HIGHFOLD / structure");
  expect((await reportAt(SITES, "battery 200 Ah")).at).toBe("site HIGHFOLD");
  expect((await reportAt(SITES, "site OSTREL")).at).toBe("site OSTREL");
});

test("the caret at an antenna of a hop, its end, its radio", async () => {
  const { hop, site, at } = await reportAt(HOP, "DISH120-11-VH at 20");
  expect([hop, site, at]).toEqual(["HIGHFOLD-OSTREL", undefined, "hop HIGHFOLD-OSTREL / OSTREL / antenna"]);
  expect((await reportAt(HOP, "transmits low")).at).toBe("hop HIGHFOLD-OSTREL / OSTREL");
  expect((await reportAt(HOP, "radio R11")).at).toBe("hop HIGHFOLD-OSTREL / radio");
  expect((await reportAt(HOP, "objective trunk")).at).toBeUndefined();
});

test("asked by name a page is that of its hop or site, and knows of no caret", async () => {
  const ask = (named: object): Promise<ReportResult> =>
    editor.connection.sendRequest("hopwright/report", { uri: editor.uri(SITES), ...named });
  expect(await ask({ site: "OSTREL" })).toMatchObject({ title: "OSTREL", site: "OSTREL" });
  expect((await ask({ site: "OSTREL" })).at).toBeUndefined();
  const overview = await ask({ site: "NOWHERE" });
  expect([overview.site, overview.hop]).toEqual([undefined, undefined]);
  expect(overview.html).toContain('data-at="site OSTREL"');
});

test("the caret at an entry of the catalogue: its page, also when asked by name", async () => {
  editor.open(CARDS);
  await editor.settled();
  expect(await reportAt(CARDS, "card FERN")).toMatchObject({ entry: "card FERN", title: "card FERN" });
  const asked: ReportResult = await editor.connection.sendRequest("hopwright/report", {
    uri: editor.uri(SITES),
    entry: "card FERN",
  });
  expect([asked.title, asked.entry, asked.site]).toEqual(["card FERN", "card FERN", undefined]);
  expect(asked.html).toContain("It goes into traffic slots.");
  // The face that holds it is drawn, and its boxes lead to the text.
  expect(asked.html).toContain('data-at="site HIGHFOLD / chassis');
  const none: ReportResult = await editor.connection.sendRequest("hopwright/report", {
    uri: editor.uri(SITES),
    entry: "card NOWHERE",
  });
  expect(none.entry).toBeUndefined();
});

test("what is drawn has its place in the text, also in another file", async () => {
  const card = await placeOf("site HIGHFOLD / chassis / slot#1");
  expect(card?.uri).toBe(editor.uri(SITES));
  expect(textAt(SITES, card!.range)).toBe("4 BREEZE");
  const antenna = await placeOf("hop HIGHFOLD-OSTREL / OSTREL / antenna");
  expect(antenna?.uri).toBe(editor.uri(HOP));
  expect(textAt(HOP, antenna!.range)).toBe("DISH120-11-VH at 20 m");
});

test("the place follows an edit that nobody has judged yet", async () => {
  editor.replace(SITES, "  slot 4 BREEZE\n", "");
  expect(textAt(SITES, (await placeOf("site HIGHFOLD / chassis"))!.range)).toBe("SPINNEY");
  editor.replace(SITES, "  slot 11 HEATH\n", "  slot 11 HEATH\n    slot 4 BREEZE\n");
  expect(textAt(SITES, (await placeOf("site HIGHFOLD / chassis / slot#1"))!.range)).toBe("4 BREEZE");
});

test("what the design does not declare is nowhere", async () => {
  const nonsense = [
    "",
    " / ",
    "site",
    "site NOWHERE",
    "hop",
    "hop HIGHFOLD-OSTREL#7",
    "__proto__",
    "x".repeat(1e6),
  ];
  for (const at of [...nonsense, "site HIGHFOLD#x / chassis", "../../etc/passwd"])
    expect(await placeOf(at), at.slice(0, 50)).toBeNull();
  // Another design of the opened folder declares it.
  expect(await placeOf("site ALDER")).toBeNull();
  expect(await placeOf("site ALDER", "learning/sites.hop")).not.toBeNull();
  expect(await placeOf("site HIGHFOLD", "learning/sites.hop")).toBeNull();
  expect(await placeOf("site HIGHFOLD", "nowhere/sites.hop")).toBeNull();
});

test("a message without an address, or with one that is no text, is refused", async () => {
  const ask = (params: object) => editor.connection.sendRequest("hopwright/place", params);
  await expect(ask({ uri: editor.uri(SITES) })).rejects.toThrow("params.at must be a string");
  await expect(ask({ uri: editor.uri(SITES), at: { toString: 1 } })).rejects.toThrow(
    "params.at must be a string",
  );
});
