/** Rows of a sheet whose columns are known, as facts. A cell that cannot be read costs itself, a place the row. */

import type { HalfOfBand, Polarization } from "../design/design.js";
import type { State } from "../design/state.js";
import type { Dimension } from "../units/units.js";
import { type Columns, type ColumnUse, called } from "./columns.js";
import type {
  EndRow,
  HopEndRow,
  HopRow,
  ListedRows,
  SiteRow,
  Source,
  StatedPosition,
  Told,
} from "./facts.js";
import type { FieldKey } from "./fields.js";
import {
  type DecimalMark,
  decimalMarkOf,
  type Figure,
  numberOf,
  type ReadFigure,
  readFigure,
  short,
} from "./figures.js";
import {
  angleOfParts,
  epsgIn,
  epsgOfZone,
  isBeyond,
  metresFromWgs84,
  positionOfAngles,
  positionOfPair,
  positionOfProjected,
  type ReadPosition,
} from "./positions.js";
import { stateIn } from "./stated-state.js";
import { type Cell, type Sheet, type SheetRow, textOf } from "./table.js";
import { wordFor } from "./values.js";

export interface ReadOptions {
  /** System of eastings and northings where no column and no head names it. */
  readonly epsg?: number;
  /** Coordinates are to be taken for WGS 84 whatever datum the list names. */
  readonly takeDatum?: boolean;
}

export interface ReadList extends ListedRows {
  /** How each column was read, for people. */
  readonly read: readonly { readonly head: string; readonly as: string }[];
  readonly remarks: readonly string[];
  readonly unclear: readonly string[];
}

type Side = "a" | "b" | undefined;

export function readRows(sheet: Sheet, columns: Columns, options: ReadOptions = {}): ReadList {
  return new Reader(sheet, columns, options).all();
}

const MOST_SAMPLED = 2_000;
const MOST_KEPT = 20_000;
/** Below this a frequency without a unit is one in GHz, above the other in Hz or kHz. */
const MOST_GHZ = 150;
const MOST_MHZ = 150_000;

class Reader {
  private readonly told: Told[] = [];
  private readonly remarks: string[] = [];
  private readonly unclear: string[];
  private readonly notations = new Map<string, number>();
  private readonly mark: DecimalMark;
  private readonly units = new Map<ColumnUse, string>();
  private readonly by = new Map<string, ColumnUse>();
  private readonly figures = new Map<ColumnUse, Map<string, ReadFigure>>();
  private asText = 0;

  constructor(
    private readonly sheet: Sheet,
    private readonly columns: Columns,
    private readonly options: ReadOptions,
  ) {
    this.unclear = [...columns.unclear];
    for (const use of columns.uses) this.by.set(`${use.field.key} ${use.end ?? ""} ${use.part ?? ""}`, use);
    this.mark = this.decimalMark();
    for (const use of columns.uses) if (use.field.figure) this.units.set(use, this.unitFor(use));
    this.suspectAxes();
    this.needSystem();
  }

  all(): ReadList {
    const lists = {
      sites: [] as SiteRow[],
      hops: [] as HopRow[],
      transmissions: [] as HopRow[],
      ends: [] as HopEndRow[],
    };
    if (this.unclear.length === 0)
      for (const row of this.columns.rows) {
        if (row.cells.every((cell) => textOf(cell) === "")) continue;
        this.row(row, lists);
      }
    if (this.asText > 0)
      this.remarks.push(
        `${this.asText} ${this.asText === 1 ? "figure stands" : "figures stand"} there as text, read all the same`,
      );
    return {
      ...lists,
      told: this.told,
      read: this.columns.uses.map((use) => ({ head: use.head, as: this.readAs(use) })),
      remarks: this.remarks,
      unclear: this.unclear,
    };
  }

  private row(
    row: SheetRow,
    lists: { sites: SiteRow[]; hops: HopRow[]; transmissions: HopRow[]; ends: HopEndRow[] },
  ): void {
    const from = { sheet: this.sheet.name, line: row.line };
    if (this.isHeadAgain(row)) return;
    switch (this.columns.kind) {
      case "sites": {
        const site = this.site(row, undefined, from);
        if (site) lists.sites.push(site);
        return;
      }
      case "ends": {
        const hop = this.text(row, "hop", undefined);
        const end = this.end(row, undefined, from);
        if (!end) return;
        if (hop === undefined || end.site.name === undefined)
          this.tell(from, "row", "names no hop and site, whose end it could be");
        else lists.ends.push({ from, hop, end });
        return;
      }
      default: {
        const hop = this.hop(row, from);
        if (hop) (this.columns.kind === "hops" ? lists.hops : lists.transmissions).push(hop);
      }
    }
  }

