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
  const design = model.design();
  const { sites, hops } = design;
  return { design, sites, hops, hopNames: model.names("hop"), results: new Map(), findings: [] };
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

/** Of what stands once all that is planned does: the rest is in no list. */
const state = fc.constantFrom("", "", "built", "built 2020-01-02", "planned", "planned 2027-03-01");
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

const end = (withHalf: boolean, half: "high" | "low") =>
  fc
    .record({
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
        of.antenna === undefined ? `height ${of.height} m` : `antenna ${of.antenna} at ${of.height} m`,
        of.diversity === undefined ? "" : `diversity-antenna DISH60-18 at ${of.diversity} m`,
        of.coupler === undefined ? "" : `coupler H18${of.coupler}`,
        of.feeder === undefined ? "" : `feeder FLEX length ${of.feeder} m`,
        withHalf ? `transmits ${half}` : of.frequency === undefined ? "" : `transmits ${of.frequency} MHz`,
        of.power === undefined ? "" : `power ${of.power} dBm`,
        of.loss === undefined ? "" : `extra-loss ${of.loss} dB`,
      ]
        .filter((line) => line !== "")
        .map((line) => `    ${line}\n`)
        .join(""),
    );

const hop = (a: string, b: string, name: string) =>
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
          first: end(withChannel, "high"),
          second: end(withChannel, "low"),
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
export const designText = fc
  .integer({ min: 2, max: 6 })
  .chain((sites) => {
    const names = ["KELD", "TARN", "x1", "Überlingen", "S-12", "2A"].slice(0, sites);
    const pairs = names.flatMap((a, i) => names.slice(i + 1).map((b) => [a, b] as const)).slice(0, 5);
    return fc.tuple(
      fc.tuple(...names.map(site)),
      fc.tuple(...pairs.map(([a, b], i) => hop(a, b, i % 2 === 0 ? `${a}-${b}` : `L${i}`))),
    );
  })
  .map(([sites, hops]) => [...sites.map(({ text }) => text), ...hops].join("\n"));
