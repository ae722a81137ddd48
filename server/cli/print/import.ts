/** What an import found and would do, for people. */
import type { Source, Told } from "../../../shared/lists/facts.js";
import { shownFrom } from "../../findings/paths.js";
import type { Imported } from "../../lists/import/import-lists.js";
import type { ReadSheet } from "../../lists/import/read-sheet.js";
import { unifiedDiff } from "../fix/unified.js";
import type { Paint } from "../streams.js";
import { safe } from "./safe.js";

/** So many rows of one kind are told on the screen; a file may take all. */
const MOST_TOLD = 40;
const MOST_LINES_SHOWN = 60;

export function* importText(imported: Imported, out: string, paint: Paint): Iterable<string> {
  for (const { name, reason } of imported.unreadable)
    yield `${paint("red", "not read")}: ${safe(name)}: ${safe(reason)}\n`;
  for (const sheet of imported.sheets) yield* sheetText(sheet, paint);
  const { plan } = imported;
  if (!plan) return;
  yield "\n";
  const { matched, transmissions, compared } = plan;
  if (transmissions.pairs + transmissions.single.length > 0)
    yield `${transmissions.pairs} pairs of directions are hops; ${transmissions.single.length} single transmissions are none${transmissions.repeated > 0 ? `; ${transmissions.repeated} rows repeat another` : ""}\n`;
  if (compared.azimuths > 0)
    yield `${compared.azimuths} azimuths compared, ${compared.azimuthsOff} more than 0.1 deg off (at most ${compared.greatestOffDeg.toFixed(2)} deg)\n`;
  if (matched.sites + matched.hops > 0)
    yield `${count(matched.sites, "site")} and ${count(matched.hops, "hop")} of the design are in the lists\n`;
  for (const remark of plan.remarks) yield `${paint("yellow", "note")}: ${safe(remark)}\n`;
  yield* newText(imported, out, paint);
  yield* changedText(imported, plan.changes.length, paint);
  yield* toldText("rows not taken", plan.told, "row", paint);
  yield* toldText("cells not taken", plan.told, "cell", paint);
  yield* toldText("remarks", plan.told, "remark", paint);
}

function* sheetText({ sheet, columns, list }: ReadSheet, paint: Paint): Iterable<string> {
  const rows = columns.rows.length;
  const kind =
    columns.uses.length === 0
      ? ""
      : `, ${count(rows, "row")} of ${columns.kind}${sheet.headed ? "" : `, heads in line ${columns.line}`}`;
  yield `${paint("bold", safe(sheet.name))}: ${sheet.how}${kind}\n`;
  const width = Math.min(40, Math.max(0, ...list.read.map(({ head }) => head.length)));
  for (const { head, as } of list.read) yield `  ${safe(head).padEnd(width)}  ${as}\n`;
  if (columns.unused.length > 0 && columns.uses.length > 0)
    yield `  passed over: ${safe(columns.unused.join(", "))}\n`;
  for (const note of [...sheet.notes, ...list.remarks]) yield `  ${paint("yellow", "note")}: ${safe(note)}\n`;
  for (const unclear of list.unclear) yield `  ${paint("red", "unclear")}: ${safe(unclear)}\n`;
}

function* newText({ newFiles }: Imported, out: string, paint: Paint): Iterable<string> {
  if (newFiles.length === 0) return;
  yield `${paint("bold", "new")}: ${newFiles.length === 1 ? "1 file" : `${newFiles.length} files`} in ${safe(out)}\n`;
  let left = MOST_LINES_SHOWN;
  for (const { path, text, what } of newFiles) {
    yield `  ${paint("green", safe(path))}: ${what}\n`;
    if (left <= 0 || !path.endsWith(".hop") || path === "network.hop") continue;
    const lines = text.split("\n").slice(0, -1);
    const shown = lines.slice(0, Math.max(8, Math.floor(left / 2)));
    left -= shown.length;
    for (const line of shown) yield `    ${safe(line)}\n`;
    if (shown.length < lines.length) yield `    … ${lines.length - shown.length} lines more\n`;
  }
}

function* changedText({ changed, notChanged }: Imported, changes: number, paint: Paint): Iterable<string> {
  if (changed.length > 0)
    yield `${paint("bold", "changed")}: ${count(changes - notChanged.length, "fact")} in ${count(changed.length, "file")}\n`;
  for (const { path, before, after } of changed)
    yield unifiedDiff(safe(shownFrom(process.cwd(), path)), before, after);
  for (const reason of notChanged) yield `  ${paint("red", "not changed")}: ${safe(reason)}\n`;
}

function* toldText(title: string, told: readonly Told[], what: Told["what"], paint: Paint): Iterable<string> {
  const own = told.filter((one) => one.what === what);
  if (own.length === 0) return;
  yield `${paint("bold", title)}: ${own.length}\n`;
  for (const { from, reason } of own.slice(0, MOST_TOLD)) yield `  ${placeText(from)}: ${safe(reason)}\n`;
  if (own.length > MOST_TOLD) yield `  … ${own.length - MOST_TOLD} more; --told FILE writes all of them\n`;
}

function placeText({ sheet, line }: Source): string {
  return `${safe(sheet)}:${line}`;
}

function count(number: number, word: string): string {
  return `${number} ${word}${number === 1 ? "" : "s"}`;
}
