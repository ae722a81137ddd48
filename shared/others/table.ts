/**
 * Others' transmissions as a table: a column a figure, so that a hundred thousand of them take some tens of megabytes
 * and an index runs over them without making an object of each. Rows stand in an order of their own (frequency, place,
 * and on through all figures), whatever order the list had; a row that repeats another in all its
 * cells is in it once.
 */
import type { Polarization } from "../design/design.js";
import type { LatLon } from "../geodesy/coordinates.js";

/** Figures of a transmission, each in the unit of its name; days as the number 20270301. */
export const FIGURES = [
  "frequencyHz",
  "latitudeDeg",
  "longitudeDeg",
  "receiverLatitudeDeg",
  "receiverLongitudeDeg",
  "eirpDbm",
  "bandwidthHz",
  "leastBandwidthHz",
  "groundM",
  "antennaHeightM",
  "gainDbi",
  "diameterM",
  "azimuthDeg",
  "elevationDeg",
  "receiverGroundM",
  "receiverAntennaHeightM",
  "receiverGainDbi",
  "receiverDiameterM",
  "receiverFeederLossDb",
  "receiverNoiseFigureDb",
  "firstDay",
  "lastDay",
] as const;
export type FigureName = (typeof FIGURES)[number];

/** What is not stated is NaN here, and undefined in `at`. */
export type Figures = { readonly [Name in FigureName]: Float64Array };

export interface OtherTransmission {
  /** Line of the file. */
  readonly line: number;
  readonly name?: string;
  readonly position: LatLon;
  readonly groundM?: number;
  /** Centre above ground. */
  readonly antennaHeightM?: number;
  readonly frequencyHz: number;
  /** Widest of its emissions, and narrowest. */
  readonly bandwidthHz: number;
  readonly leastBandwidthHz: number;
  /** Undefined: not known, or both. */
  readonly polarization?: Polarization;
  readonly eirpDbm: number;
  readonly gainDbi?: number;
  readonly diameterM?: number;
  /** Of the antenna, from true north; where the receiver is known it is the receiver that it looks at. */
  readonly azimuthDeg?: number;
  readonly elevationDeg?: number;
  /** Undefined: it cannot be judged as one that is interfered with. */
  readonly receiver?: OtherReceiver;
  /** ISO dates, both days included. */
  readonly firstDay?: string;
  readonly lastDay?: string;
}

interface OtherReceiver {
  readonly position: LatLon;
  readonly groundM?: number;
  readonly antennaHeightM?: number;
  readonly gainDbi?: number;
  readonly diameterM?: number;
  readonly feederLossDb?: number;
  readonly noiseFigureDb?: number;
}

const POLARIZATIONS: readonly (Polarization | undefined)[] = [undefined, "vertical", "horizontal", "slant"];

export class OthersTable {
  constructor(
    readonly count: number,
    /** All of the length `count`. */
    readonly figures: Figures,
    /** Lines of the file. */
    readonly lines: Uint32Array,
    private readonly polarizations: Uint8Array,
    /** Undefined: the list has none. */
    private readonly names: readonly (string | undefined)[] | undefined,
  ) {}

  /** @param index 0 to `count` - 1 */
  at(index: number): OtherTransmission {
    const { figures } = this;
    const stated = (name: FigureName): number | undefined => {
      const value = figures[name][index]!;
      return Number.isNaN(value) ? undefined : value;
    };
    const figure = (name: FigureName): number => figures[name][index]!;
    const receiverLatitudeDeg = stated("receiverLatitudeDeg");
    return {
      line: this.lines[index]!,
      name: this.names?.[index],
      position: { latitudeDeg: figure("latitudeDeg"), longitudeDeg: figure("longitudeDeg") },
      groundM: stated("groundM"),
      antennaHeightM: stated("antennaHeightM"),
      frequencyHz: figure("frequencyHz"),
      bandwidthHz: figure("bandwidthHz"),
      leastBandwidthHz: figure("leastBandwidthHz"),
      polarization: this.polarization(index),
      eirpDbm: figure("eirpDbm"),
      gainDbi: stated("gainDbi"),
      diameterM: stated("diameterM"),
      azimuthDeg: stated("azimuthDeg"),
      elevationDeg: stated("elevationDeg"),
      receiver:
        receiverLatitudeDeg === undefined
          ? undefined
          : {
              position: { latitudeDeg: receiverLatitudeDeg, longitudeDeg: figure("receiverLongitudeDeg") },
              groundM: stated("receiverGroundM"),
              antennaHeightM: stated("receiverAntennaHeightM"),
              gainDbi: stated("receiverGainDbi"),
              diameterM: stated("receiverDiameterM"),
              feederLossDb: stated("receiverFeederLossDb"),
              noiseFigureDb: stated("receiverNoiseFigureDb"),
            },
      firstDay: isoOf(stated("firstDay")),
      lastDay: isoOf(stated("lastDay")),
    };
  }

