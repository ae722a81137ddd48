/** Which rows of a list of others came, went or say something else; the order of rows, and of lines, says nothing. */
import type { OthersTable, OtherTransmission } from "../others/table.js";
import { plainName } from "../words/interference.js";
import type { DecisionChange } from "./decisions.js";

export interface RowChanges {
  /** In the words of a decision: `4 rows`, `5 rows, 1 more: REG-3001/A`. */
  readonly decision: DecisionChange;
  /** Lines of the old side that are gone or say something else, and those of the new that came or do. */
  readonly lines: readonly [ReadonlySet<number>, ReadonlySet<number>];
}

/** A list on both sides, with what became of it. */
export interface ListChange extends RowChanges {
  /** `others register.csv` */
  readonly entry: string;
  /** Whether a hop (by its names on both sides) hears or harms a row that is not as it was. */
  touches(was: string | undefined, is: string | undefined): boolean;
}

/** So many rows of a kind are told by name. */
const MOST_NAMES = 3;

/** @returns undefined where all rows are the same */
export function rowChanges(was: OthersTable, is: OthersTable): RowChanges | undefined {
  if (was === is) return undefined;
  const [gone, came] = differing(rowsOf(was), rowsOf(is));
  if (gone.length + came.length === 0) return undefined;
  const free = Map.groupBy(came, ({ name = "" }) => name);
  // One of a name that both sides have says something else; without a name it is another.
  const changed = new Map(
    gone.flatMap((row) => {
      const now = row.name === undefined ? undefined : free.get(row.name)?.shift();
      return now === undefined ? [] : [[row, now] as const];
    }),
  );
  const kept = new Set(changed.values());
  const told = [
    rowsTold(
      came.filter((row) => !kept.has(row)),
      "more",
    ),
    rowsTold(
      gone.filter((row) => !changed.has(row)),
      "gone",
    ),
    rowsTold([...kept], "changed"),
  ].filter((part) => part !== "");
  const count = (table: OthersTable) => `${table.count} row${table.count === 1 ? "" : "s"}`;
  return {
    decision: { word: "rows", was: count(was), is: [count(is), ...told].join(", ") },
    lines: [new Set(gone.map(({ line }) => line)), new Set(came.map(({ line }) => line))],
  };
}

function rowsTold(rows: readonly OtherTransmission[], what: string): string {
  if (rows.length === 0) return "";
  const names = rows
    .toSorted((a, b) => a.line - b.line)
    .slice(0, MOST_NAMES)
    .map(({ name, line }) => (name === undefined ? `line ${line}` : plainName(name)));
  const more = rows.length > names.length ? " and others" : "";
  return `${rows.length} ${what}: ${names.join(", ")}${more}`;
}

function rowsOf(table: OthersTable): OtherTransmission[] {
  return Array.from({ length: table.count }, (_, index) => table.at(index));
}

/** Rows of each side without one on the other that says the same. */
function differing(
  was: readonly OtherTransmission[],
  is: readonly OtherTransmission[],
): [OtherTransmission[], OtherTransmission[]] {
  const open = Map.groupBy(is, saying);
  const gone = was.filter((row) => open.get(saying(row))?.shift() === undefined);
  return [gone, [...open.values()].flat()];
}

function saying({ line: _, ...row }: OtherTransmission): string {
  return JSON.stringify(row);
}
