/** The sheet that a technician lines a hop up with: what to read, within which window, and what less points to. */
import { type ExpectedLevel, expectedLevels, levelWindowDb } from "../../as-built/expected.js";
import { type HeldReading, heldReadings } from "../../as-built/held.js";
import type { LessByRange } from "../../as-built/side-lobe.js";
import { signaturesOf } from "../../as-built/signatures.js";
import type { Hop } from "../../design/design.js";
import { rssiVoltage } from "../../equipment/rssi.js";
import { dbm, decibels } from "../../format/numbers.js";
import type { Block, Inline, Page, ReportFinding, Section, Table, TableRow } from "../document/document.js";
import { errorsSection } from "./design-errors.js";
import { askedOf, type HopSheetInput, hopFacts, sheetCautions, sheetSubtitle } from "./hop-facts.js";
import {
  hasBothPolarizations,
  hasWaiting,
  receiverWords,
  senderWords,
  wayOf,
  windowWords,
} from "./level-words.js";
import { fieldsSection } from "./line-up-fields.js";
import type { SheetWords } from "./words/sheet-words.js";

export interface LineUpInput extends HopSheetInput {
  readonly findings: readonly ReportFinding[];
}

export function lineUpSheet(input: LineUpInput): Page {
  const { hop, result, name, words, colophon } = input;
  const expected = expectedLevels(hop, result);
  return {
    name,
    title: `${words.lineUp.title}: ${hop.title ?? hop.name}`,
    subtitle: sheetSubtitle(input),
    language: words.language,
    keyFigures: [],
    sections: [
      sheetCautions(input),
      ...errorsSection([{ findings: input.findings }], words),
      hopFacts(input),
      levelSection(input, expected),
      lessSection(input, expected),
      {
        id: "order",
        title: words.lineUp.order,
        blocks: [orderTable(hop, words)],
      },
      fieldsSection(input),
    ],
    colophon,
  };
}

/** In the order of the work, each with a box for whoever has done it. */
function orderTable(hop: Hop, { lineUp, common }: SheetWords): Table {
  const steps = lineUp.steps.toSpliced(
    -2,
    0,
    ...(hasWaiting(hop) ? [lineUp.standbyStep] : []),
    ...(hasBothPolarizations(hop) ? [lineUp.polarizationStep] : []),
  );
  return {
    type: "table",
    columns: [{ title: "", align: "right" }, { title: common.what }, { title: lineUp.done, fill: true }],
    rows: steps.map((step, at) => ({ cells: [String(at + 1), step, ""] })),
  };
}

function levelSection({ hop, result, words }: HopSheetInput, expected: readonly ExpectedLevel[]): Section {
  const { lineUp, acceptance } = words;
  const missed = askedOf(hop, result).flatMap(({ rule, name, verdict }) =>
    verdict === "missed" ? (acceptance.criteria[rule] ?? name) : [],
  );
  const directions = [...Map.groupBy(expected, ({ to }) => to).values()];
  const modes = modeTable(expected, words);
  return {
    id: "levels",
    title: lineUp.levels,
    blocks: [
      ...(missed.length === 0
        ? []
        : [
            {
              type: "paragraph",
              text: { text: lineUp.missed(missed.join(", ")), mark: "strong" },
            } as const,
          ]),
      { type: "paragraph", text: lineUp.levelsTold(words.figure(decibels(levelWindowDb(hop)))) },
      ...directions.map((those) => levelTable({ hop, result }, those, words)),
      ...(modes ? [modes] : []),
    ],
  };
}

function levelTable(
  { hop, result }: Pick<HopSheetInput, "hop" | "result">,
  those: readonly ExpectedLevel[],
  words: SheetWords,
): Table {
  const { lineUp } = words;
  const readings = heldReadings(hop, result)?.readings ?? [];
  const [first] = those;
  const windowDb = levelWindowDb(hop);
  const hasCurve = (hop.radio?.unit?.rssi ?? []).length > 0;
  const several = new Set(those.map(({ carrier }) => carrier)).size > 1;
  return {
    type: "table",
    caption: lineUp.direction(first!.from, first!.to),
    columns: [
      { title: lineUp.receiver },
      { title: lineUp.sender },
      { title: lineUp.promised, align: "right" },
      { title: lineUp.window, align: "right" },
      ...(hasCurve
        ? ([
            { title: lineUp.testVoltage, align: "right" },
            { title: lineUp.voltageWindow, align: "right" },
          ] as const)
        : []),
      { title: lineUp.measured, fill: true },
      { title: lineUp.voltageRead, fill: true },
    ],
    rows: those.map((one) => {
      const { levelDbm } = one.modes.at(-1)!;
      return {
        cells: [
          receiverWords(one, several, words),
          senderWords(one, several, words),
          words.figure(dbm(levelDbm)),
          windowWords(levelDbm, windowDb, words),
          ...(hasCurve ? [voltageWords(hop, levelDbm, words), voltageWindow(hop, levelDbm, words)] : []),
          readWords(one, readings, words),
          "",
        ],
      };
    }),
  };
}

