/** Lists into a design: what they hold, what they add and change, as texts; nothing is written here. */
import { existsSync } from "node:fs";
import { join } from "node:path";
import { beginDesign, type NewFile } from "../../../language/begin/begin-design.js";
import { filesOf, hopText, type ListFile, partText, siteText } from "../../../language/lists/new-text.js";
import type { DesignModel } from "../../../language/model/design-model.js";
import { type Columns, columnsOf, type Mapping } from "../../../shared/lists/columns.js";
import type { ListedRows } from "../../../shared/lists/facts.js";
import { lineUpRows } from "../../../shared/lists/line-up-rows.js";
import { type ImportPlan, planImport } from "../../../shared/lists/plan.js";
import { type ReadOptions, readRows } from "../../../shared/lists/read-rows.js";
import { SHOWN_ON, TOLD_ONLY } from "../../../shared/lists/subjects/list.js";
import { type Sheet, textOf } from "../../../shared/lists/table.js";
import { CommandError } from "../../command-error.js";
import { slashed } from "../../files/slashed.js";
import { loadProject } from "../../session/load.js";
import { UnfitList } from "../read/bounds.js";
import { readListFile } from "../read/read-file.js";
import { type ChangedText, changedTexts } from "./changed-texts.js";
import { knownDesign, NOTHING_KNOWN } from "./known-design.js";
import type { ReadSheet } from "./read-sheet.js";
import { singlesCsv } from "./singles.js";

export interface ImportRequest extends ReadOptions {
  readonly files: readonly string[];
  readonly out: string;
  readonly title: string;
  readonly mapping: Mapping;
  /** Told what is being done, for whoever waits. */
  readonly stage?: (what: string) => void;
}

export interface Imported {
  readonly sheets: readonly ReadSheet[];
  readonly unreadable: readonly { readonly name: string; readonly reason: string }[];
  /** Not before everything is clear. */
  readonly plan?: ImportPlan;
  readonly newFiles: readonly (NewFile & { readonly what: string })[];
  readonly changed: readonly ChangedText[];
  /** Changes that could not be made, by what and why. */
  readonly notChanged: readonly string[];
}

export async function importLists(request: ImportRequest): Promise<Imported> {
  const { stage = () => {} } = request;
  const sheets: ReadSheet[] = [];
  const unreadable: { name: string; reason: string }[] = [];
  for (const file of request.files) {
    const name = slashed(file);
    stage(`reading ${name}`);
    try {
      for (const sheet of await readListFile(file, name)) {
        if (sheet.rows.length === 0 && sheet.notes.length === 0) continue;
        const columns = columnsOf(sheet, request.mapping);
        const day = dayShown(sheet, columns);
        if (day !== undefined)
          throw new UnfitList(
            `it is a list of one day, ${day}, and is not read back, since what stands on other days is not in it: make it without --on`,
          );
        sheets.push(
          measuredSheet(sheet, columns) ?? { sheet, columns, list: readRows(sheet, columns, request) },
        );
      }
    } catch (error) {
      if (!(error instanceof UnfitList)) throw error;
      unreadable.push({ name, reason: error.message });
    }
  }
  const read = withoutForeign(sheets);
  const empty = { sheets: read, unreadable, newFiles: [], changed: [], notChanged: [] };
  if (unreadable.length > 0 || read.length === 0 || read.some(({ list }) => list.unclear.length > 0))
    return empty;
  stage("holding it against the design");
  const model = designIn(request.out);
  const design = model && knownDesign(model);
  const plan = planImport(together(read), design?.known ?? NOTHING_KNOWN);
  stage("writing the texts");
  const { changed, notChanged } = design
    ? changedTexts(design.lookingAt, plan.changes)
    : { changed: [], notChanged: [] };
  return { ...empty, plan, newFiles: newFiles(request, plan, read, model), changed, notChanged };
}

/** The day that a list tells of where it is one day alone. */
function dayShown({ rows }: Sheet, columns: Columns): string | undefined {
  const heads = rows.find(({ line }) => line === columns.line)?.cells ?? [];
  const at = heads.findIndex((head) => textOf(head).toLowerCase() === SHOWN_ON);
  return at < 0 ? undefined : textOf(columns.rows[0]?.cells[at]) || "which it does not say";
}

