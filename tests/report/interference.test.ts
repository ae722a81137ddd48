/** What others' transmissions do at a receiver is seen: each term on the page, in `explain`, in the hover and in JSON. */
import { describe, expect, test } from "vitest";
import { interferenceText } from "../../language/editor/hover-interference.js";
import { interferenceOutput } from "../../server/cli/print/interference-output.js";
import type { Design } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { type ListedFiles, NO_FILES } from "../../shared/others/listed.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { explainHop } from "../../shared/report/explain.js";
import { levelTables } from "../../shared/report/level-diagram.js";
import { coLocatedSection } from "../../shared/report/pages/co-located.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import { fromHub } from "../../shared/rules/example-interference.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { designOf } from "../equipment/designs.js";
import { exampleGround } from "../rules/example-design.js";
import { interferenceIn, levelGround, type ProfileOf } from "../support/interference.js";
import { readText } from "../support/listed.js";

const NO_FIGURE = /NaN|Infinity|undefined|\[object/;

function seen(
  text: string,
  { others, profileOf = () => undefined }: { readonly others?: string; readonly profileOf?: ProfileOf } = {},
) {
  const design = designOf(text);
  const alone = new Map(
    [...design.hops.values()].map((hop) => [hop.name, evaluateHop(hop, exampleGround(hop))]),
  );
  const listed = others === undefined ? NO_FILES : listOf(design, others);
  const found = interferenceIn({ design, results: alone, listed, day: "2026-06-01" }, profileOf).of(
    "KELD-TARN",
  );
  const hop = design.hops.get("KELD-TARN")!;
  const atEnds = new Map(found.map((at) => [at.receiver.place.site!, at.degradationDb]));
  const result = evaluateHop(hop, exampleGround(hop), atEnds);
  const input = { hop, result, findings: [], name: "hops/A", colophon: "" };
  const page = hopPage({ ...input, interference: found, pageOfHop: (name) => `hops/${name}` });
  const html = printHtml(page).text;
  const section = page.sections.find(({ id }) => id === "interference")!;
  const figures = explainHop(hop, result, undefined, found);
  return { design, found, result, page, html, section, figures, markdown: printMarkdown(page)[0]!.text };
}

function listOf({ others = [] }: Design, text: string): ListedFiles {
  return {
    others: new Map(others.map((list) => [list, readText(list, text)])),
    patterns: new Map(),
    logos: new Map(),
  };
}

describe("a hub of two hops on one channel", () => {
  const { found, result, page, html, section, figures, markdown } = seen(fromHub({ channel: 4 }));
  const at = found.find(({ receiver }) => receiver.place.site === "KELD")!;
  const [entry] = at.entries;
  const one = (value: number) => value.toFixed(1).replace("-", "−");

  test("the page tells every term of the entry, with the way to the hop that sends", () => {
    const table = section.blocks.find(
      (block) => block.type === "table" && block.caption?.startsWith("What comes in"),
    )!;
    const [row] = table.type === "table" ? table.rows : [];
    const cells = row!.cells.map((cell) => JSON.stringify(cell).replaceAll("\u00a0", " "));
    expect(cells[0]).toContain("MOSS-TARN at TARN");
    expect(cells[0]).toContain("hops/MOSS-TARN");
    expect(cells.slice(1)).toEqual(
      [
        "0",
        "same",
        "9.36 km",
        `${entry!.leavesOffAxisDeg.toFixed(1)}° / ${entry!.arrivesOffAxisDeg.toFixed(1)}°`,
        // On 38.5 dBi.
        "20.0 dBm 128QAM, 58.5 dBm",
        `${entry!.discriminationDb.toFixed(1)} dB`,
        `${entry!.path.longTermLossDb.toFixed(1)} / ${entry!.path.shortTermLossDb.toFixed(1)} dB least`,
        `${entry!.filterDb!.toFixed(1)} dB`,
        `${entry!.levelDbm.toFixed(1)} dBm`,
        `${entry!.toNoiseDb.toFixed(1)} / ${entry!.shortToNoiseDb.toFixed(1)} dB`,
      ].map((text) => JSON.stringify(text)),
    );
  });

  test("the sums stand above it, with power control and without, and both C/I", () => {
    const direction = result.directions.find(({ to }) => to === "KELD")!;
    const mode = direction.modes.at(-1)!;
    const sumDbm = at.receiver.noiseDbm + at.toNoiseDb!;
    const text = html.replaceAll("\u00a0", " ");
    expect(text).toContain(`${one(sumDbm)} dBm, I/N ${one(at.toNoiseDb!)} dB`);
    // No power control: full power is the only one.
    expect(text).toContain(", with full power");
    expect(text).not.toContain("power control as");
    expect(text).toContain(`${one(mode.receivedLevelDbm - sumDbm)} dB at the wanted level`);
    // The threshold rises to where noise and interference together ask it: C/I there is that of the mode, less what noise adds.
    expect(text).toContain(
      `${one(mode.thresholdDbm + at.degradationDb - sumDbm)} dB at the raised threshold`,
    );
    for (const said of [
      "P.452-18",
      "45 N/km (taken for a preview)",
      "20 % of the average year",
      "0.01 %",
      "Rain scatter is not considered",
      "F.699-8",
      "not taken as correlated",
    ])
      expect(text, said).toContain(said);
  });

  test("interference stands in the level diagram, and the modes say by what they are raised", () => {
    const rows = levelTables(result, found).find(({ title }) => title.startsWith("TARN to KELD"))!.rows;
    expect(rows.slice(-3).map(([, element]) => element)).toEqual([
      "noise",
      "interference, the sum",
      "threshold, raised",
    ]);
    expect(page.sections.find(({ id }) => id === "level")).toBeDefined();
    expect(html).toMatch(/aria-label="Level from TARN to KELD[^"]*interference/);
    expect(markdown).toMatch(/At KELD every threshold is raised by [\d.]+ dB of interference, as computed/);
  });

  test("explain has the entry and the sum, each with its methods", () => {
    const entries = figures.filter(({ figure }) => figure.startsWith("interference of MOSS-TARN at TARN"));
    expect(entries[0]!.methods).toEqual([
      "interference-least-loss",
      "pattern-envelope",
      "polarization-coupling",
      "net-filter-discrimination",
    ]);
    const sum = figures.find(({ figure }) => figure.startsWith("interference at KELD"))!;
    expect(sum.value).toContain(`I/N ${at.toNoiseDb!.toFixed(1)} dB`);
    expect(sum.steps.find(({ name }) => name.startsWith("degradation, 10 log"))!.value).toBe(
      `${at.degradationDb.toFixed(2)} dB`,
    );
  });

  test("no printer writes what is no figure", () => {
    const told = [html, markdown, JSON.stringify(figures), JSON.stringify(found.map(interferenceOutput))];
    for (const text of told) expect(text).not.toMatch(NO_FIGURE);
  });

  test("the hover names who raises the threshold", () => {
    expect(interferenceText(found)).toMatch(
      /KELD, 17.92 GHz, vertical: I\/N .*raised by .*\n {2}- .*MOSS-TARN at TARN/,
    );
  });
});

