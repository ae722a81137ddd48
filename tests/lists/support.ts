/** Designs of random decisions, and the ways in and out of lists, without a file where none is needed. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { csvText } from "../../server/lists/csv-text.js";
import { type Imported, importLists } from "../../server/lists/import/import-lists.js";
import { standingLast } from "../../server/lists/standing-last.js";
import { NO_MAPPING } from "../../shared/lists/columns.js";
import { makeList } from "../../shared/lists/subjects/index.js";
import type { List, ListSubject } from "../../shared/lists/subjects/list.js";
import type { ListedDesign } from "../../shared/lists/subjects/listed-design.js";

const folder = mkdtempSync(join(tmpdir(), "hopwright-lists-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
let count = 0;

/** A path of its own, nothing there yet. */
export function fresh(name: string): string {
  return join(folder, `${++count}-${name}`);
}

export function fileOf(name: string, content: string | Uint8Array): string {
  const path = fresh(name);
  writeFileSync(path, content);
  return path;
}

export function modelOf(text: string, path = "/d/network.hop"): DesignModel {
  const model = new DesignModel("/d");
  model.setFile(readSource(path, text));
  return model;
}

function listed(model: DesignModel): ListedDesign {
  const last = standingLast(model, "0000-01-01");
  return {
    design: model.design(),
    last,
    hopNames: [...last.hops.keys()],
    results: new Map(),
    findings: [],
  };
}

export function listFrom(model: DesignModel, subject: ListSubject): List {
  return makeList(subject, listed(model));
}

export function csvOf({ columns, rows }: List): string {
  return csvText([columns.map(({ head }) => head)]) + csvText(rows.map(({ values }) => values));
}

export function importInto(out: string, ...files: readonly string[]): Promise<Imported> {
  return importLists({ files, out, title: "Test", mapping: NO_MAPPING });
}

/** Equipment that the designs name. */
export const CATALOGUE = `network "Test" {
  objective trunk {
    availability 99.99 %
  }
}

radio R18 {
  tuning 17.7 GHz to 19.7 GHz
  mode 55 MHz QPSK
  mode 55 MHz 128QAM
}

radio R7 {
  tuning 7 GHz to 8 GHz
  mode 28 MHz 64QAM
}

antenna DISH60-18 {
  diameter 0.6 m
}

antenna DISH120-7 {
  diameter 1.2 m
}

coupler H18 {
  kind hybrid
}

feeder FLEX {
  kind flexible-waveguide
}
`;

const decimal = (least: number, most: number, digits: number) =>
  fc.integer({ min: least * 10 ** digits, max: most * 10 ** digits }).map((value) => value / 10 ** digits);

/** Titles that a list must carry whole: quotes, formulas, markup, other scripts. */
const title = fc
  .oneof(
    fc.constantFrom(
      "=1+1",
      "+49 30",
      "@home",
      "-5",
      '"quoted"',
      "<b>&amp;</b>",
      "a,b;c",
      "'apostrophe",
      "Å ß ñ 山",
      "tab\\\\",
    ),
    fc.string({ unit: "grapheme", maxLength: 12 }),
  )
  .filter(
    (text) =>
      text.trim() !== "" && !/\p{C}|[^\P{Z} ]|\s{2}|^\s|\s$/u.test(text) && text.normalize("NFC") === text,
  );

const state = fc.constantFrom(
  "",
  "",
  "",
  "built",
  "built 2020-01-02",
  "built 2020-01-02 until 2029-01-01",
  "planned",
  "planned 2027-03-01",
  "planned 2027-03-01 until 2028-01-01",
  "removed",
  "removed 2020-01-02",
  "removed 2027-03-01",
  "removed 2027-04-01",
);
const stateLine = (words: string) => (words === "" ? "" : `  state ${words}\n`);

const site = (name: string) =>
  fc
    .record({
      state,
      title: fc.option(title, { nil: undefined }),
      at: fc.tuple(decimal(-80, 80, 6), decimal(-179, 179, 6)),
      ground: fc.option(decimal(0, 3000, 1), { nil: undefined }),
      structure: fc.option(fc.tuple(fc.constantFrom("mast", "tower", "roof"), decimal(5, 90, 1)), {
        nil: undefined,
      }),
    })
    .map(({ state: stands, title: called, at, ground, structure }) => ({
      name,
      text: `site ${name}${called === undefined ? "" : ` ${quoted(called)}`} {
  at ${at[0]} ${at[1]}
${ground === undefined ? "" : `  ground ${ground} m\n`}${structure === undefined ? "" : `  structure ${structure[0]} ${structure[1]} m\n`}${stateLine(stands)}}
`,
    }));

function quoted(text: string): string {
  return `"${text.replace(/["\\]/g, "\\$&")}"`;
}

/** What is behind a part that comes, goes, or gives way to another one on a day. */
const partState = fc.constantFrom(
  "",
  "",
  " state planned 2027-02-01",
  " state removed 2027-02-01",
  " state removed 2028-06-01",
  " state planned",
);

