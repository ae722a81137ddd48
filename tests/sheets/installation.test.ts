/** The sheet that a site is built by has everything that hangs, runs and is earthed there, in the language asked for. */
import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import { type JudgedDesign, judgeFolder } from "../../server/findings/judged-folder.js";
import { sheetsOf } from "../../server/sheets/sheets.js";
import { branchesOf } from "../../shared/equipment/branches.js";
import { groundingKits } from "../../shared/equipment/cable-run.js";
import { cardHops } from "../../shared/equipment/card-hops.js";
import { runsOf } from "../../shared/equipment/runs.js";
import { type SitePlan, sitePlans } from "../../shared/equipment/site-plan.js";
import { structureLoad } from "../../shared/equipment/structure-load.js";
import { labelsOf, portWords } from "../../shared/equipment/wiring/labels.js";
import { siteWiring } from "../../shared/equipment/wiring/site-wiring.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { metres, trimmed } from "../../shared/format/numbers.js";
import { gridNorth } from "../../shared/geodesy/grid-convergence.js";
import { magneticField } from "../../shared/geodesy/magnetic.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import {
  type Figure,
  type Inline,
  type MarkedText,
  type Page,
  spansOf,
  type Table,
} from "../../shared/report/document/document.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { hungAt } from "../../shared/report/draw/system/site/hung.js";
import { installationSheet } from "../../shared/report/sheets/installation.js";
import { countedFrom } from "../../shared/report/sheets/norths.js";
import { said } from "../../shared/report/sheets/said.js";
import { ENGLISH } from "../../shared/report/sheets/words/english.js";
import { GERMAN } from "../../shared/report/sheets/words/german.js";
import type { SheetWords } from "../../shared/report/sheets/words/sheet-words.js";
import { fixture } from "../support/fixture.js";

let design: JudgedDesign;
let plans: ReadonlyMap<string, SitePlan>;
const results = new Map<string, HopResult>();

beforeAll(async () => {
  const judged = await judgeFolder("samples/eskerfold", { today: "2026-06-01" });
  design = judged.designs[0]!;
  plans = sitePlans(design.model.design());
  for (const [name, { result }] of design.session.results()) results.set(name, result);
}, 300_000);

