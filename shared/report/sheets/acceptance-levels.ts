/** Levels on the sheet for acceptance: those that the design states as read, and places to write the others into. */
import { expectedLevels, levelWindowDb } from "../../as-built/expected.js";
import { type HeldReading, heldReadings, type ReadingVerdict } from "../../as-built/held.js";
import { dbm, decibels, signed } from "../../format/numbers.js";
import type { Block, Section, Table, TableRow } from "../document/document.js";
import type { HopSheetInput } from "./hop-facts.js";
import { receiverWords, senderWords, wayOf, windowWords } from "./level-words.js";
import type { SheetWords } from "./words/sheet-words.js";

export function levelsSection({ hop, result, words }: HopSheetInput): Section {
  const { acceptance, lineUp, common } = words;
  const readings = heldReadings(hop, result)?.readings ?? [];
  const counting = readings.filter(({ verdict }) => verdict !== "replaced");
  const several = new Set(readings.map(({ expected }) => expected?.carrier)).size > 1;
  const blank = blankTable({ hop, result, words });
  const table: Block =
    counting.length === 0
      ? { type: "paragraph", text: acceptance.nothingMeasured }
      : {
          type: "table",
          columns: [
            { title: common.site },
            { title: lineUp.receiver },
            { title: common.mode },
            { title: lineUp.promised, align: "right" },
            { title: lineUp.window, align: "right" },
            { title: acceptance.measured, align: "right" },
            { title: common.difference, align: "right" },
            { title: acceptance.stands },
            { title: acceptance.readOn },
            { title: acceptance.readBy },
          ],
          rows: counting.map((one) => readingRow(one, several, levelWindowDb(hop), words)),
        };
  return { id: "levels", title: acceptance.levels, blocks: [table, ...(blank ? [blank] : [])] };
}

/** Nobody has to read that again; what lies outside its window is read anew once its cause is mended. */
const COUNTS: ReadonlySet<ReadingVerdict> = new Set(["agrees"]);

/** A row a way through the branches that no reading counts for; undefined: there is none. */
function blankTable({
  hop,
  result,
  words,
}: Pick<HopSheetInput, "hop" | "result" | "words">): Table | undefined {
  const { acceptance, lineUp, common, figure } = words;
  const expected = expectedLevels(hop, result);
  const several = new Set(expected.map(({ carrier }) => carrier)).size > 1;
  const readings = heldReadings(hop, result)?.readings ?? [];
  const read = new Set(
    readings.flatMap(({ verdict, expected: one }) => (one && COUNTS.has(verdict) ? [wayOf(one)] : [])),
  );
  const rows = expected
    .filter((one) => !read.has(wayOf(one)))
    .map((one): TableRow => {
      const { modulation, levelDbm } = one.modes.at(-1)!;
      return {
        cells: [
          one.to,
          receiverWords(one, several, words),
          senderWords(one, several, words),
          modulation,
          figure(dbm(levelDbm)),
          windowWords(levelDbm, levelWindowDb(hop), words),
          "",
          "",
          "",
        ],
      };
    });
  if (rows.length === 0) return undefined;
  return {
    type: "table",
    caption: acceptance.toRead,
    columns: [
      { title: common.site },
      { title: lineUp.receiver },
      { title: lineUp.sender },
      { title: common.mode },
      { title: lineUp.promised, align: "right" },
      { title: lineUp.window, align: "right" },
      { title: lineUp.measured, fill: true },
      { title: common.date, fill: true },
      { title: acceptance.initials, fill: true },
    ],
    rows,
  };
}

function readingRow(
  { measured, expected, mode, lessDb, verdict }: HeldReading,
  several: boolean,
  windowDb: number,
  words: SheetWords,
): TableRow {
  const { figure, acceptance, roles } = words;
  const receiver = expected ? receiverWords(expected, several, words) : roles[measured.branch ?? "main"];
  const sender = measured.sender === "standby" ? `, ${words.senderStandby}` : "";
  const off = lessDb === undefined ? "–" : figure(signed(decibels, -lessDb));
  const mark =
    verdict === "agrees" ? "good" : verdict === "low" || verdict === "high" ? "warning" : "unjudged";
  return {
    cells: [
      measured.site,
      `${receiver}${sender}`,
      mode?.modulation ?? measured.mode ?? "–",
      mode === undefined ? "–" : figure(dbm(mode.levelDbm)),
      mode === undefined ? "–" : windowWords(mode.levelDbm, windowDb, words),
      figure(dbm(measured.levelDbm)),
      off,
      { text: acceptance.readings[verdict], mark },
      words.day(measured.on),
      measured.by ?? "–",
    ],
  };
}
