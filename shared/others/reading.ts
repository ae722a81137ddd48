/** Rows of a list of others' transmissions, read into the table; what cannot be read is counted and told. */
import type { Polarization } from "../design/design.js";
import type { OthersKey, OthersList } from "../design/interference.js";
import { daysMeant } from "../design/written-day.js";
import type { LatLon } from "../geodesy/coordinates.js";
import { type DecimalMark, decimalMarkOf, readFigure } from "../lists/figures.js";
import { wordFor } from "../lists/values.js";
import { ESTIMATE_EFFICIENCY, parabolicGainDbi } from "../radio/antenna-gain.js";
import { readEmission } from "../spectrum/emission-designator.js";
import { plainDecimal } from "../units/decimal.js";
import { findUnit } from "../units/units.js";
import { OTHERS_FIELDS } from "./columns.js";
import { type ColumnFault, type MappedColumn, mappedColumns } from "./mapped.js";
import { type PlaceFault, PlacesOfRows } from "./places.js";
import { dayNumber, type FigureName, type OthersTable, OthersTableBuilder } from "./table.js";

/** Why rows are left out; `swallowed`: they stand in a cell of the row before; `cell`: the cell alone is, and the row counts. */
export type FaultCode = PlaceFault | "swallowed" | "frequency" | "bandwidth" | "eirp" | "cell" | "repeated";

export interface RowsFault {
  readonly code: FaultCode;
  /** Of a cell, what its column is. */
  readonly key?: OthersKey;
  readonly rows: number;
  /** The first of them. */
  readonly lines: readonly number[];
  /** What stands in the first of them; of a file of which no row counts, which may be any file, only what may be a figure. */
  readonly sample: string;
}

export interface OthersRead {
  readonly table: OthersTable;
  readonly columnFaults: readonly ColumnFault[];
  readonly faults: readonly RowsFault[];
  /** Rows that were read, those left out included. */
  readonly rows: number;
  /** Rows whose state says that they do not count. */
  readonly notStanding: number;
  /** Further rows that the file has, and that are beyond what is read. */
  readonly beyond?: true;
}

/** So many rows tell which mark parts the decimals. */
const SAMPLED = 500;
const LINES_TOLD = 5;
/** Longer than any cell that is a figure, a name or a position. */
const LONGEST_SAMPLE = 40;
const MOST_REMEMBERED = 200_000;

interface Row {
  readonly line: number;
  readonly cells: readonly string[];
}

export class OthersReading {
  private readonly by: ReadonlyMap<OthersKey, MappedColumn>;
  private readonly columnFaults: readonly ColumnFault[];
  private readonly table = new OthersTableBuilder();
  private readonly faults = new Map<string, RowsFault & { rows: number; lines: number[] }>();
  private waiting: Row[] | undefined = [];
  private mark: DecimalMark = ".";
  private readonly places: PlacesOfRows;
  private readonly bandwidths = new Map<string, readonly number[]>();
  private readonly units = new Map<OthersKey, (value: number) => number>();
  private readonly stands: string | undefined;
  private taken = 0;
  private notStanding = 0;

  /** @param heads cells of the first line */
  constructor(list: OthersList, heads: readonly string[]) {
    const { columns, faults } = mappedColumns(list, heads);
    // Of two statements of one key the first counts.
    this.by = new Map(columns.toReversed().map((column) => [column.key, column]));
    this.columnFaults = faults;
    this.places = new PlacesOfRows(this.by, list.epsg);
    this.stands = list.stands?.trim().toLowerCase();
    for (const { key, unit } of columns) {
      const { figure } = OTHERS_FIELDS[key];
      const found = figure && findUnit(unit!, figure.dimension);
      if (found) this.units.set(key, found.unit.toBase);
    }
  }

  /** Taken so far. */
  get rows(): number {
    return this.taken;
  }

  /** @param cells not all of them blank */
  take(line: number, cells: readonly string[]): void {
    this.taken++;
    if (this.waiting === undefined) this.read({ line, cells });
    else if (this.waiting.push({ line, cells }) === SAMPLED) this.begin();
  }

  /** A quotation mark in a line goes on over the ends of so many lines, which look like rows. */
  swallowed(line: number, lines: number): void {
    for (let lost = 0; lost < lines; lost++) this.tell("swallowed", line, "");
  }

  finish(beyond?: true): OthersRead {
    this.begin();
    const { table, repeated } = this.table.finish();
    for (const line of repeated) this.tell("repeated", line, "");
    return {
      table,
      columnFaults: this.columnFaults,
      faults: [...this.faults.values()].map((fault) => ({
        ...fault,
        lines: [...fault.lines],
        sample: table.count > 0 || isFigure(fault.sample) ? fault.sample : "",
      })),
      rows: this.rows,
      notStanding: this.notStanding,
      beyond,
    };
  }