  polarization(index: number): Polarization | undefined {
    return POLARIZATIONS[this.polarizations[index]!];
  }

  /** Whether a row counts on a day, ISO. */
  stands(index: number, day: string): boolean {
    const number = dayNumber(day);
    const { firstDay, lastDay } = this.figures;
    // Of what is not stated neither comparison holds.
    return !(firstDay[index]! > number) && !(lastDay[index]! < number);
  }
}

export function dayNumber(iso: string): number {
  return Number(iso.replaceAll("-", ""));
}

function isoOf(day: number | undefined): string | undefined {
  if (day === undefined) return undefined;
  const digits = String(day).padStart(8, "0");
  return `${digits.slice(0, 4)}-${digits.slice(4, 6)}-${digits.slice(6)}`;
}

/** Takes rows in any order, and puts them into that of the table. */
export class OthersTableBuilder {
  private columns = columnsOf(1024);
  private lines = new Uint32Array(1024);
  private polarizations = new Uint8Array(1024);
  private contents = new Float64Array(1024);
  /** Columns in the order of `FIGURES`. */
  private inOrder: readonly Float64Array[] = [];
  private readonly names: (string | undefined)[] = [];
  private hasNames = false;
  private filled = 0;

  get count(): number {
    return this.filled;
  }

  /** @param content a number of all that stands in the row: equal for equal rows, and hardly for others */
  add(
    line: number,
    content: number,
    figures: { readonly [Name in FigureName]?: number },
    polarization: Polarization | undefined,
    name: string | undefined,
  ): void {
    if (this.filled === this.lines.length) this.grow();
    const at = this.filled++;
    for (const column of FIGURES) this.columns[column][at] = figures[column] ?? Number.NaN;
    this.lines[at] = line;
    this.contents[at] = content;
    this.polarizations[at] = POLARIZATIONS.indexOf(polarization);
    this.names.push(name);
    this.hasNames ||= name !== undefined;
  }

  /** @returns the table, and the lines of rows that repeat another */
  finish(): { readonly table: OthersTable; readonly repeated: readonly number[] } {
    this.inOrder = FIGURES.map((name) => this.columns[name]);
    const order = Uint32Array.from({ length: this.filled }, (_, index) => index);
    order.sort((a, b) => this.compare(a, b) || this.lines[a]! - this.lines[b]!);
    const repeated: number[] = [];
    const kept = order.filter((row, i) => {
      const isRepeat = i > 0 && this.compare(order[i - 1]!, row) === 0;
      if (isRepeat) repeated.push(this.lines[row]!);
      return !isRepeat;
    });
    const figures = Object.fromEntries(
      FIGURES.map((name) => [name, picked(this.columns[name], kept)]),
    ) as unknown as Figures;
    return {
      table: new OthersTable(
        kept.length,
        figures,
        Uint32Array.from(kept, (row) => this.lines[row]!),
        Uint8Array.from(kept, (row) => this.polarizations[row]!),
        this.hasNames ? Array.from(kept, (row) => this.names[row]) : undefined,
      ),
      repeated: repeated.sort((a, b) => a - b),
    };
  }

  /** Zero where two rows are the same. What is not stated comes first. */
  private compare(a: number, b: number): number {
    for (const column of this.inOrder) {
      const one = column[a]!;
      const other = column[b]!;
      if (one === other || (Number.isNaN(one) && Number.isNaN(other))) continue;
      if (Number.isNaN(one)) return -1;
      if (Number.isNaN(other)) return 1;
      return one - other;
    }
    const polarizations = this.polarizations[a]! - this.polarizations[b]!;
    if (polarizations !== 0) return polarizations;
    const [one = "", other = ""] = [this.names[a], this.names[b]];
    return one < other ? -1 : one > other ? 1 : this.contents[a]! - this.contents[b]!;
  }

  private grow(): void {
    const size = this.lines.length * 2;
    const columns = columnsOf(size);
    for (const name of FIGURES) columns[name].set(this.columns[name]);
    this.columns = columns;
    this.lines = grown(new Uint32Array(size), this.lines);
    this.polarizations = grown(new Uint8Array(size), this.polarizations);
    this.contents = grown(new Float64Array(size), this.contents);
  }
}

function picked(column: Float64Array, rows: Uint32Array): Float64Array {
  const values = new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i++) values[i] = column[rows[i]!]!;
  return values;
}

function columnsOf(size: number): Figures {
  return Object.fromEntries(FIGURES.map((name) => [name, new Float64Array(size)])) as unknown as Figures;
}

function grown<T extends Uint32Array | Uint8Array | Float64Array>(larger: T, from: T): T {
  larger.set(from);
  return larger;
}