test("a hop alone has nothing in reach, and says so", () => {
  const { section, html } = seen(exampleHop());
  expect(JSON.stringify(section)).toContain("No other transmission is in reach of the receivers at KELD");
  expect(html).not.toMatch(NO_FIGURE);
});

test("over known ground the loss says so, and the step of the profiles is told", () => {
  const { markdown } = seen(fromHub({ channel: 4 }), {
    profileOf: levelGround,
  });
  expect(markdown).toMatch(/line of sight|over the horizon/);
  expect(markdown).toContain("a point every 250 m, which is usual here");
});

test("a stated degradation that is greater counts, and the page says what is computed", () => {
  const { markdown } = seen(fromHub({ channel: 4, degradation: "40 dB" }));
  expect(markdown).toMatch(/raised by 40\.0 dB of interference, as stated; computed are [\d.]+ dB/);
});

test("antennas of one site within reach of each other's filters stand on its page, with their coupling loss", () => {
  const other = exampleHop({
    keld: "antenna DISH60-18 at 30 m\n    transmits low",
    tarn: "antenna DISH60-18 at 30 m\n    transmits high",
  })
    .replaceAll("KELD", "MOSS")
    .replace("/ 4", "/ 5");
  const site = (more: string) =>
    `site MOSS {\n  at 47.6 -30.45\n  structure mast 60 m\n}\n${exampleHop()}\n${other}${more}`;
  const sectionOf = (text: string) => {
    const { design, found } = seen(text);
    return coLocatedSection("TARN", [["KELD-TARN", found]], design, (name) => name);
  };
  const [section] = sectionOf(site(""));
  const [table] = section!.blocks;
  const rows = table!.type === "table" ? table!.rows.map(({ cells }) => cells) : [];
  expect(rows).toEqual([
    // The one hears what the other sends in the same half, one channel of 55 MHz away.
    ["KELD-TARN", "MOSS-TARN", expect.stringMatching(/^\d+\.\d°$/), "+55 MHz", "not stated", "not judged"],
  ]);
  const { design, found } = seen(site(""));
  const couplingLosses = [{ hops: ["MOSS-TARN", "KELD-TARN"] as const, lossDb: 62 }];
  const stated = { ...design, interferenceAt: new Map([["TARN", { couplingLosses }]]) };
  const told = coLocatedSection("TARN", [["KELD-TARN", found]], stated, String);
  expect(JSON.stringify(told)).toContain("62.0 dB");
  expect(coLocatedSection("KELD", [["KELD-TARN", found]], design, String)).toEqual([]);
});

describe("a list that a stranger wrote", () => {
  const name = `<img src=x onerror=alert(1)>|[x](javascript:1)\u0060c\u0060\u202e\u0007 ${"W".repeat(200)}`;
  const list = `name,lat,lon,frequency,emission,eirp\n"${name}",47.62,-30.3,17920,55M0D7W,62\n`;
  const rows = Array.from({ length: 15 }, (_, i) => `N${i},47.6${i},-30.3,17920,55M0D7W,5${i % 10}\n`);
  const text = `${exampleHop()}\nothers "o.csv" {
  name "name"
  latitude "lat"
  longitude "lon"
  frequency "frequency" in MHz
  emission "emission"
  eirp "eirp" in dBm
}`;
  const { html, markdown, found, figures, section } = seen(text, { others: list + rows.join("") });
  const hover = interferenceText(found)!;

  test("its names are escaped and short, and steer nothing", () => {
    expect(html).not.toContain("<img");
    for (const told of [html, markdown, hover, JSON.stringify(figures)]) {
      expect(told).not.toMatch(/[\u202e\u0007]/);
      expect(told).not.toContain("W".repeat(41));
      expect(told).not.toMatch(NO_FIGURE);
    }
    expect(hover).not.toMatch(/(?<!\\)<img|(?<!\\)\[x(?<!\\)\]/);
  });

  test("twelve are shown, the rest is summed in one row", () => {
    const table = section.blocks.find(
      (block) => block.type === "table" && block.caption?.startsWith("What comes in"),
    );
    expect(table?.type === "table" && table.rows).toHaveLength(13);
    expect(markdown).toMatch(/\d weaker ones, summed/);
    // Where nothing says where they look, no angle is made up.
    expect(markdown).toMatch(/any\s*\/\s*\d/);
  });
});