/** Sheets that hold nothing for a design are told and passed over where another one does. */
function withoutForeign(sheets: readonly ReadSheet[]): readonly ReadSheet[] {
  const told = sheets.map((one) => {
    const subject = toldOnly(one.sheet);
    return subject === undefined
      ? one
      : passedOver(one, `passed over: a list of ${subject} follows from the design`);
  });
  if (!told.some(({ columns }) => columns.uses.length > 0)) return told;
  return told.map((one) =>
    one.columns.uses.length > 0 || one.list.unclear.length === 0
      ? one
      : passedOver(one, "passed over: no line of heads was found in it"),
  );
}

function toldOnly({ rows }: Sheet): string | undefined {
  const heads = new Set((rows[0]?.cells ?? []).map(textOf));
  return [...TOLD_ONLY].find(([, own]) => own.every((head) => heads.has(head)))?.[0];
}

const NOTHING = {
  sites: [],
  hops: [],
  transmissions: [],
  ends: [],
  readings: [],
  told: [],
  read: [],
  remarks: [],
  unclear: [],
};

/** A list for line-up holds facts of its own: what was read, and no decision. */
function measuredSheet(sheet: Sheet, columns: Columns): ReadSheet | undefined {
  const rows = lineUpRows(sheet);
  if (rows === undefined) return undefined;
  const { readings, told, empty } = rows;
  const remark = `a list for line-up: ${readings.length} levels that were measured, ${empty} rows without one`;
  return {
    sheet,
    columns: { ...columns, uses: [], unused: [], unclear: [] },
    list: { ...NOTHING, readings, told, remarks: [remark] },
  };
}

function passedOver({ sheet, columns }: ReadSheet, remark: string): ReadSheet {
  return { sheet, columns: { ...columns, uses: [], unused: [] }, list: { ...NOTHING, remarks: [remark] } };
}

function together(sheets: readonly ReadSheet[]): ListedRows {
  const all = <K extends keyof ListedRows>(key: K) =>
    sheets.flatMap(({ list }) => list[key] as readonly never[]);
  return {
    sites: all("sites"),
    hops: all("hops"),
    transmissions: all("transmissions"),
    ends: all("ends"),
    readings: all("readings"),
    told: all("told"),
  };
}

/** undefined: there is none yet */
function designIn(folder: string): DesignModel | undefined {
  if (!existsSync(folder)) return undefined;
  const { project, unreadable } = loadProject(folder);
  const [problem] = unreadable;
  if (problem) throw new CommandError(`${problem.path}: ${problem.message}`);
  const designs = project.designs().filter((model) => [...model.allFiles()].length > 0);
  if (designs.length > 1)
    throw new CommandError(
      `${folder}: there are ${designs.length} designs in this folder; name the folder of one`,
    );
  return designs[0];
}

const SITES_A_FILE = 200;
const HOPS_A_FILE = 100;
const PARTS_A_FILE = 200;

function newFiles(
  { out, title }: ImportRequest,
  plan: ImportPlan,
  sheets: readonly ReadSheet[],
  model: DesignModel | undefined,
): Imported["newFiles"] {
  const root = model?.root ?? out;
  const isTaken = (path: string) => existsSync(join(root, path));
  const made = (base: string, what: string, blocks: readonly string[], most: number) =>
    filesOf(base, blocks, most, isTaken).map(({ path, text, count }: ListFile) => ({
      path,
      text,
      what: `${count} ${what}${count === 1 ? "" : "s"}`,
    }));
  const parts = (["antenna", "radio", "coupler", "feeder"] as const).flatMap((kind) => {
    const own = plan.newParts.filter((part) => part.kind === kind);
    return made(`catalogue/${kind}s`, kind, own.map(partText), PARTS_A_FILE);
  });
  const begun = model ? [] : beginDesign({ title, climate: new Map() }).slice(0, 1);
  return [
    ...begun.map((file) => ({ ...file, what: "network, with objectives of usual kinds" })),
    ...made("sites", "site", plan.newSites.map(siteText), SITES_A_FILE),
    ...made("hops", "hop", plan.newHops.map(hopText), HOPS_A_FILE),
    ...parts,
    ...singlesCsv(plan, sheets, (path) => join(root, path)),
  ];
}