const REVISION = { state: "not in git" } as const;
const plain = (html: string) =>
  html
    .replace(/<style>.*?<\/style>/s, "")
    .replace(/<figure>.*?<\/figure>/gs, " ")
    .replace(/<[^>]+>/g, "\n")
    .replace(/&#39;/g, "'")
    .replace(/&quot;/g, '"')
    .replace(/\u00a0/g, " ")
    .replace(/\u2212/g, "-");

const plainText = (cell: Inline) =>
  spansOf(cell)
    .map((span) => (typeof span === "string" ? span : span.text))
    .join("");

describe.each([
  ["English", ENGLISH],
  ["German", GERMAN],
])("in %s", (_, words) => {
  const sheets = (site?: string) => [
    ...sheetsOf(design, { kinds: ["installation"], site, words, folder: "", revision: REVISION }),
  ];

  test("each site that has something has a sheet, and one alone when it is asked for", () => {
    expect(sheets().length).toBe(plans.size);
    expect(sheets("OSTREL").map(({ name }) => name)).toEqual(["installation/OSTREL"]);
  });

  test("each antenna has height, azimuths of three norths, elevation, what is on it, and boxes", () => {
    for (const [name, plan] of plans) {
      const [page] = sheets(name);
      const text = plain(printHtml(page!).text);
      const position = plan.site.position!;
      const { declinationDeg } = magneticField(position, plan.site.groundM ?? 0, 2026 + 120 / 365)!;
      const { convergenceDeg } = gridNorth(position)!;
      for (const one of hungAt(plan, siteWiring(plan), results)) {
        expect(text).toContain(words.figure(metres(one.heightM!)));
        expect(text).toContain(words.figure(`${one.azimuthDeg!.toFixed(2)}°`));
        expect(text).toContain(words.figure(`${countedFrom(one.azimuthDeg!, declinationDeg).toFixed(1)}°`));
        expect(text).toContain(words.figure(`${countedFrom(one.azimuthDeg!, convergenceDeg).toFixed(2)}°`));
      }
      expect(text).toContain(words.day("2026-05-01"));
      expect(text).not.toMatch(/NaN|undefined|Infinity/);
    }
  });

  test("boxes are filled in with what the design states as built, and with nothing else", () => {
    for (const [name, plan] of plans) {
      const [sheet] = sheets(name);
      const stated = plan.ends.flatMap(({ end: { asBuilt } }) => [
        ...(asBuilt?.heightM === undefined ? [] : [words.figure(`${asBuilt.heightM.toFixed(1)} m`)]),
        ...(asBuilt?.serials ?? []).map(({ number }) => number),
      ]);
      const antennas = sheet!.sections.find(({ id }) => id === "antennas")!;
      const tables = antennas.blocks.flatMap((block) =>
        block.type === "pair" ? block.sides.flat() : [block],
      );
      const boxes = tables.flatMap((block) =>
        block.type === "table" ? block.rows.map(({ cells }) => cells[2]) : [],
      );
      expect(boxes.filter((box) => box !== "").sort(), name).toEqual(stated.sort());
    }
    expect(JSON.stringify(sheets("LARKHOWE"))).toContain("8-00318");
  });

  test("each run of cable that finds no port is on the sheet with its length, as it is in the parts", () => {
    for (const [name, plan] of plans) {
      const open = runsOf(plan, design.model.design()).filter(({ joined }) => joined === undefined);
      const cables = sheets(name)[0]!.sections.find(({ id }) => id === "cables");
      const table = cables?.blocks.find(
        (block) => block.type === "table" && block.caption === words.installation.cables.unjoined,
      );
      expect(
        table?.type === "table" ? table.rows.map(({ cells }) => (cells[0] as MarkedText).text) : [],
        name,
      ).toEqual(open.map(({ hop, open: known }) => known?.cable ?? hop));
    }
  });

  test("each chassis and each card stands in the rack with its slot and the hops on it", () => {
    for (const [name, plan] of plans) {
      const rack = sheets(name)[0]!.sections.find(({ id }) => id === "rack");
      const chassis = plan.equipment?.chassis ?? [];
      expect(rack !== undefined, name).toBe(chassis.length > 0);
      if (rack === undefined) continue;
      const rows = (rack.blocks[0] as Table).rows.map(({ cells }) => cells.map((cell) => plainText(cell)));
      const hops = new Map(cardHops(plan).map((one) => [one.name, [...one.hops, ...one.partly].sort()]));
      for (const { name: of } of chassis) expect(rows.map(([first]) => first)).toContain(of);
      for (const { chassis: of, slot, card } of plan.placed.cards) {
        const row = rows.find(([first, at]) => first === of.name && at?.split("–")[0] === String(slot));
        expect(row?.[2]).toContain(card.title ?? card.name);
        expect(row?.[3]).toBe(hops.get(`${name}/${of.name}/${slot}`)?.join(", ") ?? "–");
      }
    }
  });

  test("a cable that finds no port has its number, its upper end and a box for the other, as in the parts", () => {
    let seen = 0;
    for (const [name, plan] of plans) {
      const rule = design.model.design().labels;
      const [page] = sheets(name);
      for (const { open } of runsOf(plan, { labels: rule })) {
        if (open === undefined) continue;
        seen++;
        const { blocks } = page!.sections.find(({ id }) => id === "cables")!;
        const table = blocks.find(
          (block) => block.type === "table" && block.caption === words.installation.cables.unjoined,
        ) as Table;
        const row = table.rows.find(({ cells }) => plainText(cells[0]!) === open.cable)!;
        expect(row.cells.slice(2)).toEqual([open.to, open.labels[1], "", open.labels[0], "", ""]);
        const drawn = page!.sections.find(({ id }) => id === "structure")!.blocks[0] as Figure;
        expect(drawn.svg).toContain(open.cable);
        expect(drawn.svg).not.toContain(words.installation.mast.nothingDown);
      }
    }
    expect(seen).toBeGreaterThan(0);
  });

  test("load is told as the rule of the structure computes it, else that it is not stated", () => {
    for (const [name, plan] of plans) {
      const { blocks } = sheets(name)[0]!.sections.find(({ id }) => id === "load")!;
      const [facts] = blocks;
      const { windN, weightKg, parts } = structureLoad(plan);
      const values = facts!.type === "facts" ? facts!.facts.map(({ value }) => value) : [];
      const told = (value: number | undefined, digits: number, unit: string) =>
        value === undefined ? words.common.notStated : words.figure(`${trimmed(value, digits)} ${unit}`);
      const weighed = parts.some((part) => part.weightKg !== undefined);
      expect(values).toHaveLength(6);
      expect(values[0]).toBe(told(weighed ? weightKg : undefined, 1, "kg"));
      expect(values[4]).toBe(told(windN === undefined ? undefined : windN / 1000, 2, "kN"));
      expect(values[5]).toBe(told(plan.equipment?.windLimitN && plan.equipment.windLimitN / 1000, 2, "kN"));
    }
  });

  test("antennas have one number in their tables and in the drawing, and ports of the note stand on the sheet", () => {
    for (const [name, plan] of plans) {
      const [page] = sheets(name);
      const drawn = page!.sections.find(({ id }) => id === "structure")?.blocks[0] as Figure | undefined;
      for (const [index, one] of hungAt(plan, siteWiring(plan), results).entries())
        expect(drawn?.svg).toContain(`${index + 1}. ${words.figure(metres(one.heightM!))}`);
      const cables = page!.sections.find(({ id }) => id === "cables");
      const note = JSON.stringify(cables?.blocks.at(-1) ?? "");
      const example = /[^\s"]+\/\d+:\w+(?= (is port|ist Anschluss))/.exec(note)?.[0];
      if (example !== undefined)
        expect(JSON.stringify(cables!.blocks.slice(0, -1))).toContain(`"${example}"`);
      expect(example !== undefined, name).toBe((plan.equipment?.chassis ?? []).length > 0);
    }
  });

  test("each cable, guide and feed has its number, both ends and both labels", () => {
    for (const [name, plan] of plans) {
      const text = plain(printHtml(sheets(name)[0]!).text);
      const wiring = siteWiring(plan);
      for (const [joint, { cable, ends }] of labelsOf(wiring, design.model.design().labels))
        for (const told of [cable, ...ends, ...joint.ends.map((end) => portWords(end, wiring))])
          expect(text).toContain(told);
    }
  });

  test("cautions come first, with a distance for each hop of the site", () => {
    for (const page of sheets()) {
      expect(page.sections[0]!.blocks[0]!.type).toBe("cautions");
      const text = plain(printHtml(page).text);
      for (const item of words.safety.items) expect(text).toContain(item.replaceAll("-48", "-48"));
      const plan = plans.get(page.name.split("/")[1]!)!;
      for (const { hop } of plan.ends) expect(text).toMatch(new RegExp(`${hop.name}: .* \\d`));
    }
  });

  test("address, access and contact where they are stated, and that they are not", () => {
    const text = plain(printHtml(sheets("HIGHFOLD")[0]!).text);
    expect(text).toContain("end of the fold road");
    expect(text).toContain("village hall, weekdays");
    expect(plain(printHtml(sheets("OSTREL")[0]!).text)).toContain(words.common.notStated);
  });

  test("the same in Markdown, where boxes are lines", () => {
    const [page] = sheets("HIGHFOLD");
    const [text] = printMarkdown(page!);
    expect(text!.text).toContain(`# ${words.installation.title}: High Fold`);
    expect(text!.text).not.toMatch(/NaN|undefined/);
  });
});

/** Words that would be left over from the other language; labels and names of the catalogue are the design's. */
const ENGLISH_ONLY =
  /\b(the|and|with|height|azimuth|main|standby|arm|first polarization|carrier|unit of|chassis|coupler|earthed|feed|guide|true|north|fuse|patch|wire|tower|mast of)\b/;

test("no English is left on a German sheet but for labels and what the design itself says", () => {
  for (const page of sheetsOf(design, {
    kinds: ["installation"],
    words: GERMAN,
    folder: "",
    revision: REVISION,
  })) {
    const rows = page.sections
      .filter(({ id }) => id !== "cables" && id !== "rack")
      .flatMap(({ blocks }) => textsIn({ ...page, sections: [{ id: "", title: "", blocks }] }));
    for (const text of rows) if (!FROM_THE_DESIGN.test(text)) expect(text).not.toMatch(ENGLISH_ONLY);
    expect(
      rows.filter(
        (line) => /\d\.\d+ (m|km|GHz|dB|kg)\b/.test(line) && !/parabolic|split mount|waveguide/.test(line),
      ),
    ).toEqual([]);
  }
});

const FROM_THE_DESIGN =
  /pole for|split mount|parabolic|waveguide|transducer|hybrid|village|snow|fold road|Ethernet|all-outdoor|long-haul|GHz/;

function textsIn(page: Page): string[] {
  const text = printHtml({ ...page, colophon: "" }).text;
  return plain(text)
    .split("\n")
    .filter((line) => line.trim() !== "");
}

test("each branch of each arrangement is said in German", () => {
  const known = new Set(Object.keys(GERMAN.installation.pieces));
  for (const facts of ARRANGEMENTS)
    for (const { name } of branchesOf(facts))
      for (const piece of name.split(", ")) expect(known).toContain(piece.replace(/ \d+$/, ""));
  expect(said("first polarization, standby", GERMAN)).toBe("erste Polarisation, Reserve");
  expect(said("carrier 2", GERMAN)).toBe("Träger 2");
  expect(said("main arm, vertical", GERMAN)).toBe("Hauptarm, vertikal");
  expect(said("constructor", GERMAN)).toBe("constructor");
});

test("without a day and outside the model's years bearings for a compass are left out, and that is said", () => {
  const plan = plans.get("HIGHFOLD")!;
  const base = {
    plan,
    design: {},
    results,
    pairs: new Map(),
    errors: [],
    name: "a",
    words: ENGLISH,
    colophon: "",
  };
  const none = plain(printHtml(installationSheet(base)).text);
  expect(none).toContain("states no day for them (magnetic-date) and no commit of git has one");
  expect(none).not.toContain("On a compass, ");
  const late = plain(printHtml(installationSheet({ ...base, magneticDay: { day: "2031-05-01" } })).text);
  expect(late).toContain("2031-05-01 lies outside the years");
  expect(late).not.toContain("On a compass, ");
});

test("a site about which next to nothing is stated has a sheet that says so", () => {
  const { model } = fixture(`site A {
  address "<script>alert(1)</script>"
  access "| **bold** |"
}
site B {
}
hop A-B {
  A {
    transmits high
  }
  B {
    transmits low
  }
}`);
  const plan = sitePlans(model.design()).get("A")!;
  const base = {
    errors: [],
    plan,
    design: {},
    results: new Map(),
    pairs: new Map(),
    name: "a",
    words: ENGLISH,
    colophon: "",
  };
  const page = installationSheet(base);
  const { text } = printHtml(page);
  expect(plain(text)).toContain("not stated");
  expect(text).not.toContain("<script>");
  expect(text).not.toMatch(/NaN|undefined/);
  expect(printMarkdown(page)[0]!.text).not.toContain("| **bold** |");
});

test("a pair for power that goes up the structure stands with its length among the cables there", () => {
  const text = (words: SheetWords) => {
    const [page] = sheetsOf(design, {
      kinds: ["installation"],
      site: "MERROW",
      words,
      folder: "",
      revision: REVISION,
    });
    const { blocks } = page!.sections.find(({ id }) => id === "cables")!;
    const table = (caption: string) =>
      blocks.find((block) => block.type === "table" && block.caption === caption) as Table | undefined;
    const { outdoors, indoors } = words.installation.cables;
    const feeds = (one: Table | undefined) =>
      JSON.stringify(one?.rows.filter(({ cells }) => JSON.stringify(cells).includes("-48 V")) ?? []);
    expect(feeds(table(indoors))).toBe("[]");
    return feeds(table(outdoors));
  };
  // 20 m up and 10 m along, a tenth more and two loops of 2 m: as the other cable to the unit.
  expect(text(ENGLISH)).toContain("supply cable, ~37 m; feed A, -48 V, fuse 1, rating not stated");
  expect(text(GERMAN)).toContain(
    "Stromkabel, ~37 m; Speisung A, -48 V, Sicherung 1, Nennstrom nicht angegeben",
  );
});

test("as many kits along a cable as the sheet says places for", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 400, noNaN: true }),
      fc.double({ min: 5, max: 60, noNaN: true }),
      (lengthM, everyM) => {
        // Below the unit, at the foot, at the entry, and one for each full distance.
        expect(groundingKits(lengthM, everyM)).toBe(3 + Math.floor(lengthM / everyM));
      },
    ),
  );
  const told = plain(
    printHtml(
      [
        ...sheetsOf(design, {
          kinds: ["installation"],
          site: "OSTREL",
          words: ENGLISH,
          folder: "",
          revision: REVISION,
        }),
      ][0]!,
    ).text,
  );
  expect(told).toContain("one for each full 30.0 m of its length");
  expect(told).toContain("stud of the unit; 4 kits along its cable");
});

