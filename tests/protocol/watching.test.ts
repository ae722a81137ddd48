/** What changes on disk beside the designs: maps, surveys, and folders that lie elsewhere. */
import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { Hover } from "vscode-languageserver";
import { MAP_PRODUCTS } from "../../shared/propagation/maps.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { Editor } from "./client.js";

/** The maps answer for logK; the ground elsewhere is empty, so that the survey alone tells of ground. */
const TEXT = `${EXAMPLE_PREAMBLE.replace("    logK -4.2\n", "").replace("  climate {", '  terrain "../ground"\n  maps "maps"\n  climate {')}
hop SURVEYED {
  objective trunk
  channel P18 / 55 MHz / 4
  polarization vertical
  radio R18
  mode 55 MHz 128QAM
  survey "path.csv" from KELD
  KELD { antenna DISH60-18 at 20 m; transmits high }
  TARN { antenna DISH60-18 at 20 m; transmits low }
}
`;

const all = mkdtempSync(join(tmpdir(), "hopwright-watch-"));
const folder = join(all, "design");
let editor: Editor;

beforeAll(async () => {
  for (const name of ["design/maps", "ground"]) mkdirSync(join(all, name), { recursive: true });
  writeFileSync(join(folder, "main.hop"), TEXT);
  writeMap(-4);
  survey(100);
  editor = await Editor.start(folder);
  editor.open("main.hop");
  await editor.settled();
});

afterAll(async () => {
  await editor.stop();
  rmSync(all, { recursive: true, force: true });
});

let age = 0;

/** The same value everywhere, a second later each time. */
function writeMap(logK: number): void {
  const { file, shape } = MAP_PRODUCTS.find(({ fact }) => fact === "logK")!;
  const row = Array.from({ length: shape.columns }, () => logK.toFixed(2)).join(",");
  const path = join(folder, "maps", file);
  writeFileSync(path, `${Array.from({ length: shape.rows }, () => row).join("\n")}\n`);
  age++;
  utimesSync(path, 1_700_000_000 + age, 1_700_000_000 + age);
}

/** Level ground with a ridge half way. */
function survey(ridgeM: number): void {
  const rows = Array.from({ length: 101 }, (_, i) => `${(i * 93.62).toFixed(2)},${i === 50 ? ridgeM : 100}`);
  writeFileSync(join(folder, "path.csv"), `distance_m,height_m\n${rows.join("\n")}\n`);
}

async function hover(what: string): Promise<string> {
  await editor.settled();
  const found = await editor.request<Hover>("textDocument/hover", "main.hop", {
    position: editor.position("main.hop", what, 6),
  });
  const { value } = found.contents as { value: string };
  expect(value).not.toContain("Not evaluated");
  return value;
}

it("maps and surveys are watched, and folders elsewhere that the design names", () => {
  const patterns = editor.watched.map(({ globPattern }) => globPattern);
  const plain = patterns.filter((pattern) => typeof pattern === "string").join(" ");
  for (const { file } of MAP_PRODUCTS) expect(plain).toContain(file.split(".").at(-1)!);
  const elsewhere = patterns.flatMap((pattern) =>
    typeof pattern === "string" ? [] : [String(pattern.baseUri)],
  );
  expect(new Set(elsewhere.map((uri) => uri.split("/").at(-1)))).toEqual(new Set(["ground"]));
});

it("a map that changed is read again", async () => {
  const before = await hover("hop SURVEYED");
  writeMap(-2);
  await editor.changedOnDisk("maps/LogK.csv");
  expect(await hover("hop SURVEYED")).not.toBe(before);
});

it("a survey that changed is read again", async () => {
  const before = await hover("hop SURVEYED");
  survey(140);
  await editor.changedOnDisk("path.csv");
  expect(await hover("hop SURVEYED")).not.toBe(before);
});