  /** The first rows tell the decimal mark of all. */
  private begin(): void {
    const rows = this.waiting;
    if (rows === undefined) return;
    this.waiting = undefined;
    const figures = [...this.by.values()].filter(
      ({ key }) => OTHERS_FIELDS[key].figure !== undefined || /latitude|longitude|easting|northing/.test(key),
    );
    this.mark = decimalMarkOf(
      rows.flatMap(({ cells }) => figures.map(({ index }) => cells[index] ?? "")),
    ).mark;
    this.places.mark = this.mark;
    for (const row of rows) this.read(row);
  }

  private read(row: Row): void {
    const fault = this.added(row);
    if (fault) this.tell(fault.code, row.line, fault.sample);
  }

  /** Puts a row into the table. @returns why it cannot be; undefined where it is in there, or its state says that it does not count */
  private added(row: Row): { readonly code: FaultCode; readonly sample: string } | undefined {
    const text = (key: OthersKey) => this.text(row, key);
    if (this.stands !== undefined && text("status").toLowerCase() !== this.stands) {
      this.notStanding++;
      return undefined;
    }
    const position = this.places.of(row.cells, "");
    if (position === undefined) return this.places.faultOf(row.cells);
    const frequencyHz = this.figure(row, "frequency", true);
    if (frequencyHz === undefined) return { code: "frequency", sample: text("frequency") };
    const bandwidths = this.bandwidthsOf(row);
    if (bandwidths.length === 0) return { code: "bandwidth", sample: text("emission") || text("bandwidth") };
    const gainDbi = this.figure(row, "antenna-gain");
    const diameterM = this.figure(row, "antenna-diameter");
    const eirpDbm = this.eirp(row, gainDbi, diameterM, frequencyHz);
    if (eirpDbm === undefined) return { code: "eirp", sample: text("eirp") || text("power") };
    const receiver = this.receiver(row, position);
    const figures: { readonly [Name in FigureName]?: number } = {
      ...position,
      frequencyHz,
      bandwidthHz: Math.max(...bandwidths),
      leastBandwidthHz: Math.min(...bandwidths),
      eirpDbm,
      gainDbi,
      diameterM,
      groundM: this.figure(row, "ground"),
      antennaHeightM: this.figure(row, "antenna-height"),
      azimuthDeg: this.figure(row, "azimuth"),
      elevationDeg: this.figure(row, "elevation"),
      receiverLatitudeDeg: receiver?.latitudeDeg,
      receiverLongitudeDeg: receiver?.longitudeDeg,
      receiverGroundM: this.figure(row, "receiver-ground"),
      receiverAntennaHeightM: this.figure(row, "receiver-antenna-height"),
      receiverGainDbi: this.figure(row, "receiver-antenna-gain"),
      receiverDiameterM: this.figure(row, "receiver-antenna-diameter"),
      receiverFeederLossDb: this.figure(row, "receiver-feeder-loss"),
      receiverNoiseFigureDb: this.figure(row, "receiver-noise-figure"),
      firstDay: this.day(row, "valid-from"),
      lastDay: this.day(row, "valid-until"),
    };
    const polarization = wordFor("polarization", text("polarization")) as Polarization | undefined;
    this.table.add(row.line, contentOf(row.cells), figures, polarization, text("name") || undefined);
    return undefined;
  }

  private text({ cells }: Row, key: OthersKey): string {
    const column = this.by.get(key);
    return column === undefined ? "" : (cells[column.index] ?? "").trim();
  }

  /** @param quiet its fault is the row's */
  private figure(row: Row, key: OthersKey, quiet = false): number | undefined {
    const column = this.by.get(key);
    const text = column === undefined ? "" : (row.cells[column.index] ?? "").trim();
    if (text === "") return undefined;
    const figure = OTHERS_FIELDS[key].figure!;
    const plain = plainDecimal(this.mark === "," ? text.replace(",", ".") : text);
    let value: number | undefined;
    if (plain !== undefined) value = this.units.get(key)!(plain);
    else {
      const read = readFigure(text, figure.dimension, column!.unit!, this.mark);
      value = read.ok ? read.figure.value : undefined;
    }
    if (value !== undefined && value >= figure.least && value <= figure.most) return value;
    if (!quiet) this.tell("cell", row.line, text, key);
    return undefined;
  }

