/** Interference while typing, by the built server: a hop in a file that nobody touched is told of what another does to it. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { fromHub } from "../../shared/rules/example-interference.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { Editor } from "./client.js";

const grounded = (text: string) => text.replaceAll("structure mast", "ground 200 m\n  structure mast");
const [, SITE = "", KELD = "", MOSS = ""] =
  /^(site[\s\S]*?\n\}\n)\n(hop KELD[\s\S]*?\n\}\n)\n(hop MOSS[\s\S]*)$/.exec(fromHub({ channel: 8 }))!;

let folder: string;
let editor: Editor;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "hopwright-felt-"));
  writeFileSync(join(folder, "network.hop"), grounded(`${EXAMPLE_PREAMBLE}\n${SITE}`));
  writeFileSync(join(folder, "keld.hop"), KELD);
  writeFileSync(join(folder, "moss.hop"), MOSS);
  editor = await Editor.start(folder);
  for (const file of ["keld.hop", "moss.hop"]) editor.open(file);
  await editor.settled();
}, 120_000);
afterAll(async () => {
  await editor.stop();
  rmSync(folder, { recursive: true, force: true });
});

const told = (file: string) =>
  editor.of(file).filter(({ code }) => code === "interference-degradation").length;

test("it comes with the edit that causes it and goes with the one that mends it, again and again", async () => {
  expect([told("keld.hop"), told("moss.hop")]).toEqual([0, 0]);
  for (let round = 0; round < 3; round++) {
    editor.replace("moss.hop", "55 MHz / 8", "55 MHz / 4");
    await editor.settled();
    expect(told("keld.hop"), `round ${round}`).toBeGreaterThan(0);
    expect(told("moss.hop"), `round ${round}`).toBeGreaterThan(0);
    editor.replace("moss.hop", "55 MHz / 4", "55 MHz / 8");
    await editor.settled();
    expect([told("keld.hop"), told("moss.hop")], `round ${round}`).toEqual([0, 0]);
  }
});
