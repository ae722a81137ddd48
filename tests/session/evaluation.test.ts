/** What an editor is shown stays true when files go, come from elsewhere or cannot be read. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeEach, expect, test } from "vitest";
import { Designs } from "../../server/lsp/designs.js";
import { Evaluation } from "../../server/lsp/evaluation.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { shownFrom } from "./shown.js";

const base = mkdtempSync(join(tmpdir(), "hopwright-evaluation-")).replaceAll("\\", "/");
afterAll(() => rmSync(base, { recursive: true, force: true }));
beforeEach(() => rmSync(join(base, "work"), { recursive: true, force: true }));

function write(file: string, text: string): string {
  const path = `${base}/${file}`;
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
  return path;
}

/** The designs below `work`, and what is shown for each file. */
function opened() {
  return shownFrom(`${base}/work`);
}

test("nothing is shown any more for a file that is gone, though the network went in the same moment", async () => {
  const network = write("work/network.hop", 'network "N" {}\n');
  const broken = write("work/broken.hop", "nonsense\n");
  const { designs, shown, settled } = opened();
  await settled();
  expect(shown.get(broken)).toHaveLength(1);
  for (const path of [broken, network]) {
    rmSync(path);
    designs.changedOnDisk(path);
  }
  await settled();
  expect(shown.get(broken)).toEqual([]);
});

test("with a folder its files go, of which nothing is told", async () => {
  write("work/network.hop", 'network "N" {}\n');
  const broken = write("work/hops/broken.hop", "nonsense\n");
  const binary = write("work/hops/binary.hop", "\0");
  const { designs, shown, settled } = opened();
  await settled();
  expect([shown.get(broken), shown.get(binary)]).toEqual([[expect.anything()], [expect.anything()]]);
  rmSync(dirname(broken), { recursive: true });
  designs.changedOnDisk(dirname(broken));
  await settled();
  expect([shown.get(broken), shown.get(binary)]).toEqual([[], []]);
});

test("a file that cannot be read says so itself, until it can", async () => {
  write("work/network.hop", 'network "N" {}\n');
  const binary = write("work/binary.hop", "site A\0");
  const { designs, shown, settled } = opened();
  await settled();
  expect(shown.get(binary)).toEqual([expect.stringContaining("this is not text")]);
  write("work/binary.hop", "");
  designs.changedOnDisk(binary);
  await settled();
  expect(shown.get(binary)).toEqual([]);
});

test("a catalogue named in an edit is read, also when the editor asks about the text before the next run", async () => {
  write("elsewhere/equipment.hop", "antenna X { gain 30 dBi }\n");
  const network = write("work/network.hop", 'network "N" {}\n');
  const { designs, settled } = opened();
  await settled();
  designs.edit(network, 'network "N" { catalogue "../elsewhere" }\n');
  designs.file(network);
  await settled();
  expect(designs.file(`${base}/elsewhere/equipment.hop`)).toBeDefined();
});

test("a catalogue that is named no more counts no more, and counts again when it is named again", async () => {
  const shared = write("elsewhere/equipment.hop", "antenna X { gain 30 dBi }\nnonsense\n");
  const network = write(
    "work/network.hop",
    'network "N" { catalogue "../elsewhere" }\nantenna Y like X {}\n',
  );
  const { designs, shown, settled } = opened();
  await settled();
  expect([shown.get(network) ?? [], shown.get(shared)]).toEqual([[], [expect.anything()]]);
  designs.edit(network, 'network "N" {}\nantenna Y like X {}\n');
  await settled();
  expect(shown.get(network)).toEqual([expect.stringContaining("there is no antenna X")]);
  expect(shown.get(shared)).toEqual([]);
  write("elsewhere/more.hop", "antenna X { gain 33 dBi }\n");
  designs.changedOnDisk(`${base}/elsewhere/more.hop`);
  await settled();
  expect(designs.file(`${base}/elsewhere/more.hop`)).toBeUndefined();
  designs.edit(network, 'network "N" { catalogue "../elsewhere" }\nantenna Y like X {}\n');
  await settled();
  expect(shown.get(network)).toEqual([]);
  expect(designs.file(`${base}/elsewhere/more.hop`)).toBeDefined();
});

test("a catalogue that names itself counts no longer than it is named from the design, or open", async () => {
  const text = 'network "Own" { catalogue "../elsewhere" }\nantenna Z like Y {}\n';
  const stray = write("elsewhere/stray.hop", text);
  write("work/network.hop", 'network "N" {}\n');
  const { designs, shown, settled } = opened();
  designs.edit(stray, text);
  await settled();
  expect(shown.get(stray)).toHaveLength(1);
  designs.close(stray);
  await settled();
  expect([shown.get(stray), designs.allSessions().length]).toEqual([[], 1]);
});

