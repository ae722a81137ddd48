/**
 * What a sheet lists, and which column holds what: the line of the heads is looked for, heads over several columns are
 * joined with those below, and whatever two columns claim or nobody claims is told before a row is read.
 */

import type { Field, FieldKey } from "./field.js";
import { FIELD } from "./fields.js";
import { type EndMark, type Head, readHead, unitOf } from "./heads.js";
import { type Sheet, type SheetRow, textOf } from "./table.js";

export type ListKind = "sites" | "hops" | "transmissions" | "ends";

/** Of an angle in columns of its own for degrees, minutes, seconds and hemisphere. */
type AnglePart = "degrees" | "minutes" | "seconds" | "hemisphere";

export interface ColumnUse {
  readonly index: number;
  readonly head: string;
  readonly field: Field;
  /** Undefined: of the site or the hop, or of both ends alike. */
  readonly end?: "a" | "b";
  readonly part?: AnglePart;
  /** As the head states it. */
  readonly unit?: string;
  readonly reference?: string;
}

export interface Columns {
  readonly kind: ListKind;
  readonly uses: readonly ColumnUse[];
  readonly unused: readonly string[];
  /** Line of the heads. */
  readonly line: number;
  readonly rows: readonly SheetRow[];
  /** What has to be decided before the rows can be read, one sentence each. */
  readonly unclear: readonly string[];
}

/** What a person has decided: heads to what they hold, in any spelling of a head; empty: the column is passed over. */
export interface Mapping {
  readonly columns: ReadonlyMap<string, string>;
  readonly kind?: ListKind;
}

export const NO_MAPPING: Mapping = { columns: new Map() };

/** A head does not stand deeper than this, below titles and remarks. */
const DEEPEST_HEAD = 25;

export function columnsOf(sheet: Sheet, mapping: Mapping = NO_MAPPING): Columns {
  const found = findHeads(sheet, mapping);
  if (!found) {
    const heads = (sheet.rows[0]?.cells ?? []).map(textOf).filter((text) => text !== "");
    return {
      kind: mapping.kind ?? "sites",
      uses: [],
      unused: heads,
      line: sheet.rows[0]?.line ?? 1,
      rows: [],
      unclear: ["no line of heads was found: none of the first lines names two columns that are known"],
    };
  }
  return assigned(found, mapping);
}

interface FoundHeads {
  readonly heads: readonly (HeadOfColumn | undefined)[];
  readonly texts: readonly string[];
  readonly line: number;
  readonly rows: readonly SheetRow[];
}

type HeadOfColumn = Head & { readonly part?: AnglePart };

function findHeads({ rows, headed, spread }: Sheet, mapping: Mapping): FoundHeads | undefined {
  let best: (FoundHeads & { readonly score: number }) | undefined;
  const deepest = headed ? 1 : Math.min(DEEPEST_HEAD, rows.length);
  for (let at = 0; at < deepest; at++) {
    const { cells, line } = rows[at]!;
    const texts = cells.map(textOf);
    const before = at > 0 ? rows[at - 1]!.cells.map(textOf) : undefined;
    for (const above of [undefined, before && (spread ? before : filledRight(before, texts.length))]) {
      if (above === undefined && best?.line === line) continue;
      const heads = texts.map((text, i) => headOf(text, above?.[i], mapping));
      const score = new Set(heads.flatMap((head) => (head ? [keyOf(head)] : []))).size;
      if (score > (best?.score ?? (headed ? 0 : 1)))
        best = {
          heads,
          texts: texts.map((text, i) => joined(above?.[i], text)),
          line,
          rows: rows.slice(at + 1),
          score,
        };
    }
  }
  return best && withUnitRow(best);
}

function keyOf({ field, end, part }: HeadOfColumn): string {
  return `${field.key} ${end ?? ""} ${part ?? ""}`;
}

function headOf(text: string, above: string | undefined, mapping: Mapping): HeadOfColumn | undefined {
  if (text === "") return undefined;
  const decided = mapping.columns.get(text) ?? mapping.columns.get(joined(above, text));
  if (decided !== undefined) return decided === "" ? undefined : readPart(decided);
  // What stands over several columns is said of each; where both say nothing together, the lower one stands alone.
  return (
    (above ? (readPart(`${above} ${text}`) ?? readPart(`${text} ${above}`)) : undefined) ?? readPart(text)
  );
}

function joined(above: string | undefined, text: string): string {
  return above === undefined || above === "" || text === "" || above === text ? text : `${above} ${text}`;
}