  /** Long lists repeat their heads for print. */
  private isHeadAgain({ cells }: SheetRow): boolean {
    return (
      this.columns.uses.length > 1 &&
      this.columns.uses.every(
        ({ index, head }) => head.endsWith(textOf(cells[index])) && textOf(cells[index]) !== "",
      )
    );
  }

  private hop(row: SheetRow, from: Source): HopRow | undefined {
    const has = (side: Side) => this.columns.uses.some(({ end }) => end === side);
    const a = has("a") ? this.end(row, "a", from) : undefined;
    const b = has("b") ? this.end(row, "b", from) : undefined;
    const name = this.text(row, "hop", undefined);
    const stands = this.columns.uses.some(({ end, field }) => end !== undefined && PLACE.has(field.key));
    if (stands && (!a || !b)) return undefined;
    if (stands && isNowhere(a!.site) && isNowhere(b!.site) && name === undefined) {
      this.tell(from, "row", "names no site and no place");
      return undefined;
    }
    if (stands && (isNowhere(a!.site) || isNowhere(b!.site))) {
      this.tell(from, "row", "names the site of one end alone");
      return undefined;
    }
    const frequency =
      this.columns.kind === "transmissions" ? this.figure(row, "frequency", undefined, from) : undefined;
    const first = a && frequency ? { ...a, frequency } : a;
    const width =
      this.figure(row, "channelWidth", undefined, from) ?? this.figure(row, "modeWidth", undefined, from);
    return {
      from,
      name,
      title: this.text(row, "title", undefined),
      state: this.state(row),
      objective: this.text(row, "objective", undefined),
      channel: this.channel(row, from, width),
      polarization: this.word(row, "polarization", undefined, from) as Polarization | undefined,
      arrangement: this.word(row, "arrangement", undefined, from),
      radio: this.text(row, "radio", undefined) ?? first?.radio,
      width: this.figure(row, "modeWidth", undefined, from) ?? width,
      lowestMode: this.word(row, "lowestMode", undefined, from),
      highestMode: this.word(row, "highestMode", undefined, from),
      bitRate: this.figure(row, "bitRate", undefined, from),
      length: this.figure(row, "length", undefined, from),
      ends: stands && first && b ? [first, b] : undefined,
    };
  }

  private channel(row: SheetRow, from: Source, width: Figure | undefined): HopRow["channel"] {
    const text = this.text(row, "channel", undefined);
    if (text === undefined) return undefined;
    const whole = /^(\S+)\s*\/\s*([\d.,]+)\s*(MHz)?\s*\/\s*(\d+)$/i.exec(text);
    if (whole) {
      const read = readFigure(whole[2], "frequency", "MHz", this.mark);
      return read.ok ? { plan: whole[1]!, width: read.figure, number: Number(whole[4]) } : undefined;
    }
    const number = numberOf(text.replace(/^ch(annel)?\.?\s*/i, ""), this.mark);
    const plan = this.text(row, "plan", undefined);
    if (number === undefined || !Number.isInteger(number)) {
      this.tell(from, "cell", `channel "${short(text)}" is no number`);
      return undefined;
    }
    if (plan !== undefined && width !== undefined) return { plan, width, number };
    this.once(
      `a channel number is stated only with its plan${plan === undefined ? "" : " and width"}, for which there is no column: left out`,
    );
    return undefined;
  }

  private end(row: SheetRow, side: Side, from: Source): EndRow | undefined {
    const site = this.site(row, side, from, true);
    if (!site) return undefined;
    const figure = (key: FieldKey) => this.figure(row, key, side, from);
    const text = (key: FieldKey) => this.text(row, key, side);
    return {
      site,
      antenna: text("antenna"),
      antennaHeight: figure("antennaHeight"),
      antennaDiameter: figure("antennaDiameter"),
      antennaGain: figure("antennaGain"),
      antennaBeamwidth: figure("antennaBeamwidth"),
      radio: text("radio"),
      coupler: text("coupler"),
      mounting: this.word(row, "mounting", side, from),
      feeder: text("feeder"),
      feederLength: figure("feederLength"),
      transmits: this.word(row, "transmits", side, from) as HalfOfBand | undefined,
      frequency: this.columns.kind === "transmissions" ? undefined : figure("frequency"),
      power: figure("power"),
      extraLoss: figure("extraLoss"),
      diversityAntenna: text("diversityAntenna"),
      diversityHeight: figure("diversityHeight"),
      diversityGain: figure("diversityGain"),
      azimuth: figure("azimuth"),
    };
  }

