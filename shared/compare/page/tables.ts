/** Tables of a comparison that several sections share. */
import type { Inline, Table, TableRow } from "../../report/document/document.js";
import type { Cause, HopChange } from "../change-set.js";
import type { FigureChange } from "../consequences.js";
import type { DecisionChange } from "../decisions.js";
import { isMended, isOpened, isWorse } from "../findings.js";
import { entryWords } from "../words.js";

/** Was and is in the words of the language, one row a decision. */
export function rowsOfDecisions(decisions: readonly DecisionChange[]): TableRow[] {
  return decisions.map(({ site, within, word, was, is, from }) => {
    const place = [site, within].filter((part) => part !== undefined).join(" / ");
    const what: Inline = place === "" ? word : `${place}: ${word}`;
    const origin = from === undefined ? "" : { text: `from ${from}`, mark: "quiet" as const };
    return { cells: [what, quoted(was), quoted(is), origin] };
  });
}

function quoted(text: string | undefined): Inline {
  return text === undefined ? { text: "not stated", mark: "quiet" } : { text, mark: "code" };
}

const FIGURES: readonly (readonly [FigureChange["kind"], string])[] = [
  ["level", "Received level"],
  ["margin", "Margin"],
  ["degradation", "Interference"],
  ["standby", "On standby"],
  ["clearance", "Clearance"],
  ["availability", "Availability"],
  ["capacity", "Capacity"],
];

/** Hop by hop in one row each; a column that would be empty is left out. */
export function affectedTable(hops: readonly HopChange[]): Table {
  const shown = FIGURES.filter(([kind]) =>
    hops.some(({ figures }) => figures.some((one) => one.kind === kind)),
  );
  return {
    type: "table",
    columns: [
      { title: "Hop" },
      { title: "Because of" },
      ...shown.map(([, title]) => ({ title, align: "right" as const })),
      { title: "Findings" },
    ],
    rows: hops.map((change) => ({
      cells: [
        change.hop,
        change.causes.map(causeNamed).join(", "),
        ...shown.map(([kind]) => cell(change.figures.filter((one) => one.kind === kind))),
        findingCell(change),
      ],
    })),
  };
}

/** What it decided is told where hops stand alone, and with what hops share. */
function causeNamed({ text, status }: Cause): string {
  return status === "changed" ? entryWords(text) : `${entryWords(text)} (${status})`;
}

/** The worst of several, with its difference. */
function cell(figures: readonly FigureChange[]): Inline {
  const worst = worstOf(figures);
  if (!worst) return "";
  return [worst.is ?? "–", worst.difference === undefined ? "" : ` (${worst.difference})`];
}

/** One that is not computed any more is worse than any that fell. */
export function worstOf(figures: readonly FigureChange[]): FigureChange | undefined {
  const rank = ({ is, by = 0 }: FigureChange) => (is === undefined ? Number.NEGATIVE_INFINITY : by);
  return figures.toSorted((a, b) => rank(a) - rank(b))[0];
}

function findingCell({ findings }: HopChange): Inline {
  const open = findings.filter(isWorse).length;
  const fixed = findings.filter(isMended).length;
  const remarks = findings.filter((one) => isOpened(one) && !isWorse(one)).length;
  return [
    open > 0 ? `${open} new` : "",
    fixed > 0 ? `${fixed} fixed` : "",
    remarks > 0 ? `${remarks} remark${remarks > 1 ? "s" : ""}` : "",
  ]
    .filter(Boolean)
    .join(", ");
}
