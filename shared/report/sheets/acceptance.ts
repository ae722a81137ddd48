/** The sheet that a hop is accepted with: what is asked and promised, what was measured, what is excepted, and places to sign. */
import { type BuiltFact, builtDifferences, builtFigures } from "../../as-built/differences.js";
import { sameMode } from "../../evaluate/level/judged-mode.js";
import { bandwidth, bitRate, decibels, metres } from "../../format/numbers.js";
import { carriers } from "../../radio/arrangements.js";
import { judgedDirections } from "../../rules/judged-modes.js";
import type {
  Inline,
  MarkedText,
  Page,
  ReportFinding,
  Section,
  Table,
  TableRow,
} from "../document/document.js";
import { type AskedRow, askedRows } from "./acceptance-asked.js";
import { checksSection, exceptionsSection, openSection, signatures } from "./acceptance-closing.js";
import { levelsSection } from "./acceptance-levels.js";
import { type HopSheetInput, hopFacts, sheetCautions, sheetSubtitle } from "./hop-facts.js";

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
      sheetCautions(input, "brief"),
      hopFacts(input, "brief"),
      asked(input),
      levelsSection(input),
      built(input),
      exceptionsSection(input.findings, input.words),
      openSection(input.findings, input.words),
      checksSection(input),
      signatures(input),
    ],
    colophon,
  };
}

function asked({ hop, result, findings, words }: AcceptanceInput): Section {
  const { acceptance, common } = words;
  const accepted = new Map(findings.flatMap((one) => (one.accepted ? [[one.rule, one.accepted]] : [])));
  const stands = ({ rule, verdict }: AskedRow): Inline => {
    if (verdict === undefined) return "";
    const until = verdict === "met" || rule === undefined ? undefined : accepted.get(rule);
    const said: MarkedText = { text: acceptance.verdicts[verdict], mark: TONES[verdict] };
    if (until === undefined) return said;
    const day = until.until === undefined ? undefined : words.day(until.until);
    return [said, ` ${acceptance.acceptedUntil(day)}`];
  };
  const rows = askedRows({ hop, result, words }).map((row) => ({
    cells: [row.what, row.where ?? "", row.asked ?? "–", row.promised ?? acceptance.notComputed, stands(row)],
  }));
  const table: Table = {
    type: "table",
    columns: [
      { title: common.what },
      { title: acceptance.where },
      { title: acceptance.askedFigure, align: "right" },
      { title: acceptance.promisedFigure, align: "right" },
      { title: acceptance.stands },
    ],
    rows,
  };
  const modes = modesTable({ hop, result, words });
  return {
    id: "promised",
    title: acceptance.asked,
    blocks: [
      {
        type: "paragraph",
        text: hop.objective === undefined ? acceptance.nothingAsked : acceptance.askedTold,
      },
      ...(rows.length === 0 ? [] : [table]),
      ...(result.availability?.rainAtMostPercent === undefined
        ? []
        : [{ type: "paragraph", text: { text: acceptance.estimateTold, mark: "quiet" } } as const]),
      ...(modes ? [modes] : []),
    ],
  };
}

const TONES = { met: "good", missed: "error", open: "unjudged" } as const;

/** The margin of each mode in both directions, the judged one standing out; undefined: there is one alone, told above. */
function modesTable({
  hop,
  result,
  words,
}: Pick<HopSheetInput, "hop" | "result" | "words">): Table | undefined {
  const { acceptance, common, figure } = words;
  if (hop.modes.length < 2 || result.directions.length === 0) return undefined;
  const judged = judgedDirections(hop, result)[0]?.mode;
  const widths = new Set(hop.modes.map(({ bandwidthHz }) => bandwidthHz));
  const count = carriers(hop.arrangement.name);
  const rows = hop.modes.map((mode): TableRow => {
    const { modulation, bandwidthHz, bitRateBps } = mode;
    const margins = result.directions.map(
      ({ modes }) => modes.find((one) => sameMode(one, mode))?.fadeMarginDb,
    );
    return {
      emphasis: judged !== undefined && sameMode(judged, mode),
      cells: [
        widths.size > 1 ? `${modulation}, ${figure(bandwidth(bandwidthHz))}` : modulation,
        bitRateBps === undefined ? common.notStated : figure(bitRate(count * bitRateBps)),
        ...margins.map((marginDb) =>
          marginDb === undefined ? acceptance.notComputed : figure(decibels(marginDb)),
        ),
      ],
    };
  });
  return {
    type: "table",
    caption: acceptance.modes,
    columns: [
      { title: common.mode },
      { title: acceptance.rate, align: "right" },
      ...result.directions.map(({ to }) => ({ title: acceptance.marginAt(to), align: "right" as const })),
    ],
    rows,
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
    (asBuilt?.serials ?? []).map(({ number, of, branch, carrier }) => ({
      cells: [
        site.name,
        [
          common.serial,
          acceptance.serialOf[of],
          ...(branch === undefined ? [] : [words.roles[branch]]),
          ...(carrier === undefined ? [] : [words.carrier(carrier)]),
        ].join(", "),
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
