/** What the network must carry, and what becomes of it: decisions, figures, findings with what changed on the way. */
import type { Block, Inline, Section, TableRow } from "../../report/document/document.js";
import type { SharedChange } from "../change-set.js";
import type { DemandChange, DemandFigureChange } from "../demand-change.js";
import { entryWords } from "../words.js";
import { findingItems } from "./finding-items.js";
import type { TimeInput } from "./input.js";
import { decidedTable, isOfDemands } from "./shared-section.js";

const FIGURES = (of: string) => [
  { title: of },
  { title: "What" },
  { title: "Was" },
  { title: "Is" },
  { title: "Difference" },
  { title: "Because of" },
];

export function demandSection(input: TimeInput): Section[] {
  const { shared, demands, loads } = input.changes;
  const decided = shared.filter(({ entry }) => isOfDemands(entry));
  if (decided.length + demands.length + loads.length === 0) return [];
  const table = decidedTable(decided);
  const edits = new Map(decided.map(({ entry, decisions }) => [entry, editWords(decisions)]));
  const causes = new Map(demands.map(({ demand, because }) => [`demand ${demand}`, because]));
  const items = decided.flatMap(({ findings, entry }) =>
    findingItems(findings, input, because(entryWords(entry), causes.get(entry), edits.get(entry))),
  );
  const blocks: Block[] = [
    ...(items.length > 0 ? [{ type: "list", items } as const] : []),
    ...figureTable(
      "Demand",
      demands.map(({ demand, ...change }) => ({ of: demand, ...change })),
    ),
    ...figureTable(
      "Hop",
      loads.map(({ hop, ...change }) => ({ of: hop, ...change })),
    ),
    ...(table ? [table] : []),
  ];
  return [{ id: "demands", title: "What is carried", blocks }];
}

/** More causes than these are only counted. */
const MOST_CAUSES = 4;

/** Its own edit by its words alone: from what to what stands below. */
function because(what: string, causes: readonly string[] = [], edit = ""): string {
  const told = causes.flatMap((cause) => (cause === what ? (edit === "" ? [] : `its own ${edit}`) : cause));
  return told.length === 0 ? what : `${what}, because of ${causesText(told)}`;
}

function editWords(decisions: SharedChange["decisions"]): string {
  return [...new Set(decisions.map(({ word }) => word))].join(" and ");
}

function causesText(causes: readonly string[]): string {
  const more = causes.length - MOST_CAUSES;
  const told = causes.slice(0, MOST_CAUSES).join(", ");
  return more > 0 ? `${told} and ${more} more` : told;
}

interface Changed extends Pick<DemandChange, "figures" | "because"> {
  readonly of: string;
}

function figureTable(title: string, changed: readonly Changed[]): Block[] {
  const rows = changed.flatMap(figureRows);
  return rows.length === 0 ? [] : [{ type: "table", columns: FIGURES(title), rows }];
}

function figureRows({ of, figures, because: causes }: Changed): TableRow[] {
  return figures.map((figure, index) => ({
    cells: [
      index === 0 ? of : "",
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