/** A merged cell has its text in the first of its columns. */
function filledRight(texts: readonly string[], length: number): string[] {
  let last = "";
  return Array.from({ length }, (_, i) => (texts[i] ? (last = texts[i]) : last));
}

const PARTS: readonly (readonly [RegExp, AnglePart])[] = [
  [/[\s_.(]*(?:min|minutes?)[).]*$/i, "minutes"],
  [/[\s_.(]*(?:sec|seconds?)[).]*$/i, "seconds"],
  [/[\s_.(]*(?:dir|direction|hemisphere|hem|ns|ew|n\/s|e\/w)[).]*$/i, "hemisphere"],
];

function readPart(text: string): HeadOfColumn | undefined {
  for (const [pattern, part] of PARTS) {
    if (!pattern.test(text)) continue;
    const head = readHead(text.replace(pattern, ""));
    if (head?.field.key === "latitude" || head?.field.key === "longitude") return { ...head, part };
  }
  return readHead(text);
}

/** `m`, `MHz`, `°` below the heads, and nothing else. */
function withUnitRow(found: FoundHeads): FoundHeads {
  const next = found.rows[0];
  const texts = next?.cells.map(textOf) ?? [];
  const words = texts.filter((text) => text !== "" && text !== "-");
  // `m ü. NN` is a height in m.
  const bare = (text: string) => text.replace(/^[[(]|[\])]$/g, "").split(" ")[0]!;
  if (words.length < 2 || !words.every((text) => unitOf(bare(text)) !== undefined)) return found;
  const heads = found.heads.map((head, i) => {
    const unit = unitOf(bare(texts[i] ?? ""));
    return head && unit && head.field.figure?.dimension === unit.dimension
      ? { ...head, unit: unit.symbol }
      : head;
  });
  return { ...found, heads, rows: found.rows.slice(1) };
}

const END_ONLY: ReadonlySet<FieldKey> = new Set([
  "antenna",
  "antennaHeight",
  "coupler",
  "feeder",
  "transmits",
  "frequency",
  "power",
  "extraLoss",
]);

function kindOf(heads: readonly HeadOfColumn[], mapping: Mapping): ListKind {
  if (mapping.kind) return mapping.kind;
  const has = (key: FieldKey, end?: EndMark) =>
    heads.some((head) => head.field.key === key && head.end === end);
  const places = (end: EndMark) =>
    has("site", end) || has("latitude", end) || has("position", end) || has("easting", end);
  if (places("tx") && places("rx")) return "transmissions";
  if (places("a") && places("b")) return "hops";
  if (
    has("hop") &&
    has("site") &&
    heads.some(({ field, end }) => end === undefined && END_ONLY.has(field.key))
  )
    return "ends";
  return has("hop") && !has("latitude") && !has("position") ? "hops" : "sites";
}

function assigned({ heads, texts, line, rows }: FoundHeads, mapping: Mapping): Columns {
  const kind = kindOf(
    heads.filter((head) => head !== undefined),
    mapping,
  );
  const uses: ColumnUse[] = [];
  const unused: string[] = [];
  const unclear: string[] = [];
  const order = texts
    .map((_, i) => i)
    .sort((a, b) => Number(isName(texts[a]!)) - Number(isName(texts[b]!)) || a - b);
  for (const index of order) {
    const head = texts[index]!;
    const found = byNeighbours(byContent(heads[index], rows, index), head, kind, heads);
    const use = found && useOf(kind, found, index, head, uses);
    if (!use) {
      if (head !== "") unused.push(head);
      continue;
    }
    const other = uses.find((one) => keyOf(one as never) === keyOf(use as never));
    if (other)
      unclear.push(`both "${other.head}" and "${head}" may hold the ${called(use, kind)}: say which`);
    else uses.push(use);
  }
  uses.sort((a, b) => a.index - b.index);
  unclear.push(...lacking(kind, uses));
  return { kind, uses, unused, line, rows, unclear };
}

/** `Mast` heads the kind of a structure as well as its height: what stands below it tells. */
function byContent(
  head: HeadOfColumn | undefined,
  rows: readonly SheetRow[],
  index: number,
): HeadOfColumn | undefined {
  if (head?.field.key !== "structureHeight" || head.unit !== undefined) return head;
  const texts = rows.slice(0, SAMPLED).flatMap(({ cells }) => textOf(cells[index]) || []);
  const words = texts.filter((text) => !/^[\d.,]/.test(text)).length;
  return words * 2 > texts.length ? { ...head, field: FIELD.get("structure")! } : head;
}

