/** What the network must carry, and what becomes of it: decisions, figures, findings with what changed on the way. */
import type { Block, Inline, Section, TableRow } from "../../report/document/document.js";
import type { DemandChange, DemandFigureChange } from "../demand-change.js";
import { entryWords } from "../words.js";
import { findingItems } from "./finding-items.js";
import type { TimeInput } from "./input.js";
import { decidedTable, isOfDemands } from "./shared-section.js";

const FIGURES = [
  { title: "Demand" },
  { title: "What" },
  { title: "Was" },
  { title: "Is" },
  { title: "Difference" },
  { title: "Because of" },
];

export function demandSection(input: TimeInput): Section[] {
  const { shared, demands } = input.changes;
  const decided = shared.filter(({ entry }) => isOfDemands(entry));
  if (decided.length === 0 && demands.length === 0) return [];
  const table = decidedTable(decided);
  const rows = demands.flatMap(figureRows);
  const causes = new Map(demands.map(({ demand, because }) => [`demand ${demand}`, because]));
  const items = decided.flatMap(({ findings, entry }) =>
    findingItems(findings, input, because(entryWords(entry), causes.get(entry))),
  );
  const blocks: Block[] = [
    ...(items.length > 0 ? [{ type: "list", items } as const] : []),
    ...(rows.length > 0 ? [{ type: "table", columns: FIGURES, rows } as const] : []),
    ...(table ? [table] : []),
  ];
  return [{ id: "demands", title: "What is carried", blocks }];
}

/** More causes than these are only counted. */
const MOST_CAUSES = 4;

function because(what: string, causes: readonly string[] = []): string {
  // That its own text changed stands beside it.
  const others = causes.filter((cause) => cause !== what);
  return others.length === 0 ? what : `${what}, because of ${causesText(others)}`;
}

function causesText(causes: readonly string[]): string {
  const more = causes.length - MOST_CAUSES;
  const told = causes.slice(0, MOST_CAUSES).join(", ");
  return more > 0 ? `${told} and ${more} more` : told;
}

function figureRows({ demand, figures, because: causes }: DemandChange): TableRow[] {
  return figures.map((figure, index) => ({
    cells: [
      index === 0 ? demand : "",
      figure.label,
      figure.was ?? "none",
      figure.is ?? "none",
      difference(figure),
      index === 0 ? causesText(causes) : "",
    ],
  }));
}

function difference({ difference: by = "", verdict }: DemandFigureChange): Inline {
  if (verdict === "changed") return by;
  const sign = { text: verdict, mark: verdict === "worse" ? ("warning" as const) : ("good" as const) };
  return by === "" ? [sign] : [`${by} `, sign];
}
