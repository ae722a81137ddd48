/** Demands in an editor, by the built server on copies of the samples. */
import { cpSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import type {
  CodeLens,
  CompletionList,
  DocumentSymbol,
  FoldingRange,
  Hover,
  InlayHint,
  Location,
  SemanticTokens,
  TextEdit,
  WorkspaceEdit,
} from "vscode-languageserver";
import { codes, Editor } from "./client.js";

const SAMPLES = join(import.meta.dirname, "../../samples");
const DEMANDS = "learning/demands.hop";

let folder: string;
let editor: Editor;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "hopwright-"));
  cpSync(SAMPLES, folder, { recursive: true });
  editor = await Editor.start(folder);
  editor.open(DEMANDS);
  await editor.settled();
});

afterAll(async () => {
  await editor.stop();
  rmSync(folder, { recursive: true, force: true });
});

it("what is wrong in one is told at its line, and goes with it", async () => {
  editor.replace(DEMANDS, "from BIRCH to ALDER", "from BIRCH to ALDR\n  route via ALDER-BRCH");
  await editor.until(DEMANDS, (all) => codes(all).filter((code) => code === "unknown-name").length === 2);
  editor.replace(DEMANDS, "from BIRCH to ALDR\n  route via ALDER-BRCH", "from BIRCH to ALDER");
  await editor.until(DEMANDS, (all) => !codes(all).includes("unknown-name"));
});

it("completion behind a comma offers sites and hops, a unit behind its figure", async () => {
  editor.replace(DEMANDS, "from BIRCH to ALDER", "from BIRCH to ALDER\n  route via BIRCH, ");
  const ask = async (what: string) => {
    const position = editor.position(DEMANDS, what, what.length);
    const { items } = await editor.request<CompletionList>("textDocument/completion", DEMANDS, { position });
    return items.map(({ label }) => label);
  };
  expect(await ask("route via BIRCH, ")).toEqual(expect.arrayContaining(["ALDER", "ALDER-BIRCH"]));
  expect(await ask("latency 2 ")).toEqual(["ms", "s", "us"]);
  editor.replace(DEMANDS, "\n  route via BIRCH, ", "");
});

it("rename of a site reaches the demands that end there", async () => {
  const edit = await editor.request<WorkspaceEdit>("textDocument/rename", DEMANDS, {
    position: editor.position(DEMANDS, "to ALDER", 4),
    newName: "ELDER",
  });
  const files = Object.keys(edit.changes ?? {}).map((uri) => uri.split("/").at(-1));
  expect(files.sort()).toEqual(["demands.hop", "hops.hop", "sites.hop"]);
});

it("hover, definition, symbols, folding, colours and layout know them", async () => {
  const position = editor.position(DEMANDS, "FARM", 1);
  const { contents } = await editor.request<Hover>("textDocument/hover", DEMANDS, { position });
  expect((contents as { value: string }).value).toContain("from BIRCH to ALDER");
  const [target] = await editor.request<Location[]>("textDocument/definition", DEMANDS, {
    position: editor.position(DEMANDS, "from WILLOW", 6),
  });
  expect(target?.uri).toMatch(/sites\.hop$/);
  const symbols = await editor.request<DocumentSymbol[]>("textDocument/documentSymbol", DEMANDS);
  expect(symbols.map(({ name }) => name)).toEqual(["FARM", "MILL", "CLINIC"]);
  const folds = await editor.request<FoldingRange[]>("textDocument/foldingRange", DEMANDS);
  expect(folds.length).toBeGreaterThanOrEqual(3);
  const { data } = await editor.request<SemanticTokens>("textDocument/semanticTokens/full", DEMANDS);
  expect(data.length).toBeGreaterThan(100);
  const edits = await editor.request<TextEdit[]>("textDocument/formatting", DEMANDS, {
    options: { tabSize: 2, insertSpaces: true },
  });
  expect(edits ?? []).toEqual([]);
});

it("hover and hints tell what a demand comes to, and what a hop carries; both follow an edit", async () => {
  editor.open("learning/hops.hop");
  await editor.settled();
  const hover = async (file: string, word: string) => {
    const position = editor.position(file, word, 1);
    const { contents } = await editor.request<Hover>("textDocument/hover", file, { position });
    return (contents as { value: string }).value.replaceAll("\\", "");
  };
  const farm = await hover(DEMANDS, "FARM");
  expect(farm).toMatch(/- route BIRCH > ALDER \(1 hop, [\d.]+ km\)/);
  expect(farm).toMatch(/- availability end to end (> )?99\.\d+ % \(99\.99 % asked, met\)/);
  expect(farm).toMatch(/- multipath .*rain .*equipment/);
  expect(farm).toMatch(/- hangs on hop ALDER-BIRCH/);
  const carries = await hover("learning/hops.hop", "ALDER-BIRCH");
  expect(carries).toMatch(/- carries \d+ demands?, [\d.]+ Mbit\/s committed of [\d.]+ Mbit\/s/);
  expect(carries).toMatch(/- without it: .*FARM/);
  const hints = async (file: string) => {
    const range = { start: { line: 0, character: 0 }, end: { line: 200, character: 0 } };
    const found = await editor.request<InlayHint[]>("textDocument/inlayHint", file, { range });
    return found.map(({ label }) => (label as { value: string }[]).map(({ value }) => value).join(""));
  };
  expect(await hints(DEMANDS)).toContainEqual(
    expect.stringMatching(/^→ 1 hop · (> )?99\.\d+ % · \d\.\d+ ms$/),
  );
  expect(await hints("learning/hops.hop")).toContainEqual(expect.stringMatching(/ · load [\d.]+ %$/));
  editor.replace(DEMANDS, "from BIRCH to ALDER", "from BIRCH to HAZEL");
  await editor.settled();
  expect(await hover(DEMANDS, "FARM")).toMatch(/route BIRCH > ALDER > HAZEL/);
});

it("a lens over a hop and a site tells what remains when it is gone, and follows the text", async () => {
  const ring = "eskerfold/hops/ring.hop";
  editor.open(ring);
  await editor.settled();
  const lenses = async (file: string) =>
    (await editor.request<CodeLens[] | null>("textDocument/codeLens", file))?.map(
      ({ range, command }) => `${lineOf(file, range.start.line)} | ${command!.title}`,
    );
  expect(await lenses(ring)).toContainEqual(
    expect.stringMatching(/^hop LARKHOWE-GULLSCAR .*\| without it: nothing is lost, .*CONTROL.* move/),
  );
  // Nothing is said of a file without hops or sites.
  expect(await lenses("eskerfold/demands.hop")).toEqual([]);
  expect(await lenses("eskerfold/sites.hop")).toContainEqual(
    expect.stringMatching(/^site GULLSCAR .*\| without it: CONTROL, SKELHAVEN-VILLAGE and WORKS are lost/),
  );
});

function lineOf(file: string, line: number): string {
  return readFileSync(join(folder, file), "utf8").split("\n")[line]!;
}
