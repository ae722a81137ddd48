/** The sheet that a hop is accepted with: what is promised, what was measured, what is excepted, and places to sign. */
import { type BuiltFact, builtDifferences, builtFigures } from "../../as-built/differences.js";
import { type HeldReading, heldReadings } from "../../as-built/held.js";
import { judgedMode } from "../../evaluate/level/judged-mode.js";
import { availabilityBounded } from "../../format/bounds.js";
import { bitRate, dbm, decibels, metres } from "../../format/numbers.js";
import { carriers } from "../../radio/arrangements.js";
import type { Block, Inline, Page, ReportFinding, Section, TableRow } from "../document/document.js";
import { askedOf, type HopSheetInput, hopFacts, sheetCautions, sheetSubtitle } from "./hop-facts.js";
import { receiverWords } from "./line-up.js";
import type { SheetWords } from "./words/sheet-words.js";

export interface AcceptanceInput extends HopSheetInput {
  readonly findings: readonly ReportFinding[];
}

export function acceptanceSheet(input: AcceptanceInput): Page {
  const { hop, name, words, colophon } = input;
  return {
    name,
    title: `${words.acceptance.title}: ${hop.title ?? hop.name}`,
    subtitle: sheetSubtitle(input),
    language: words.language,
    keyFigures: [],
    sections: [
      hopFacts(input),
      promised(input),
      levels(input),
      built(input),
      exceptions(input),
      openPoints(input),
      sheetCautions(input, "brief"),
      {
        id: "signatures",
        title: words.acceptance.signatures,
        blocks: [
          {
            type: "signatures",
            places: words.acceptance.roles.map((role) => ({
              role,
              fields: [words.common.name, words.common.date, words.common.signature],
            })),
          },
        ],
      },
    ],
    colophon,
  };
}

function promised({ hop, result, words }: AcceptanceInput): Section {
  const { acceptance, common, figure } = words;
  const { availability, directions } = result;
  const judged = directions.flatMap(({ modes }) => judgedMode(hop, modes) ?? []);
  const margins = judged.flatMap(({ fadeMarginDb }) => fadeMarginDb ?? []);
  const rates = judged.flatMap(({ bitRateBps }) => bitRateBps ?? []);
  const carriedBps = Math.min(...rates) * carriers(hop.arrangement.name);
  const names = [...new Set(judged.map(({ modulation }) => modulation))].join(", ");
  const rows: (readonly [string, string | undefined])[] = [
    [
      acceptance.availability,
      availability && figure(availabilityBounded(availability).replace("est.", () => acceptance.estimated)),
    ],
    [
      acceptance.margin,
      margins.length === 0 ? undefined : `${figure(decibels(Math.min(...margins)))}, ${names}`,
    ],
    [acceptance.capacity, rates.length === 0 ? undefined : figure(bitRate(carriedBps))],
  ];
  const criteria = askedOf(hop, result);
  const asked: Block =
    criteria.length === 0
      ? { type: "paragraph", text: acceptance.nothingAsked }
      : {
          type: "table",
          caption: acceptance.asked,
          columns: [{ title: acceptance.criterion }, { title: acceptance.stands }],
          rows: criteria.map(({ rule, name, verdict }) => ({
            cells: [
              acceptance.criteria[rule] ?? name,
              { text: acceptance.verdicts[verdict], mark: TONES[verdict] },
            ],
          })),
        };
  return {
    id: "promised",
    title: acceptance.figures,
    blocks: [
      {
        type: "table",
        columns: [{ title: common.what }, { title: acceptance.promisedFigure, align: "right" }],
        rows: rows.map(([label, value]) => ({ cells: [label, value ?? common.notStated] })),
      },
      asked,
    ],
  };
}

const TONES = { met: "good", missed: "error", open: "unjudged" } as const;

function levels({ hop, result, words }: AcceptanceInput): Section {
  const { acceptance, lineUp, common } = words;
  const held = heldReadings(hop, result);
  const counting = (held?.readings ?? []).filter(({ verdict }) => verdict !== "replaced");
  const several = new Set(held?.readings.map(({ expected }) => expected?.carrier)).size > 1;
  const missing = (held?.unmeasured ?? []).map((one) => `${one.to} ${receiverWords(one, several, words)}`);
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
            { title: acceptance.measured, align: "right" },
            { title: common.difference, align: "right" },
            { title: acceptance.stands },
            { title: acceptance.readOn },
            { title: acceptance.readBy },
          ],
          rows: counting.map((one) => readingRow(one, several, words)),
        };
  return {
    id: "levels",
    title: acceptance.levels,
    blocks: [
      table,
      ...(missing.length === 0
        ? []
        : [{ type: "paragraph", text: acceptance.unmeasured(missing.join("; ")) } as const]),
    ],
  };
}