const end = (withHalf: boolean, half: "high" | "low", withStates: boolean) =>
  fc
    .record({
      stands: fc.tuple(partState, partState, partState),
      swap: fc.option(fc.constantFrom("2027-02-01", "2027-06-01"), { nil: undefined }),
      antenna: fc.option(fc.constantFrom("DISH60-18", "DISH120-7"), { nil: undefined }),
      height: decimal(3, 90, 2),
      diversity: fc.option(decimal(3, 90, 1), { nil: undefined }),
      coupler: fc.option(fc.constantFrom("", " direct", " separate"), { nil: undefined }),
      feeder: fc.option(decimal(1, 60, 1), { nil: undefined }),
      frequency: fc.option(decimal(6000, 23000, 3), { nil: undefined }),
      power: fc.option(decimal(-5, 30, 1), { nil: undefined }),
      loss: fc.option(decimal(0, 9, 1), { nil: undefined }),
    })
    .map((of) =>
      [
        ...antennaLines(of.antenna, of.height, withStates ? of.swap : undefined),
        of.diversity === undefined
          ? ""
          : `diversity-antenna DISH60-18 at ${of.diversity} m${withStates ? of.stands[0] : ""}`,
        of.coupler === undefined ? "" : `coupler H18${of.coupler}${withStates ? of.stands[1] : ""}`,
        of.feeder === undefined ? "" : `feeder FLEX length ${of.feeder} m${withStates ? of.stands[2] : ""}`,
        withHalf ? `transmits ${half}` : of.frequency === undefined ? "" : `transmits ${of.frequency} MHz`,
        of.power === undefined ? "" : `power ${of.power} dBm`,
        of.loss === undefined ? "" : `extra-loss ${of.loss} dB`,
      ]
        .filter((line) => line !== "")
        .map((line) => `    ${line}\n`)
        .join(""),
    );

function antennaLines(antenna: string | undefined, heightM: number, swap: string | undefined): string[] {
  if (antenna === undefined) return [`height ${heightM} m`];
  if (swap === undefined) return [`antenna ${antenna} at ${heightM} m`];
  const other = antenna === "DISH60-18" ? "DISH120-7" : "DISH60-18";
  return [
    `antenna ${other} at ${heightM + 2} m state removed ${swap}`,
    `antenna ${antenna} at ${heightM} m state planned ${swap}`,
  ];
}

const hop = (a: string, b: string, name: string, withStates: boolean) =>
  fc
    .record({ withChannel: fc.boolean(), called: fc.option(title, { nil: undefined }) })
    .chain(({ withChannel, called }) =>
      fc
        .record({
          polarization: fc.option(fc.constantFrom("vertical", "horizontal"), { nil: undefined }),
          arrangement: fc.option(fc.constantFrom("1+0", "1+1 hot-standby", "2+0 xpic"), { nil: undefined }),
          radio: fc.option(fc.constantFrom("R18", "R7"), { nil: undefined }),
          number: fc.integer({ min: 1, max: 8 }),
          state,
          objective: fc.boolean(),
          mode: fc.boolean(),
          first: end(withChannel, "high", withStates),
          second: end(withChannel, "low", withStates),
        })
        .map(
          (of) => `hop ${name}${called === undefined ? "" : ` ${quoted(called)}`} {
${of.objective ? "  objective trunk\n" : ""}${withChannel ? `  channel F.595 / 55 MHz / ${of.number}\n` : ""}${of.polarization ? `  polarization ${of.polarization}\n` : ""}${of.arrangement ? `  arrangement ${of.arrangement}\n` : ""}${of.radio ? `  radio ${of.radio}\n` : ""}${of.radio === "R18" && of.mode ? "  modes 55 MHz QPSK to 128QAM\n" : ""}${stateLine(of.state)}  ${a} {
${of.first}  }
  ${b} {
${of.second}  }
}
`,
        ),
    );

/** Sites and hops as text; names of all kinds, some of them words of the language. */
export const designText = designTextOf(false);
/** The same, with parts that come, go and give way to others. */
export const designTextWithSwaps = designTextOf(true);

function designTextOf(withStates: boolean) {
  return fc
    .integer({ min: 2, max: 6 })
    .chain((sites) => {
      const names = ["KELD", "TARN", "x1", "Überlingen", "S-12", "2A"].slice(0, sites);
      const pairs = names.flatMap((a, i) => names.slice(i + 1).map((b) => [a, b] as const)).slice(0, 5);
      return fc.tuple(
        fc.tuple(...names.map(site)),
        fc.tuple(...pairs.map(([a, b], i) => hop(a, b, i % 2 === 0 ? `${a}-${b}` : `L${i}`, withStates))),
      );
    })
    .map(([sites, hops]) => [...sites.map(({ text }) => text), ...hops].join("\n"));
}