  /** @returns undefined where the place cannot be read: the row is told then */
  private site(row: SheetRow, side: Side, from: Source, ofEnd = false): SiteRow | undefined {
    const name = this.text(row, "site", side);
    const position = this.position(row, side);
    if (position && !position.ok) {
      this.tell(from, "row", position.reason);
      return undefined;
    }
    if (position?.ok) this.notations.set(position.how, (this.notations.get(position.how) ?? 0) + 1);
    if (!ofEnd && name === undefined && position === undefined) {
      this.tell(from, "row", "names no site and no place");
      return undefined;
    }
    return {
      from,
      name,
      title: ofEnd ? undefined : this.text(row, "title", undefined),
      state: ofEnd ? undefined : this.state(row),
      position: position?.position,
      ground: this.figure(row, "ground", side, from),
      structure: this.word(row, "structure", side, from),
      structureHeight: this.positive(this.figure(row, "structureHeight", side, from)),
    };
  }

  /** A column of this name may hold something else: that is told once. */
  private state(row: SheetRow): State | undefined {
    const text = this.text(row, "state", undefined);
    const state = text === undefined ? undefined : stateIn(text);
    if (text !== undefined && state === undefined)
      this.once(
        `a state is built, planned or removed, with a date as 2027-03-01; others, such as "${short(text)}", are left out`,
      );
    return state;
  }

  /** A structure of no height is one of which nothing is known. */
  private positive(figure: Figure | undefined): Figure | undefined {
    return figure && figure.value > 0 ? figure : undefined;
  }

  private position(row: SheetRow, side: Side): ReadPosition | undefined {
    const refused = this.otherDatum(row, side);
    const read = this.positionAsIs(row, side);
    return read?.ok && refused !== undefined ? { ok: false, reason: refused } : read;
  }

  private positionAsIs(row: SheetRow, side: Side): ReadPosition | undefined {
    const latitude = this.angle(row, "latitude", side);
    const longitude = this.angle(row, "longitude", side);
    if (latitude !== undefined && longitude !== undefined) return positionOfAngles(latitude, longitude);
    if (latitude !== undefined || longitude !== undefined)
      return {
        ok: false,
        reason: `has a ${latitude === undefined ? "longitude" : "latitude"} and no ${latitude === undefined ? "latitude" : "longitude"}`,
      };
    const pair = this.text(row, "position", side);
    if (pair !== undefined) return positionOfPair(pair);
    const easting = this.text(row, "easting", side);
    const northing = this.text(row, "northing", side);
    if (easting === undefined && northing === undefined) return undefined;
    if (easting === undefined || northing === undefined)
      return { ok: false, reason: "has one of easting and northing alone" };
    const code = this.systemOf(row, side);
    if (code === undefined) return { ok: false, reason: "names no system of its easting and northing" };
    return positionOfProjected(easting, northing, code, this.mark);
  }

  private angle(row: SheetRow, key: "latitude" | "longitude", side: Side): string | undefined {
    const part = (name: "minutes" | "seconds" | "hemisphere") => this.cellText(row, key, side, name);
    const degrees = this.text(row, key, side);
    const [minutes, seconds, hemisphere] = [part("minutes"), part("seconds"), part("hemisphere")];
    if (degrees === undefined) return undefined;
    const cell = row.cells[this.use(key, side)!.index];
    const plain = typeof cell === "number" ? String(cell) : this.mark === "," ? degrees : degrees;
    if (minutes === undefined && hemisphere === undefined) return plain;
    return angleOfParts({ degrees: plain, minutes, seconds, hemisphere });
  }

  private systemOf(row: SheetRow, side: Side): number | undefined {
    const stated = this.text(row, "epsg", side) ?? this.text(row, "epsg", undefined);
    const zone = this.text(row, "zone", side) ?? this.text(row, "zone", undefined);
    const head = this.use("easting", side)?.reference;
    return (
      (stated === undefined ? undefined : epsgIn(stated)) ??
      (zone === undefined ? undefined : epsgOfZone(zone)) ??
      (head === undefined ? undefined : epsgIn(head)) ??
      this.options.epsg
    );
  }

