/** A list for line-up that was filled in: the levels that were read, as facts of the hops of the design. */
import type { Measurement } from "../design/as-built.js";
import { isDay } from "../design/day.js";
import type { Design } from "../design/design.js";
import { daysMeant } from "../design/written-day.js";
import type { ReadingRow, Told } from "./facts.js";
import { type DecimalMark, decimalMarkOf, plainText, readFigure, short } from "./figures.js";
import type { ListedChange, StatementArg } from "./state.js";
import { statement } from "./state.js";
import { type Cell, type Sheet, textOf } from "./table.js";

/** Heads by which the list is known, as `hopwright list line-up` writes them. */
const OWN_HEADS = ["hop", "measured_at", "promised_dBm", "measured_dBm", "measured_on"] as const;

export interface LineUpRows {
  readonly readings: readonly ReadingRow[];
  readonly told: readonly Told[];
  /** Rows without a level yet. */
  readonly empty: number;
}

/** @returns undefined where it is another list */
export function lineUpRows(sheet: Sheet): LineUpRows | undefined {
  const [head, ...rows] = sheet.rows;
  const heads = (head?.cells ?? []).map(textOf);
  if (!OWN_HEADS.every((own) => heads.includes(own))) return undefined;
  const cellOf = (cells: readonly Cell[], name: string) => {
    const at = heads.indexOf(name);
    return at < 0 ? undefined : cells[at];
  };
  const texts = rows.flatMap(({ cells }) =>
    ["measured_dBm", "promised_dBm"].flatMap((name) => {
      const cell = cellOf(cells, name);
      return typeof cell === "string" ? [textOf(cell)] : [];
    }),
  );
  const { mark } = decimalMarkOf(texts);
  const told: Told[] = [];
  const readings: ReadingRow[] = [];
  let empty = 0;
  for (const { cells, line } of rows) {
    if (cells.every((cell) => textOf(cell) === "")) continue;
    if (textOf(cellOf(cells, "measured_dBm")) === "") {
      empty++;
      continue;
    }
    const read = readRow((name) => cellOf(cells, name), mark);
    const from = { sheet: sheet.name, line };
    if ("reason" in read) told.push({ from, what: "row", reason: read.reason });
    else readings.push({ from, ...read });
  }
  return { readings, told, empty };
}

type ReadRow = Omit<ReadingRow, "from"> | { readonly reason: string };

const ROLES = ["main", "standby", "diversity"] as const;
const POLARIZATIONS = ["vertical", "horizontal", "slant"] as const;
/** As the property table has it. */
const LEVELS_DBM = [-130, 20] as const;

function readRow(cell: (name: string) => Cell, mark: DecimalMark): ReadRow {
  const hop = textOf(cell("hop"));
  const site = textOf(cell("measured_at"));
  if (hop === "" || site === "") return { reason: "names no hop and no site at which it was measured" };
  const level = readFigure(cell("measured_dBm"), "power level", "dBm", mark);
  if (!level.ok) return { reason: `measured_dBm ${level.reason}` };
  const levelDbm = level.figure.value;
  if (levelDbm < LEVELS_DBM[0] || levelDbm > LEVELS_DBM[1])
    return { reason: `${plainText(levelDbm)} dBm is no received level` };
  const days = daysOf(cell("measured_on"));
  const [on] = days;
  if (on === undefined) {
    const text = textOf(cell("measured_on"));
    return { reason: text === "" ? "has a level and no day in measured_on" : `"${short(text)}" is no day` };
  }
  if (days.length > 1)
    return { reason: `"${short(textOf(cell("measured_on")))}" may be ${days.join(" or ")}` };
  const branch = wordOf(cell("branch"), ROLES);
  const sender = wordOf(cell("sender"), ["main", "standby"] as const);
  const polarization = wordOf(cell("polarization"), POLARIZATIONS);
  const powerControl = wordOf(cell("power_control"), ["active", "off"] as const);
  for (const [head, word] of Object.entries({ branch, sender, polarization, power_control: powerControl }))
    if (word === "unknown") return { reason: `${head} "${short(textOf(cell(head)))}" is none of its words` };
  const carrierText = textOf(cell("carrier"));
  const carrier = Number(carrierText);
  if (carrierText !== "" && !(Number.isInteger(carrier) && carrier >= 1 && carrier <= 8))
    return { reason: `carrier "${short(carrierText)}" is no number of a carrier` };
  const promised = readFigure(cell("promised_dBm"), "power level", "dBm", mark);
  const mode = textOf(cell("mode"));
  if (mode !== "" && !/^[\p{L}\p{N}][\p{L}\p{N}+._-]*$/u.test(mode))
    return { reason: `mode "${short(mode)}" is no mode of a radio` };
  const text = (name: string) => textOf(cell(name)) || undefined;
  return {
    hop,
    measured: {
      levelDbm,
      site,
      on,
      ...(branch !== "main" && { branch: branch as Measurement["branch"] }),
      ...(sender !== "main" && { sender: sender as Measurement["sender"] }),
      ...(carrierText !== "" && { carrier }),
      polarization: polarization as Measurement["polarization"],
      ...(mode !== "" && { mode }),
      powerControl: powerControl as Measurement["powerControl"],
      ...(promised.ok && { promisedDbm: promised.figure.value }),
      by: text("measured_by"),
      remark: text("remark"),
    },
  };
}