test("a document from elsewhere that is merely opened is judged by itself and is no part of the design", async () => {
  const network = write("work/network.hop", 'network "N" {}\nantenna X { gain 30 dBi }\n');
  const stray = write("elsewhere/stray.hop", "antenna X { gain 33 dBi }\nantenna Z like Y {}\n");
  const { designs, shown, settled } = opened();
  await settled();
  designs.edit(stray, "antenna X { gain 33 dBi }\nantenna Z like Y {}\n");
  await settled();
  expect(shown.get(network) ?? []).toEqual([]);
  expect(shown.get(stray)).toEqual([expect.stringContaining("there is no antenna Y")]);
  expect(designs.sessionsOf(network)[0]!.model.file(stray)).toBeUndefined();
  designs.close(stray);
  await settled();
  expect([shown.get(stray), designs.allSessions().length]).toEqual([[], 1]);
});

test("a site is unused as soon as an unfinished hop ends there no more", async () => {
  const sites = write("work/sites.hop", 'network "N" {}\nsite A { at 47 -30 }\n');
  const hops = write("work/hops.hop", "hop H { A {} }\n");
  const { designs, shown, settled } = opened();
  await settled();
  expect(shown.get(sites) ?? []).toEqual([]);
  designs.edit(hops, "hop H { }\n");
  await settled();
  expect(shown.get(sites)).toEqual(["no hop ends at A"]);
  designs.edit(hops, "hop H { A {} }\n");
  await settled();
  expect(shown.get(sites)).toEqual([]);
});

test("what a diagnostic points at in another file moves with that file's lines", async () => {
  const objective = "objective o { availability 99.9 % }\n";
  const network = write("work/network.hop", `network "N" {}\n${objective}`);
  const hops = write(
    "work/hops.hop",
    "site A { at 47 -30 }\nhop H { objective o; A {}; B {} }\nsite B { at 47 -30.1 }\n",
  );
  const places: number[][] = [];
  const designs = new Designs([`${base}/work`], { today: "2027-01-01" });
  const evaluation = new Evaluation(designs, {
    publish: (path, diagnostics) => {
      const related = diagnostics.flatMap(({ relatedInformation = [] }) => relatedInformation);
      const inNetwork = related.filter(({ location }) => location.uri.endsWith("network.hop"));
      if (path === hops) places.push(inNetwork.map(({ location }) => location.range.start.line));
    },
    changed: () => undefined,
    status: () => undefined,
    failed: (error) => {
      throw error;
    },
  });
  designs.load();
  for (const above of ["", "\n\n", "\n"]) {
    designs.edit(network, `network "N" {}\n${above}${objective}`);
    evaluation.touch();
    await evaluation.settled();
  }
  expect(places).toEqual([[1], [3], [2]]);
});

test("before all that is planned stands, an open design is judged too, and told with the time", async () => {
  const text = (first: string) => `${EXAMPLE_PREAMBLE}
${exampleHop({ keld: `antenna DISH60-18 at 70 m state removed 2999-01-01\n    antenna DISH60-18 at 40 m state planned 2999-01-01\n    transmits ${first}` })}`;
  const path = write("work/main.hop", text("high"));
  const { designs, shown, settled } = opened();
  await settled();
  const above = () => shown.get(path)!.filter((message) => message.includes("70.0 m"));
  expect(above()).toEqual([expect.stringMatching(/\(until 2999-01-01\)/)]);
  // The line moves, and the finding with it; without the state there is nothing to tell of earlier times.
  designs.edit(path, `\n${text("high")}`);
  await settled();
  expect(above()).toHaveLength(1);
  designs.edit(path, text("high").replace("    antenna DISH60-18 at 70 m state removed 2999-01-01\n", ""));
  await settled();
  expect(above()).toEqual([]);
});

test("terrain, maps and catalogues that are not there or cannot be read are told where they are named", async () => {
  write("work/tiles/N47W031.tif", "no raster");
  const network = write(
    "work/network.hop",
    `network "N" {\n  terrain "tiles"\n  terrain "nowhere"\n  maps "charts"\n  catalogue "../shelf"\n}\n${EXAMPLE_PREAMBLE.replace(/network [\s\S]*?\n\}\n/, "")}\n${exampleHop()}\n`,
  );
  const { designs, shown, settled } = opened();
  await settled();
  const told = (shown.get(network) ?? []).join("\n");
  for (const words of [
    "tiles/N47W031.tif: ",
    "nowhere: ",
    "charts: ",
    "this catalogue folder does not exist",
  ])
    expect(told).toContain(words);
  mkdirSync(`${base}/shelf`, { recursive: true });
  designs.edit(network, `network "N" {\n  catalogue "../shelf"\n}\n`);
  await settled();
  expect((shown.get(network) ?? []).join("\n")).not.toContain("does not exist");
});