/** `Height` in a list of sites is that of the structure which another column tells the kind of. */
function byNeighbours(
  head: HeadOfColumn | undefined,
  text: string,
  kind: ListKind,
  heads: readonly (HeadOfColumn | undefined)[],
): HeadOfColumn | undefined {
  if (kind !== "sites" || head?.field.key !== "antennaHeight" || !isBareHeight(text)) return head;
  const has = (key: FieldKey) => heads.some((one) => one?.field.key === key);
  return has("structure") && !has("structureHeight")
    ? { ...head, field: FIELD.get("structureHeight")! }
    : head;
}

function isBareHeight(head: string): boolean {
  const text = head
    .normalize("NFKD")
    .replace(/\p{M}+|[[(].*?[\])]/gu, "")
    .replace(/_/g, " ");
  return /^\s*(?:height|hgt|ht|h|hoe?he|altura|hauteur)(?:[\s,]+(?:in )?(?:m|ft|feet|agl))*\s*$/i.test(text);
}

const SAMPLED = 500;

/** A column of names gives way to one of identifiers. */
function isName(head: string): boolean {
  return /name|bezeichnung|^nom$|nombre/i.test(head);
}

function useOf(
  kind: ListKind,
  head: HeadOfColumn,
  index: number,
  text: string,
  uses: readonly ColumnUse[],
): ColumnUse | undefined {
  const { field, end, part, unit, reference } = head;
  const base = { index, head: text, part, unit, reference };
  const taken = (key: FieldKey) => uses.some((use) => use.field.key === key && use.end === undefined);
  if (kind === "sites" || kind === "ends") {
    if (end !== undefined && end !== "tx") return undefined;
    if (kind === "sites" && !field.of.includes("site")) return undefined;
    if (kind === "sites" && field.key === "site" && taken("site"))
      return taken("title") ? undefined : { ...base, field: FIELD.get("title")! };
    return { ...base, field };
  }
  const side = end === undefined ? undefined : end === "a" || end === "tx" ? "a" : "b";
  if (field.key === "site" && side === undefined)
    return taken("hop") ? undefined : { ...base, field: FIELD.get("hop")! };
  if (kind === "transmissions" && field.key === "frequency") return { ...base, field };
  if (side !== undefined && !field.of.includes("end")) return undefined;
  // Of which end a single frequency is, nobody knows; where a site is, neither.
  const needsEnd = ["frequency", "latitude", "longitude", "position", "easting", "northing", "transmits"];
  if (side === undefined && needsEnd.includes(field.key)) return undefined;
  if (side === undefined && field.key === "azimuth") return { ...base, field, end: "a" };
  return { ...base, field, end: side };
}

export function called(
  { field, end, part }: Pick<ColumnUse, "field" | "end" | "part">,
  kind: ListKind,
): string {
  return `${field.called}${part === undefined ? "" : `, ${part}`}${end === undefined ? "" : ` ${endWords(end, kind)}`}`;
}

function endWords(end: "a" | "b", kind: ListKind): string {
  if (kind !== "transmissions") return `of end ${end}`;
  return `of the ${end === "a" ? "transmitter" : "receiver"}`;
}

function lacking(kind: ListKind, uses: readonly ColumnUse[]): string[] {
  const has = (key: FieldKey, end?: "a" | "b") =>
    uses.some((use) => use.field.key === key && use.end === end);
  const whole: string[] = [];
  const place = (end?: "a" | "b") => {
    const of = end === undefined ? "" : ` ${endWords(end, kind)}`;
    for (const [one, other] of [
      ["latitude", "longitude"],
      ["longitude", "latitude"],
      ["easting", "northing"],
      ["northing", "easting"],
    ] as const)
      if (has(one, end) && !has(other, end))
        whole.push(
          `there is a column for the ${FIELD.get(one)!.called}${of} and none for the ${FIELD.get(other)!.called}`,
        );
  };
  if (kind === "sites") {
    place();
    if (!["site", "latitude", "position", "easting"].some((key) => has(key as FieldKey)))
      whole.push("no column names the sites or says where they are");
    return whole;
  }
  if (kind === "ends") return whole;
  for (const end of ["a", "b"] as const) {
    place(end);
    if (!["site", "latitude", "position", "easting"].some((key) => has(key as FieldKey, end)) && !has("hop"))
      whole.push(
        `no column says where the ${kind === "transmissions" ? (end === "a" ? "transmitter" : "receiver") : `end ${end}`} is`,
      );
  }
  return whole;
}
