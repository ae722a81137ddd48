/** `import`: lists into a design; shown before anything is written. */
import { existsSync } from "node:fs";
import { join } from "node:path";
import type { ListKind, Mapping } from "../../../shared/lists/columns.js";
import { readHead } from "../../../shared/lists/heads.js";
import { CommandError, EXIT } from "../../command-error.js";
import { writeWhole } from "../../files/write-whole.js";
import { csvText } from "../../lists/csv-text.js";
import { type Imported, type ImportRequest, importLists } from "../../lists/import/import-lists.js";
import { readMapping } from "../../lists/import/mapping-file.js";
import { ask, mayAsk } from "../ask.js";
import { importText } from "../print/import.js";
import { safe } from "../print/safe.js";
import { note, paintStdout, print } from "../streams.js";
import { rewriteUnmoved } from "./fix.js";
import { titleOf } from "./new.js";

export interface ImportOptions {
  readonly out: string;
  readonly write?: boolean;
  readonly map?: string;
  readonly rows?: ListKind;
  readonly epsg?: number;
  readonly datumAsWgs84?: boolean;
  readonly told?: string;
}

/** @returns the exit status: 0 all is taken, 1 not all, 2 something is unclear or could not be read */
export async function importFiles(files: readonly string[], options: ImportOptions): Promise<number> {
  const { out, write = false, told } = options;
  for (const file of files) if (!existsSync(file)) throw new CommandError(`${file}: there is no such file`);
  const stage = stageLine();
  const base: ImportRequest = {
    files,
    out,
    title: titleOf(out),
    mapping: mappingOf(options),
    epsg: options.epsg,
    takeDatum: options.datumAsWgs84,
    stage: stage.show,
  };
  let imported = await importLists(base);
  for (let round = 0; round < MOST_ROUNDS && isUnclear(imported) && mayAsk(); round++) {
    stage.end();
    const mapping = await askColumns(imported, base.mapping);
    if (!mapping) break;
    Object.assign(base, { mapping });
    imported = await importLists(base);
  }
  stage.end();
  await print(importText(imported, out, paintStdout));
  const { plan, unreadable, sheets } = imported;
  if (!plan) {
    if (unreadable.length === 0)
      note(
        sheets.length === 0
          ? "there is nothing in these files to bring in"
          : `nothing is written: say what is unclear in a file for --map, for example { "columns": { ${JSON.stringify(headInQuestion(imported))}: "…" } }, with what the column holds, or nothing where it says nothing to a design`,
      );
    return EXIT.unreadable;
  }
  if (told !== undefined) writeTold(told, imported);
  if (write) writeAll(imported, out);
  else if (imported.newFiles.length + imported.changed.length > 0)
    note("nothing is written yet: say --write");
  else note("the design says all of this already");
  const lost =
    plan.told.some(({ what }) => what !== "remark") ||
    imported.notChanged.length > 0 ||
    sheets.some(({ sheet }) => sheet.unread);
  return lost ? EXIT.findings : EXIT.clean;
}

function headInQuestion({ sheets }: Imported): string {
  const unclear = sheets.find(({ list }) => list.unclear.length > 0);
  return /"([^"]+)"/.exec(unclear?.list.unclear[0] ?? "")?.[1] ?? unclear?.columns.unused[0] ?? "Head";
}

const MOST_ROUNDS = 20;

function isUnclear({ plan, unreadable }: Imported): boolean {
  return plan === undefined && unreadable.length === 0;
}

function mappingOf({ map, rows }: ImportOptions): Mapping {
  const mapping: Mapping = map === undefined ? { columns: new Map() } : readMapping(map);
  return rows === undefined ? mapping : { ...mapping, kind: rows };
}

/** @returns undefined where nothing was answered */
async function askColumns({ sheets }: Imported, mapping: Mapping): Promise<Mapping | undefined> {
  const unclear = sheets.find(({ list }) => list.unclear.length > 0);
  if (!unclear) return undefined;
  const { columns, list, sheet } = unclear;
  const heads = [...columns.uses.map(({ head }) => head), ...columns.unused];
  note(`\n${safe(sheet.name)}: ${safe(list.unclear[0]!)}`);
  for (const [i, head] of heads.entries())
    note(
      `  ${i + 1}  ${safe(head)}${list.read.find((one) => one.head === head) ? `: ${list.read.find((one) => one.head === head)!.as}` : ""}`,
    );
  const answer = await ask(
    "Which column holds what? For example 3 = latitude, or 3 = for one to pass over (Enter ends) ",
  );
  const [, number, meant = ""] = /^(\d+)\s*=\s*(.*)$/.exec(answer) ?? [];
  const head = heads[Number(number) - 1];
  if (head === undefined || (meant !== "" && !readHead(meant))) return undefined;
  return { ...mapping, columns: new Map([...mapping.columns, [head, meant.trim()]]) };
}

function writeTold(path: string, { plan }: Imported): void {
  if (existsSync(path)) throw new CommandError(`${path}: it is there already and is not replaced`);
  const rows = plan!.told.map(({ from, what, reason }) => [from.sheet, from.line, what, reason]);
  writeWhole(path, csvText([["list", "line", "what", "reason"], ...rows]));
}

function writeAll({ newFiles, changed }: Imported, out: string): void {
  for (const { path } of newFiles)
    if (existsSync(join(out, path)))
      throw new CommandError(`${join(out, path)}: it came to be meanwhile; run it again`);
  rewriteUnmoved(changed);
  for (const { path, text } of newFiles) writeWhole(join(out, path), text);
  note(
    newFiles.length + changed.length === 0
      ? "the design says all of this already: nothing was to be written"
      : `written: ${newFiles.length} new, ${changed.length} changed; next: hopwright check ${safe(out)}`,
  );
}

/** What is being done, on one line, at a terminal alone. */
function stageLine(): { readonly show: (what: string) => void; end(): void } {
  if (!process.stderr.isTTY) return { show: () => {}, end: () => {} };
  return {
    show: (what) => void process.stderr.write(`\r\x1b[2K${safe(what)}`),
    end: () => void process.stderr.write("\r\x1b[2K"),
  };
}