/** The latest reading that agrees stands in its box already; where none does, the latest outside its window is told beside. */
function readWords(
  one: ExpectedLevel,
  readings: readonly HeldReading[],
  { figure, day, lineUp }: SheetWords,
): Inline {
  const own = readings.filter(({ expected }) => expected && wayOf(expected) === wayOf(one));
  const words = ({ measured }: HeldReading) => `${figure(dbm(measured.levelDbm))}, ${day(measured.on)}`;
  const agrees = own.findLast(({ verdict }) => verdict === "agrees");
  if (agrees !== undefined) return words(agrees);
  const last = own.findLast(({ verdict }) => verdict === "low" || verdict === "high");
  return last === undefined ? "" : { text: lineUp.readBefore(words(last)), mark: "quiet" };
}

function voltageWords(hop: Hop, levelDbm: number, { figure, lineUp }: SheetWords): string {
  const found = rssiVoltage(hop.radio?.unit?.rssi ?? [], levelDbm);
  return found.ok ? figure(`${found.voltageV.toFixed(2)} V`) : lineUp.offCurve;
}

/** `1.91 to 2.09 V`, lowest level first; an edge off the curve says so. */
function voltageWindow(hop: Hop, levelDbm: number, words: SheetWords): string {
  const windowDb = levelWindowDb(hop);
  const [low, high] = [-windowDb, windowDb].map((off) => voltageWords(hop, levelDbm + off, words));
  const { offCurve } = words.lineUp;
  if (low === offCurve && high === offCurve) return offCurve;
  const shown = high === offCurve ? low : low!.replace(/ V$/, "");
  return `${shown} ${words.common.to} ${high}`;
}

/** Side by side there is room for so many; more stand below each other. */
const MOST_BESIDE = 7;

/** Of the main units, where the hop runs in several modes: another mode may have another power. */
function modeTable(expected: readonly ExpectedLevel[], words: SheetWords): Table | undefined {
  const main = expected.filter(({ state, carrier }) => state === "normal" && carrier === 1);
  const modes = (main[0]?.modes ?? []).slice(0, -1);
  if (modes.length === 0) return undefined;
  const { lineUp, common } = words;
  const right = (title: string) => ({ title, align: "right" as const });
  const level = ({ modes: all }: ExpectedLevel, at: number) => {
    const found = all[at]?.levelDbm;
    return found === undefined ? "–" : words.figure(dbm(found));
  };
  if (modes.length <= MOST_BESIDE)
    return {
      type: "table",
      caption: lineUp.otherModes,
      columns: [{ title: common.site }, ...modes.map(({ modulation }) => right(modulation))],
      rows: main.map((one) => ({ cells: [one.to, ...modes.map((_, at) => level(one, at))] })),
    };
  return {
    type: "table",
    caption: lineUp.otherModes,
    columns: [{ title: common.mode }, ...main.map(({ to }) => right(to))],
    rows: modes
      .slice(0, MOST_MODES)
      .map(({ modulation }, at) => ({ cells: [modulation, ...main.map((one) => level(one, at))] })),
  };
}

const MOST_MODES = 16;

function lessSection({ hop, words }: HopSheetInput, expected: readonly ExpectedLevel[]): Section {
  const { lineUp } = words;
  const { oneLobe, bothLobes, turned } = signaturesOf(hop);
  const main = expected.filter(
    ({ state, carrier, branch }) => state === "normal" && carrier === 1 && branch === "main",
  );
  const row = (code: keyof typeof lineUp.signs, range: LessByRange | undefined): TableRow[] =>
    range === undefined
      ? []
      : [
          {
            cells: [
              lineUp.signs[code],
              rangeText(range.fromDb, range.toDb, "dB", words),
              ...main.map(({ modes }) => {
                const { levelDbm } = modes.at(-1)!;
                return rangeText(levelDbm - range.toDb, levelDbm - range.fromDb, "dBm", words);
              }),
            ],
          },
        ];
  const rows = [
    ...row("one side lobe", oneLobe),
    ...row("turned feed", turned),
    ...row("both side lobes", bothLobes),
  ];
  const table: Block[] =
    rows.length === 0
      ? []
      : [
          {
            type: "table",
            columns: [
              { title: lineUp.sign },
              { title: lineUp.lessBy, align: "right" },
              ...main.map(({ to }) => ({ title: lineUp.levelAt(to), align: "right" as const })),
            ],
            rows,
          },
        ];
  return {
    id: "less",
    title: lineUp.lessTitle,
    blocks: [{ type: "paragraph", text: lineUp.lessTold }, ...table],
  };
}

function rangeText(from: number, to: number, unit: string, { figure, common }: SheetWords): string {
  return figure(`${from.toFixed(0)} ${common.to} ${to.toFixed(0)} ${unit}`);
}