  /** Why a position does not count as one on WGS 84, if it does not. */
  private otherDatum(row: SheetRow, side: Side): string | undefined {
    const head = this.use("latitude", side)?.reference ?? this.use("position", side)?.reference;
    const stated = this.text(row, "datum", side) ?? this.text(row, "datum", undefined) ?? head;
    if (stated === undefined || this.options.takeDatum) return undefined;
    const metres = metresFromWgs84(stated);
    if (metres === undefined)
      return `stands on the datum ${short(stated)}, which is not WGS 84 and may lie some 100 m off; convert it, or say --datum-as-wgs84`;
    if (metres > 0) this.once(`${stated} is taken for WGS 84, from which it differs by about ${metres} m`);
    return undefined;
  }

  private use(key: FieldKey, side: Side, part = ""): ColumnUse | undefined {
    return this.by.get(`${key} ${side ?? ""} ${part}`);
  }

  private cellText(row: SheetRow, key: FieldKey, side: Side, part = ""): string | undefined {
    const use = this.use(key, side, part);
    const text = use && textOf(row.cells[use.index]);
    // What stands for nothing, in all but a title, which may be called so.
    return text === "" || (key !== "title" && /^(?:[-–—]|n\/a)$/i.test(text ?? "")) ? undefined : text;
  }

  /** Of this end, or of both alike where one column speaks of both. */
  private text(row: SheetRow, key: FieldKey, side: Side): string | undefined {
    const own = this.cellText(row, key, side);
    return (
      own ??
      (side !== undefined && !PLACE.has(key) && key !== "radio"
        ? this.cellText(row, key, undefined)
        : undefined)
    );
  }

  private word(row: SheetRow, key: FieldKey, side: Side, from: Source): string | undefined {
    const text = this.text(row, key, side);
    if (text === undefined) return undefined;
    const word = wordFor(key, text);
    if (word === undefined)
      this.tell(
        from,
        "cell",
        `"${short(text)}" is no ${this.use(key, side)?.field.called ?? key} that is known`,
      );
    return word;
  }

  private figure(row: SheetRow, key: FieldKey, side: Side, from: Source): Figure | undefined {
    const use =
      this.use(key, side) ?? (side !== undefined && !PLACE.has(key) ? this.use(key, undefined) : undefined);
    const dimension = use?.field.figure?.dimension;
    if (!use || !dimension) return undefined;
    const cell: Cell = row.cells[use.index];
    const text = this.text(row, key, use.end);
    if (text === undefined) return undefined;
    const read = this.figureOf(cell, text, use, dimension);
    if (!read.ok) {
      this.tell(from, "cell", `${called(use, this.columns.kind)} ${read.reason}`);
      return undefined;
    }
    if (this.sheet.how.startsWith("XLSX") && typeof cell === "string" && !/[a-z]/i.test(cell)) this.asText++;
    return read.figure;
  }

  /** Long lists say few figures many times. */
  private figureOf(cell: Cell, text: string, use: ColumnUse, dimension: Dimension): ReadFigure {
    let known = this.figures.get(use);
    if (!known || known.size > MOST_KEPT) this.figures.set(use, (known = new Map()));
    const before = typeof cell === "object" ? undefined : known.get(text);
    if (before) return before;
    const read = readFigure(cell, dimension, this.units.get(use)!, this.mark);
    if (typeof cell !== "object") known.set(text, read);
    return read;
  }

  private decimalMark(): DecimalMark {
    const figures = this.columns.uses.filter(({ field }) => field.figure || PLACE.has(field.key));
    const texts = this.columns.rows
      .slice(0, MOST_SAMPLED)
      .flatMap(({ cells }) =>
        figures.flatMap(({ index }) => (typeof cells[index] === "string" ? [textOf(cells[index])] : [])),
      )
      .filter((text) => text.length < 40 && !/\d[,;]\s+[-+\d]/.test(text));
    const { mark, mixed, doubtful } = decimalMarkOf(texts);
    if (mixed > 0)
      this.remarks.push(
        `decimal commas and points stand beside each other; a ${mark === "," ? "comma" : "point"} is the usual one here`,
      );
    if (doubtful > 0)
      this.remarks.push(
        `figures such as ${texts.find((text) => /^\d{1,3},\d{3}$/.test(text))} may be decimals or thousands: taken as decimals`,
      );
    return mark;
  }

