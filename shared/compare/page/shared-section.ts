/** What changed beside hops and sites. */
import type { Section, Table, TableRow } from "../../report/document/document.js";
import type { SharedChange } from "../change-set.js";
import { entryWords } from "../words.js";
import { findingItems } from "./finding-items.js";
import type { TimeInput } from "./input.js";
import { rowsOfDecisions } from "./tables.js";

const DECIDED = [{ title: "What" }, { title: "Was" }, { title: "Is" }];

export function sharedSections(input: TimeInput): Section[] {
  const changes = input.changes.shared.filter(({ entry }) => !isOfDemands(entry));
  if (changes.length === 0) return [];
  const rows = decidedRows(
    changes,
    ({ usedBy, affects }) => `${usedBy}, ${affects} of them with consequences`,
  );
  const items = changes.flatMap(({ findings, entry }) => findingItems(findings, input, entryWords(entry)));
  return [
    {
      id: "shared",
      title: "What hops share",
      blocks: [
        { type: "table", columns: [...DECIDED, { title: "Hops" }], rows },
        ...(items.length > 0 ? [{ type: "list", items } as const] : []),
      ],
    },
  ];
}

/** No hop rests on these: they rest on hops. */
export function isOfDemands(entry: string): boolean {
  return /^(demand |traffic$|defaults demand$)/.test(entry);
}

/** What was decided in declarations; undefined where nothing was. */
export function decidedTable(changes: readonly SharedChange[]): Table | undefined {
  const decided = changes.filter(({ status, decisions }) => status !== "changed" || decisions.length > 0);
  return decided.length === 0 ? undefined : { type: "table", columns: DECIDED, rows: decidedRows(decided) };
}

/** @param hops what a last column says of the hops for which each counts */
function decidedRows(changes: readonly SharedChange[], hops?: (change: SharedChange) => string): TableRow[] {
  return changes.flatMap((change): TableRow[] => {
    const { entry, status, renamedFrom, decisions } = change;
    const named = nowAndBefore(entryWords(entry), renamedFrom);
    const last = hops ? [hops(change)] : [];
    if (decisions.length === 0) return [{ cells: [named, "", status === "changed" ? "" : status, ...last] }];
    return rowsOfDecisions(decisions).map(({ cells }, index) => ({
      cells: [index === 0 ? named : "", cells[1]!, cells[2]!, ...(index === 0 ? last : last.map(() => ""))],
    }));
  });
}

export function nowAndBefore(name: string, renamedFrom: string | undefined): string {
  return renamedFrom === undefined ? name : `${name} (was ${renamedFrom})`;
}