test("the grid is that of the system that the position is stated in", () => {
  const { model } = fixture(`site A {
  at epsg 2056 2600000 E 1200000 N
}
site B {
  at utm 32 north 412345 E 5261234 N
}
site C {
  at 47.5 8.5
}`);
  const sites = model.design().sites;
  expect(["A", "B", "C"].map((name) => sites.get(name)!.gridEpsg)).toEqual([2056, 32632, undefined]);
});

test("what hangs stays whole on paper, an estimate has no decimals, and a title of nothing gives way to the name", () => {
  const { model } = fixture(`site A "" {
}
site B {
}
cable LINE { kind ethernet }
radio OUT { construction all-outdoor; port GE }
antenna DISH { diameter 0.6 m }
hop A-B {
  radio OUT
  arrangement all-outdoor 1+0
  A {
    antenna DISH at 33.3 m
    cable LINE
  }
  B {
  }
}`);
  const plan = sitePlans(model.design()).get("A")!;
  const [run] = runsOf(plan, {});
  for (const words of [ENGLISH, GERMAN]) {
    const base = {
      design: {},
      results: new Map(),
      pairs: new Map(),
      errors: [],
      name: "a",
      words,
      colophon: "",
    };
    const page = installationSheet({ ...base, plan });
    expect(page.title).toBe(`${words.installation.title}: A`);
    const told = JSON.stringify(page.sections.find(({ id }) => id === "cables"));
    // (33.3 m + 10 m) and a tenth, two loops of 2 m, whole metres.
    expect(run!.lengthM).toBe(52);
    expect(told).toContain("LINE, ~52 m");
    expect(told).toContain("cable-run");
    expect(told).not.toMatch(/~\d+[.,]\d/);
    const tables = page.sections
      .find(({ id }) => id === "antennas")!
      .blocks.flatMap((block) => (block.type === "pair" ? block.sides.flat() : [block]))
      .filter((block) => block.type === "table");
    expect(tables.map(({ whole }) => whole)).toEqual([true]);
    expect(printHtml(page).text).not.toMatch(/class="scroll long"><table><caption>1\./);
  }
});

test("each cable and guide has a box for its length as built", () => {
  for (const page of sheetsOf(design, {
    kinds: ["installation"],
    words: ENGLISH,
    folder: "",
    revision: REVISION,
  }))
    for (const block of page.sections.find(({ id }) => id === "cables")?.blocks ?? []) {
      if (block.type !== "table" || !block.columns.some(({ fill }) => fill)) continue;
      const at = block.columns.findIndex(({ title }) => title === ENGLISH.installation.cables.lengthBuilt);
      expect(block.columns[at]?.fill).toBe(true);
      for (const { cells } of block.rows)
        if (/COAX|FIBRE|FLEX|supply cable/.test(JSON.stringify(cells[1]))) expect(cells[at]).toBe("");
    }
});
