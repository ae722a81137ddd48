/** The section of one hop: one short table of what was decided and what follows, then its findings. */
import type { Block, Inline, Span, TableRow } from "../../report/document/document.js";
import type { HopChange } from "../change-set.js";
import type { FigureChange } from "../consequences.js";
import { isMended, isWorse } from "../findings.js";
import { causeWords, entryWords } from "../words.js";
import { findingItems } from "./finding-items.js";
import type { TimeInput } from "./input.js";
import { rowsOfDecisions, worstOf } from "./tables.js";

/** The hop and the one thing that a reader must know of it. */
export function hopHeading(change: HopChange): string {
  const { hop, renamedFrom } = change;
  const name = renamedFrom === undefined ? hop : `${hop} (was ${renamedFrom})`;
  return `${name}: ${headline(change)}`;
}

function statusWords({ status, byState }: HopChange): string[] {
  if (status === "changed") return [];
  if (status === "not judged") return ["not judged any more"];
  if (!byState) return [status];
  return [status === "added" ? "stands" : "does not stand"];
}

/** In few words, also for the editor: `margin −3.1 dB, 1 new error`. */
export function headline(change: HopChange): string {
  const { renamedFrom, figures, findings, decisions } = change;
  const told: string[] = statusWords(change);
  if (renamedFrom !== undefined) told.push("renamed");
  for (const [kind, word] of HEADLINED) {
    const worst = worstOf(figures.filter((figure) => figure.kind === kind && figure.verdict !== "changed"));
    if (worst?.difference !== undefined) told.push(`${word} ${worst.difference}`);
    else if (worst) told.push(`${word} not computed any more`);
  }
  const open = findings.filter(isWorse);
  for (const severity of ["error", "warning"] as const) {
    const count = open.filter((one) => one.severity === severity).length;
    if (count > 0) told.push(`${count} new ${severity}${count > 1 ? "s" : ""}`);
  }
  const fixed = findings.filter(isMended).length;
  if (fixed > 0) told.push(`${fixed} finding${fixed > 1 ? "s" : ""} fixed`);
  if (told.length > 0) return told.join(", ");
  if (figures.length > 0)
    return figures.map(({ label, difference = "changed" }) => `${label} ${difference}`)[0]!;
  return decisions.length > 0 ? "no consequence" : "only remarks changed";
}

const HEADLINED: readonly (readonly [FigureChange["kind"], string])[] = [
  ["margin", "margin"],
  ["standby", "margin on standby"],
  ["clearance", "clearance"],
  ["availability", "availability"],
  ["capacity", "capacity"],
];

export function hopBlocks(change: HopChange, input: TimeInput): Block[] {
  const { decisions, figures, causes, findings, renamedFrom } = change;
  const rows = [...rowsOfDecisions(decisions), ...figures.map(rowOfFigure)];
  const items = findingItems(findings, input);
  const drawing = input.drawing?.(change);
  const lost = change.status === "not judged";
  const nothing = rows.length === 0 && items.length === 0 && causes.length === 0;
  return [
    ...(nothing && renamedFrom !== undefined
      ? [{ type: "paragraph", text: "Its ends are the same; nothing but the name changed." } as const]
      : []),
    ...(lost
      ? [
          {
            type: "paragraph",
            text: "It cannot be evaluated as it is: nothing is said of its figures, findings, parts and licences.",
          } as const,
        ]
      : []),
    ...(rows.length > 0 ? [{ type: "table", columns: COLUMNS, rows } as const] : []),
    ...causeBlocks(change),
    ...(items.length > 0 ? [{ type: "list", items } as const] : []),
    ...(drawing ? [drawing] : []),
  ];
}

/** Who else decided something for it, and what. Facts of defaults stand among the rows. */
function causeBlocks({ causes, edited }: HopChange): Block[] {
  if (causes.length === 0) return [];
  const text = edited ? "Changed for it by others" : "Nobody edited it; it changed because of";
  const told = causes.map((cause) => {
    const said = cause.kind === "defaults" ? "see above" : causeWords(cause);
    return said === "" ? entryWords(cause.text) : `${entryWords(cause.text)} (${said})`;
  });
  return [{ type: "paragraph", text: `${text}: ${told.join(", ")}.` }];
}

/** Differences are words with figures of many units: to the left, and broken where the page is narrow. */
const COLUMNS = [{ title: "What" }, { title: "Was" }, { title: "Is" }, { title: "Difference" }];

function rowOfFigure({ label, was, is, difference, verdict, remark }: FigureChange): TableRow {
  const by = difference === undefined ? "" : `${difference} `;
  const sign: readonly Span[] =
    verdict === "worse"
      ? [by, { text: "worse", mark: "warning" }]
      : verdict === "better"
        ? [by, { text: "better", mark: "good" }]
        : [difference ?? ""];
  const told: Inline = remark === undefined ? sign : [...sign, { text: ` ${remark}`, mark: "quiet" }];
  const absent = was === undefined || is === undefined ? "–" : "";
  return { cells: [label, was ?? absent, is ?? absent, told] };
}