function readingRow(
  { measured, expected, mode, lessDb, verdict }: HeldReading,
  several: boolean,
  words: SheetWords,
): TableRow {
  const { figure, acceptance, roles } = words;
  const receiver = expected ? receiverWords(expected, several, words) : roles[measured.branch ?? "main"];
  const sender = measured.sender === "standby" ? `, ${words.senderStandby}` : "";
  const off = lessDb === undefined ? "–" : figure(`${lessDb <= 0 ? "+" : ""}${decibels(-lessDb)}`);
  const mark =
    verdict === "agrees" ? "good" : verdict === "low" || verdict === "high" ? "warning" : "unjudged";
  return {
    cells: [
      measured.site,
      `${receiver}${sender}`,
      mode?.modulation ?? measured.mode ?? "–",
      mode === undefined ? "–" : figure(dbm(mode.levelDbm)),
      figure(dbm(measured.levelDbm)),
      off,
      { text: acceptance.readings[verdict], mark },
      words.day(measured.on),
      measured.by ?? "–",
    ],
  };
}

function built({ hop, result, words }: AcceptanceInput): Section {
  const { acceptance, common, figure } = words;
  const differences = builtDifferences(hop, result);
  const figureText = (fact: BuiltFact, value: number) =>
    figure(fact === "azimuth" ? `${value.toFixed(2)}°` : metres(value));
  const stated = hop.ends.flatMap(({ site, antenna, asBuilt, ...end }, at): TableRow[] => {
    if (asBuilt === undefined) return [];
    const azimuthDeg = result.geometry?.[at as 0 | 1].azimuthDeg;
    const hung = asBuilt.antenna?.name;
    return [
      ...(hung === undefined
        ? []
        : [{ cells: [site.name, acceptance.builtFacts.antenna, antenna?.name ?? "–", hung] }]),
      ...builtFigures({ site, antenna, ...end }, asBuilt, azimuthDeg).map(({ fact, planned, built }) => ({
        cells: [
          site.name,
          acceptance.builtFacts[fact],
          planned === undefined ? "–" : figureText(fact, planned),
          figureText(fact, built),
        ],
      })),
    ];
  });
  const serials: TableRow[] = hop.ends.flatMap(({ site, asBuilt }) =>
    (asBuilt?.serials ?? []).map(({ number, of, branch }) => ({
      cells: [
        site.name,
        `${common.serial}, ${of === "unit" ? common.unit : of === "antenna" ? common.antenna : of}${branch ? `, ${words.roles[branch]}` : ""}`,
        "–",
        number,
      ],
    })),
  );
  const rows = [...stated, ...serials];
  return {
    id: "built",
    title: acceptance.built,
    blocks: [
      ...(differences.length > 0
        ? []
        : [
            {
              type: "paragraph",
              text: acceptance[stated.some(({ cells }) => cells[2] !== "–") ? "withinReason" : "asPlanned"],
            } as const,
          ]),
      ...(rows.length === 0
        ? []
        : [
            {
              type: "table",
              columns: [
                { title: common.site },
                { title: common.what },
                { title: common.planned, align: "right" },
                { title: common.built, align: "right" },
              ],
              rows,
            } as const,
          ]),
    ],
  };
}

function exceptions({ findings, words }: AcceptanceInput): Section {
  const { acceptance, day } = words;
  const accepted = findings.filter((one) => one.accepted !== undefined);
  const rows = accepted.map(({ rule, message, accepted: why }) => ({
    cells: [
      { text: rule, mark: "code" } as Inline,
      message,
      why?.reason ?? "–",
      why?.until === undefined ? acceptance.noEnd : day(why.until),
    ],
  }));
  const blocks: Block[] =
    rows.length === 0
      ? [{ type: "paragraph", text: acceptance.noExceptions }]
      : [
          { type: "paragraph", text: acceptance.exceptionsTold },
          {
            type: "table",
            columns: [
              { title: acceptance.rule },
              { title: acceptance.finding },
              { title: acceptance.reason },
              { title: acceptance.until },
            ],
            rows,
          },
        ];
  return { id: "exceptions", title: acceptance.exceptions, blocks };
}

/** Errors and warnings that nobody has accepted. */
function openPoints({ findings, words }: AcceptanceInput): Section {
  const { acceptance } = words;
  const open = findings.filter((one) => one.accepted === undefined && one.severity !== "info");
  const blocks: Block[] =
    open.length === 0
      ? [{ type: "paragraph", text: acceptance.noOpen }]
      : [
          {
            type: "table",
            columns: [{ title: acceptance.rule }, { title: acceptance.finding }],
            rows: open.map(({ rule, message }) => ({
              cells: [{ text: rule, mark: "code" } as Inline, message],
            })),
          },
        ];
  return { id: "open", title: acceptance.open, blocks };
}