  private eirp(
    row: Row,
    gainDbi: number | undefined,
    diameterM: number | undefined,
    frequencyHz: number,
  ): number | undefined {
    const stated = this.figure(row, "eirp", true);
    if (stated !== undefined) return stated;
    const powerDbm = this.figure(row, "power", true);
    if (powerDbm === undefined) return undefined;
    const gain =
      gainDbi ??
      (diameterM === undefined ? undefined : parabolicGainDbi(diameterM, frequencyHz, ESTIMATE_EFFICIENCY));
    if (gain === undefined) return undefined;
    const unread = this.text(row, "eirp");
    if (unread !== "") this.tell("cell", row.line, unread, "eirp");
    return powerDbm + gain - (this.figure(row, "feeder-loss") ?? 0);
  }

  private bandwidthsOf(row: Row): readonly number[] {
    const text = this.text(row, "emission");
    if (text !== "") {
      let known = this.bandwidths.get(text);
      if (known === undefined) {
        known = text.split(/[|,;/\s]+/).flatMap(necessaryBandwidthHz);
        // A slip of the unit is no emission: it would reach everywhere, spread so thin that it harms nobody.
        const { least, most } = OTHERS_FIELDS.bandwidth.figure!;
        if (known.some((hz) => hz < least || hz > most)) known = [];
        if (this.bandwidths.size < MOST_REMEMBERED) this.bandwidths.set(text, known);
      }
      if (known.length > 0) return known;
    }
    const bandwidthHz = this.figure(row, "bandwidth", true);
    return bandwidthHz === undefined ? [] : [bandwidthHz];
  }

  private day(row: Row, key: OthersKey): number | undefined {
    const text = this.text(row, key);
    if (text === "") return undefined;
    const days = daysMeant(text.split(/[T ]/, 1)[0]!);
    if (days.length === 1) return dayNumber(days[0]!);
    this.tell("cell", row.line, text, key);
    return undefined;
  }

  /** A receiver in the place of its transmitter is none that anybody stands at. */
  private receiver(row: Row, transmitter: LatLon): LatLon | undefined {
    const place = this.places.of(row.cells, "receiver-");
    if (place === undefined) {
      // Half a place is told as well as one that cannot be read.
      const key = RECEIVER_PLACE.find((one) => this.text(row, one) !== "");
      if (key !== undefined) this.tell("cell", row.line, this.text(row, key), key);
      return undefined;
    }
    const isSame =
      place.latitudeDeg === transmitter.latitudeDeg && place.longitudeDeg === transmitter.longitudeDeg;
    return isSame ? undefined : place;
  }

  private tell(code: FaultCode, line: number, sample: string, key?: OthersKey): void {
    const id = `${code} ${key ?? ""}`;
    let fault = this.faults.get(id);
    if (fault === undefined) {
      const short = sample.length > LONGEST_SAMPLE ? `${sample.slice(0, LONGEST_SAMPLE)}…` : sample;
      this.faults.set(id, (fault = { code, ...(key && { key }), rows: 0, lines: [], sample: short }));
    }
    fault.rows++;
    if (fault.lines.length < LINES_TOLD && fault.lines.at(-1) !== line) fault.lines.push(line);
  }
}

/** A figure, an angle, or two of them. */
function isFigure(sample: string): boolean {
  return /\d/.test(sample) && /^[\d\s.,+\-°'"′″NSEW…]*$/i.test(sample);
}

const RECEIVER_PLACE = [
  "receiver-latitude",
  "receiver-longitude",
  "receiver-position",
  "receiver-easting",
  "receiver-northing",
] as const;

/** What stands behind the bandwidth is not looked at: registers know symbols of their own. */
function necessaryBandwidthHz(designator: string): readonly number[] {
  const emission = readEmission(designator) ?? readEmission(designator.slice(0, 4));
  return emission === undefined ? [] : [emission.necessaryBandwidthHz];
}

/** 52 bits of two 32-bit hashes (FNV-1a) over all cells. */
function contentOf(cells: readonly string[]): number {
  let [one, other] = [0x811c9dc5, 0x01000193];
  for (const cell of cells) {
    for (let i = 0; i < cell.length; i++) {
      const code = cell.charCodeAt(i);
      one = Math.imul(one ^ code, 0x01000193);
      other = Math.imul(other ^ code, 0x85ebca6b);
    }
    one = Math.imul(one ^ PART, 0x01000193);
    other = Math.imul(other ^ PART, 0x85ebca6b);
  }
  return (one >>> 0) * 2 ** 20 + (other >>> 12);
}

/** Between two cells. */
const PART = 0x1f;
