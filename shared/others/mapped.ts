/** Which columns of a file are what: the heads that a list names, found among those that stand there. */
import type { OthersColumn, OthersKey, OthersList } from "../design/interference.js";
import { nearest } from "../format/nearest.js";
import { unitOf } from "../lists/heads.js";
import { textOf } from "../lists/table.js";
import { findUnit } from "../units/units.js";
import { OTHERS_FIELDS } from "./columns.js";

/** A column that is there. */
export interface MappedColumn {
  readonly key: OthersKey;
  /** As the list names it. */
  readonly head: string;
  /** Place in a row. */
  readonly index: number;
  /** Symbol of the unit of its figures. */
  readonly unit?: string;
  /** Places of the rest of an angle. */
  readonly minutes?: number;
  readonly seconds?: number;
  readonly hemisphere?: number;
}

/** A head that a list names and the file has not, or has twice. */
export interface ColumnFault {
  readonly key: OthersKey;
  /** Argument of the statement: `column`, `minutes`. */
  readonly argument: string;
  readonly head: string;
  readonly is: "missing" | "doubled";
  /** Of those that are there. */
  readonly nearest?: string;
}

export interface Mapped {
  readonly columns: readonly MappedColumn[];
  readonly faults: readonly ColumnFault[];
}

/** @param heads as they stand in the first line */
export function mappedColumns({ columns }: OthersList, heads: readonly string[]): Mapped {
  const texts = heads.map(textOf);
  const faults: ColumnFault[] = [];
  // Of a file that has none of them, which may be any file, nothing is told.
  const isMeant = columns.some(({ head }) => texts.includes(textOf(head)));
  const place = (column: OthersColumn, argument: string, head: string): number | undefined => {
    const index = texts.indexOf(textOf(head));
    const { key } = column;
    if (index < 0)
      faults.push({
        key,
        argument,
        head,
        is: "missing",
        nearest: isMeant ? nearest(head, texts.filter(Boolean)) : undefined,
      });
    else if (texts.indexOf(texts[index]!, index + 1) >= 0)
      faults.push({ key, argument, head, is: "doubled" });
    return index < 0 ? undefined : index;
  };
  return {
    columns: columns.flatMap((column): MappedColumn[] => {
      const { key, head } = column;
      const index = place(column, "column", head);
      const part = (name: "minutes" | "seconds" | "hemisphere") =>
        column[name] === undefined ? undefined : place(column, name, column[name]);
      const rest = { minutes: part("minutes"), seconds: part("seconds"), hemisphere: part("hemisphere") };
      return index === undefined ? [] : [{ key, head, index, unit: unitFor(column), ...rest }];
    }),
    faults,
  };
}

/** As stated; else what the head ends with, `frequency_MHz` or `height [ft]`; else the usual one. */
function unitFor({ key, head, unit }: OthersColumn): string | undefined {
  const { figure } = OTHERS_FIELDS[key];
  if (unit !== undefined || figure === undefined) return unit;
  const words = head.split(/[^\p{L}\p{N}°%/]+/u).filter((word) => word !== "");
  const last = words.length > 1 ? words.at(-1)! : undefined;
  if (last === undefined) return figure.usual;
  const found = findUnit(last, figure.dimension)?.unit.symbol;
  const spelled = unitOf(last);
  return found ?? (spelled?.dimension === figure.dimension ? spelled.symbol : figure.usual);
}

/** What a list cannot be without and does not name, in words. */
export function lackingIn({ columns, epsg }: OthersList): readonly string[] {
  const has = (...keys: readonly OthersKey[]) => keys.every((key) => columns.some((one) => one.key === key));
  const lacking: string[] = [];
  const projected = has("easting", "northing");
  if (!has("position") && !has("latitude", "longitude") && !projected)
    lacking.push("where the transmitters are (`latitude` and `longitude`)");
  if (projected && epsg === undefined) lacking.push("the system of its eastings and northings (`epsg`)");
  if (!has("frequency")) lacking.push("the frequency (`frequency`)");
  if (!has("emission") && !has("bandwidth")) lacking.push("the bandwidth (`emission` or `bandwidth`)");
  if (!has("eirp") && !has("power", "antenna-gain") && !has("power", "antenna-diameter"))
    lacking.push("the EIRP (`eirp`, or `power` and `antenna-gain`)");
  return lacking;
}
