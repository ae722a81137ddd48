/** Licences while typing, by the built server: an edit of a hop is told at its own line, and the licence stays as it is. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { Editor } from "./client.js";

const LICENCE = `licence "F-1" of KELD-TARN from KELD {
  frequency 18.93 GHz
  height 40 m
}
`;

let folder: string;
let editor: Editor;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "hopwright-licensed-"));
  writeFileSync(
    join(folder, "network.hop"),
    EXAMPLE_PREAMBLE.replaceAll("structure mast", "ground 200 m\n  structure mast"),
  );
  writeFileSync(join(folder, "hops.hop"), exampleHop());
  writeFileSync(join(folder, "licences.hop"), LICENCE);
  editor = await Editor.start(folder);
  for (const file of ["hops.hop", "licences.hop"]) editor.open(file);
  await editor.settled();
}, 120_000);
afterAll(async () => {
  await editor.stop();
  rmSync(folder, { recursive: true, force: true });
});

const told = (file: string) =>
  editor
    .of(file)
    .filter(({ code }) => String(code).startsWith("licence-"))
    .map(({ code, range }) => `${code} ${range.start.line}`);

test("it comes at the line of the edit and goes with it; a change of the licence is seen in the hop", async () => {
  const keld = editor
    .text("hops.hop")
    .split("\n")
    .findIndex((line) => line.includes("DISH60-18 at 40 m"));
  expect([...told("hops.hop"), ...told("licences.hop")]).toEqual([]);
  editor.replace(
    "hops.hop",
    "antenna DISH60-18 at 40 m\n    transmits high",
    "antenna DISH60-18 at 44 m\n    transmits high",
  );
  await editor.settled();
  expect(told("hops.hop")).toEqual([`licence-differs ${keld}`]);
  editor.replace("licences.hop", "height 40 m", "height 44 m");
  await editor.settled();
  expect([...told("hops.hop"), ...told("licences.hop")]).toEqual([]);
  editor.replace("licences.hop", "of KELD-TARN", "of KELD-TRAN");
  await editor.settled();
  expect(told("licences.hop")).toEqual(["licence-unused 0"]);
  editor.replace("licences.hop", "of KELD-TRAN", "of KELD-TARN");
  await editor.settled();
  expect([...told("hops.hop"), ...told("licences.hop")]).toEqual([]);
});

test("hovering on the licence tells both sides", async () => {
  const hover = await editor.request<{ contents: { value: string } }>("textDocument/hover", "licences.hop", {
    position: editor.position("licences.hop", "licence"),
  });
  expect(hover.contents.value).toContain("| frequency | 18.93 GHz | 18.93 GHz |");
});