  get markWord(): string {
    return this.mark === "," ? "decimal comma" : "decimal point";
  }

  private unitFor(use: ColumnUse): string {
    const { field, unit } = use;
    if (unit !== undefined) return unit;
    const { dimension, usual } = field.figure!;
    if (dimension !== "frequency") return usual;
    const numbers = this.sampled(use);
    const most = Math.max(...numbers, 0);
    if (field.key !== "frequency") return most >= 1000 ? (most >= 1e6 ? "Hz" : "kHz") : "MHz";
    return most <= MOST_GHZ ? "GHz" : most <= MOST_MHZ ? "MHz" : most <= MOST_MHZ * 1000 ? "kHz" : "Hz";
  }

  private sampled({ index }: ColumnUse): number[] {
    return this.columns.rows.slice(0, MOST_SAMPLED).flatMap(({ cells }) => {
      const cell = cells[index];
      const number = typeof cell === "number" ? cell : numberOf(textOf(cell), this.mark);
      return number === undefined ? [] : [number];
    });
  }

  /** Latitudes beyond 90 in every row are longitudes; the same for eastings that are northings. */
  private suspectAxes(): void {
    for (const side of [undefined, "a", "b"] as const) {
      const latitude = this.use("latitude", side);
      if (latitude && this.use("longitude", side)) {
        const texts = this.columns.rows
          .map(({ cells }) => textOf(cells[latitude.index]))
          .filter((text) => text !== "");
        const beyond = texts.filter((text) => isBeyond(text, "latitude", this.mark)).length;
        if (beyond > 0 && beyond * 2 > texts.length)
          this.unclear.push(
            `"${latitude.head}" holds ${beyond} figures beyond 90: latitude and longitude seem to be exchanged`,
          );
      }
      const easting = this.use("easting", side);
      const northing = this.use("northing", side);
      if (!easting || !northing) continue;
      const [east, north] = [this.sampled(easting), this.sampled(northing)];
      if (
        east.length > 0 &&
        Math.min(...east) > 1e6 &&
        Math.max(...north, 0) < 1e6 &&
        !this.usesWideEastings(side)
      )
        this.unclear.push(
          `"${easting.head}" holds what northings look like, and "${northing.head}" eastings: they seem to be exchanged`,
        );
    }
  }

  /** Systems whose eastings carry a zone in front are as large as northings. */
  private usesWideEastings(side: Side): boolean {
    const code = this.options.epsg ?? epsgIn(this.use("easting", side)?.reference ?? "");
    return code !== undefined && !(code >= 32601 && code <= 32760);
  }

  private needSystem(): void {
    for (const side of [undefined, "a", "b"] as const) {
      if (!this.use("easting", side) || this.use("latitude", side) || this.use("position", side)) continue;
      const named =
        this.options.epsg ??
        this.use("epsg", side) ??
        this.use("epsg", undefined) ??
        this.use("zone", side) ??
        this.use("zone", undefined) ??
        this.use("easting", side)?.reference;
      if (named === undefined) {
        this.unclear.push(
          `"${this.use("easting", side)!.head}" is an easting: say of which system, for example --epsg 32632`,
        );
        return;
      }
    }
  }

  private readAs(use: ColumnUse): string {
    const unit = this.units.get(use);
    const [notation] = [...this.notations].sort((a, b) => b[1] - a[1])[0] ?? [];
    const how =
      PLACE.has(use.field.key) && use.field.key !== "site"
        ? notation
        : unit && `${unit}${use.unit === undefined ? " (not stated)" : ""}`;
    return `${called(use, this.columns.kind)}${how === undefined ? "" : `, ${how}`}${use.field.checked ? ", compared only" : ""}`;
  }

  private once(remark: string): void {
    if (!this.remarks.includes(remark)) this.remarks.push(remark);
  }

  private tell(from: Source, what: Told["what"], reason: string): void {
    this.told.push({ from, what, reason });
  }
}

const PLACE: ReadonlySet<FieldKey> = new Set([
  "site",
  "latitude",
  "longitude",
  "position",
  "easting",
  "northing",
]);

function isNowhere({
  name,
  position,
}: {
  readonly name?: string;
  readonly position?: StatedPosition;
}): boolean {
  return name === undefined && position === undefined;
}