function wordOf<Word extends string>(cell: Cell, words: readonly Word[]): Word | "unknown" | undefined {
  const text = textOf(cell).toLowerCase();
  if (text === "") return undefined;
  return words.find((word) => word === text) ?? "unknown";
}

function daysOf(cell: Cell): readonly string[] {
  if (typeof cell === "object") return [cell.date.slice(0, 10)].filter(isDay);
  const text = textOf(cell);
  return isDay(text) ? [text] : daysMeant(text);
}

/** Readings that the design does not have yet, as lines of its hops. */
export function readingChanges(
  rows: readonly ReadingRow[],
  hops: Design["hops"],
  told: Told[],
): readonly ListedChange[] {
  const byName = new Map([...hops.values()].map((hop) => [hop.name.toLowerCase(), hop]));
  const seen = new Set<string>();
  return rows.flatMap(({ from, hop: name, measured }): ListedChange[] => {
    const hop = byName.get(name.toLowerCase());
    const tell = (what: Told["what"], reason: string) => void told.push({ from, what, reason });
    if (hop === undefined) {
      tell("row", `there is no hop ${name} in the design`);
      return [];
    }
    const end = hop.ends.find(({ site }) => site.name.toLowerCase() === measured.site.toLowerCase());
    if (end === undefined) {
      const ends = hop.ends.map(({ site }) => site.name).join(" and ");
      tell("row", `${measured.site} is no end of ${hop.name}; its ends are ${ends}`);
      return [];
    }
    const here = { ...measured, site: end.site.name, mode: ownMode(hop.modes, measured.mode) };
    if ((hop.measured ?? []).some((one) => one !== undefined && isSame(one, here, hop.modes))) return [];
    const change = { at: `hop ${hop.name}`, statement: statement("measured", ...argsOf(here)) };
    const key = JSON.stringify(change);
    if (seen.has(key)) {
      tell("remark", "another row says the same");
      return [];
    }
    seen.add(key);
    return [change];
  });
}

/** The highest mode is the one that is meant where none is said. */
function ownMode(
  modes: readonly { readonly modulation: string }[],
  mode: string | undefined,
): string | undefined {
  return mode === modes.at(-1)?.modulation ? undefined : mode;
}

/** The promised level may have moved since: it is the same reading. */
function isSame(
  known: Measurement,
  read: Measurement,
  modes: readonly { readonly modulation: string }[],
): boolean {
  return (
    known.site === read.site &&
    known.on === read.on &&
    Math.abs(known.levelDbm - read.levelDbm) < 1e-6 &&
    (known.branch ?? "main") === (read.branch ?? "main") &&
    (known.sender ?? "main") === (read.sender ?? "main") &&
    (known.carrier === undefined || read.carrier === undefined || known.carrier === read.carrier) &&
    ownMode(modes, known.mode) === read.mode &&
    (known.powerControl ?? "") === (read.powerControl ?? "") &&
    (known.by ?? "") === (read.by ?? "") &&
    (known.remark ?? "") === (read.remark ?? "")
  );
}

function argsOf(one: Measurement): readonly (StatementArg | undefined)[] {
  const word = (name: string, text: string | undefined): StatementArg | undefined =>
    text === undefined ? undefined : { name, label: name, text, changed: true };
  return [
    { name: "level", text: levelText(one.levelDbm), changed: true },
    word("at", one.site),
    word("branch", one.branch),
    word("carrier", one.carrier === undefined ? undefined : String(one.carrier)),
    word("polarization", one.polarization),
    word("mode", one.mode),
    word("sender", one.sender),
    word("power-control", one.powerControl),
    word("promised", one.promisedDbm === undefined ? undefined : levelText(one.promisedDbm)),
    word("on", one.on),
    word("by", one.by === undefined ? undefined : quoted(one.by)),
    one.remark === undefined ? undefined : { name: "remark", text: quoted(one.remark), changed: true },
  ];
}

function levelText(levelDbm: number): string {
  return `${plainText(Number(levelDbm.toFixed(4)))} dBm`;
}

/** As the language has texts; cells have no line ends any more. */
function quoted(text: string): string {
  return `"${text.replace(/[\\"]/g, "\\$&")}"`;
}
