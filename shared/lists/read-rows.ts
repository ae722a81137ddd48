/** Rows of a sheet whose columns are known, as facts. A cell that cannot be read costs itself, a place or a day the row. */

import type { HalfOfBand, Polarization } from "../design/design.js";
import type { State } from "../design/state.js";
import { Cells, PLACE, type Side } from "./cells.js";
import { type Columns, type ColumnUse, called } from "./columns.js";
import type { EndRow, HopEndRow, HopRow, ListedRows, SiteRow, Source, StatedPosition } from "./facts.js";
import type { FieldKey } from "./field.js";
import { type Figure, numberOf, readFigure, short } from "./figures.js";
import { type PlaceOptions, RowPlaces } from "./row-places.js";
import { readState } from "./stated-state.js";
import { type Sheet, type SheetRow, textOf } from "./table.js";

export type ReadOptions = PlaceOptions;

export interface ReadList extends ListedRows {
  /** How each column was read, for people. */
  readonly read: readonly { readonly head: string; readonly as: string }[];
  readonly remarks: readonly string[];
  readonly unclear: readonly string[];
}

export function readRows(sheet: Sheet, columns: Columns, options: ReadOptions = {}): ReadList {
  return new Reader(sheet, columns, options).all();
}

class Reader {
  private readonly cells: Cells;
  private readonly places: RowPlaces;
  private readonly unclear: string[];
  private readonly notations = new Map<string, number>();
  private statesThere?: boolean;
  /** The first text in a column of states that holds none. */
  private otherState?: string;

  constructor(
    private readonly sheet: Sheet,
    private readonly columns: Columns,
    options: ReadOptions,
  ) {
    this.unclear = [...columns.unclear];
    this.cells = new Cells(sheet, columns);
    this.places = new RowPlaces(this.cells, options, this.unclear);
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
    if (this.cells.asText > 0)
      this.cells.remarks.push(
        `${this.cells.asText} ${this.cells.asText === 1 ? "figure stands" : "figures stand"} there as text, read all the same`,
      );
    return {
      ...lists,
      readings: [],
      told: this.cells.told,
      read: this.columns.uses.map((use) => ({ head: use.head, as: this.readAs(use) })),
      remarks: this.cells.remarks,
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
        const hop = this.cells.text(row, "hop", undefined);
        const end = this.end(row, undefined, from);
        if (!end) return;
        if (hop === undefined || end.site.name === undefined)
          this.cells.tell(from, "row", "names no hop and site, whose end it could be");
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
    const name = this.cells.text(row, "hop", undefined);
    const stands = this.columns.uses.some(({ end, field }) => end !== undefined && PLACE.has(field.key));
    if (stands && (!a || !b)) return undefined;
    if (stands && isNowhere(a!.site) && isNowhere(b!.site) && name === undefined) {
      this.cells.tell(from, "row", "names no site and no place");
      return undefined;
    }
    if (stands && (isNowhere(a!.site) || isNowhere(b!.site))) {
      this.cells.tell(from, "row", "names the site of one end alone");
      return undefined;
    }
    const frequency =
      this.columns.kind === "transmissions"
        ? this.cells.figure(row, "frequency", undefined, from)
        : undefined;
    const first = a && frequency ? { ...a, frequency } : a;
    const width =
      this.cells.figure(row, "channelWidth", undefined, from) ??
      this.cells.figure(row, "modeWidth", undefined, from);
    const state = this.state(row, from);
    if (!state) return undefined;
    return {
      from,
      name,
      title: this.cells.text(row, "title", undefined),
      state: state.is,
      objective: this.cells.text(row, "objective", undefined),
      channel: this.channel(row, from, width),
      polarization: this.cells.word(row, "polarization", undefined, from) as Polarization | undefined,
      arrangement: this.cells.word(row, "arrangement", undefined, from),
      radio: this.cells.text(row, "radio", undefined) ?? first?.radio,
      width: this.cells.figure(row, "modeWidth", undefined, from) ?? width,
      lowestMode: this.cells.word(row, "lowestMode", undefined, from),
      highestMode: this.cells.word(row, "highestMode", undefined, from),
      bitRate: this.cells.figure(row, "bitRate", undefined, from),
      length: this.cells.figure(row, "length", undefined, from),
      ends: stands && first && b ? [first, b] : undefined,
    };
  }

  private channel(row: SheetRow, from: Source, width: Figure | undefined): HopRow["channel"] {
    const text = this.cells.text(row, "channel", undefined);
    if (text === undefined) return undefined;
    const whole = /^(\S+)\s*\/\s*([\d.,]+)\s*(MHz)?\s*\/\s*(\d+)$/i.exec(text);
    if (whole) {
      const read = readFigure(whole[2], "frequency", "MHz", this.cells.mark);
      return read.ok ? { plan: whole[1]!, width: read.figure, number: Number(whole[4]) } : undefined;
    }
    const number = numberOf(text.replace(/^ch(annel)?\.?\s*/i, ""), this.cells.mark);
    const plan = this.cells.text(row, "plan", undefined);
    if (number === undefined || !Number.isInteger(number)) {
      this.cells.tell(from, "cell", `channel "${short(text)}" is no number`);
      return undefined;
    }
    if (plan !== undefined && width !== undefined) return { plan, width, number };
    this.cells.once(
      `a channel number is stated only with its plan${plan === undefined ? "" : " and width"}, for which there is no column: left out`,
    );
    return undefined;
  }

  private end(row: SheetRow, side: Side, from: Source): EndRow | undefined {
    const site = this.site(row, side, from, true);
    if (!site) return undefined;
    const figure = (key: FieldKey) => this.cells.figure(row, key, side, from);
    const text = (key: FieldKey) => this.cells.text(row, key, side);
    return {
      site,
      antenna: text("antenna"),
      antennaHeight: figure("antennaHeight"),
      antennaDiameter: figure("antennaDiameter"),
      antennaGain: figure("antennaGain"),
      antennaBeamwidth: figure("antennaBeamwidth"),
      radio: text("radio"),
      coupler: text("coupler"),
      mounting: this.cells.word(row, "mounting", side, from),
      feeder: text("feeder"),
      feederLength: figure("feederLength"),
      transmits: this.cells.word(row, "transmits", side, from) as HalfOfBand | undefined,
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
    const name = this.cells.text(row, "site", side);
    const position = this.places.position(row, side);
    if (position && !position.ok) {
      this.cells.tell(from, "row", position.reason);
      return undefined;
    }
    if (position?.ok) this.notations.set(position.how, (this.notations.get(position.how) ?? 0) + 1);
    if (!ofEnd && name === undefined && position === undefined) {
      this.cells.tell(from, "row", "names no site and no place");
      return undefined;
    }
    const state = ofEnd ? {} : this.state(row, from);
    if (!state) return undefined;
    return {
      from,
      name,
      title: ofEnd ? undefined : this.cells.text(row, "title", undefined),
      state: state.is,
      position: position?.position,
      ground: this.cells.figure(row, "ground", side, from),
      structure: this.cells.word(row, "structure", side, from),
      structureHeight: this.positive(this.cells.figure(row, "structureHeight", side, from)),
    };
  }

  /** What is planned for a day that cannot be read would stand at all times: that costs the row. */
  private state(row: SheetRow, from: Source): { readonly is?: State } | undefined {
    const text = this.cells.text(row, "state", undefined);
    if (text === undefined) return {};
    const read = readState(text);
    if (read?.ok) return { is: read.state };
    if (read) {
      this.cells.tell(from, "row", `state: ${read.reason}`);
      return undefined;
    }
    const known = "a state is built, planned or removed, with a date as 2027-03-01";
    if (this.hasStates())
      this.cells.tell(from, "cell", `state "${short(text)}" is none that is known: ${known}`);
    else this.cells.once(`${known}; others, such as "${short((this.otherState ??= text))}", are left out`);
    return {};
  }

  /** A column of this name may hold something else in all rows. */
  private hasStates(): boolean {
    this.statesThere ??= this.columns.rows.some((row) => {
      const text = this.cells.text(row, "state", undefined);
      return text !== undefined && readState(text) !== undefined;
    });
    return this.statesThere;
  }

  /** A structure of no height is one of which nothing is known. */
  private positive(figure: Figure | undefined): Figure | undefined {
    return figure && figure.value > 0 ? figure : undefined;
  }

  /** All that there are, the usual one first. */
  private notationWords(): string | undefined {
    const all = [...this.notations].sort((a, b) => b[1] - a[1]);
    if (all.length < 2) return all[0]?.[0];
    return all.map(([how, rows]) => `${how} in ${rows} ${rows === 1 ? "row" : "rows"}`).join(" and ");
  }

  private readAs(use: ColumnUse): string {
    const unit = this.cells.units.get(use);
    const how =
      PLACE.has(use.field.key) && use.field.key !== "site"
        ? this.notationWords()
        : unit && `${unit}${use.unit === undefined ? " (not stated)" : ""}`;
    return `${called(use, this.columns.kind)}${how === undefined ? "" : `, ${how}`}${use.field.checked ? ", compared only" : ""}`;
  }
}

function isNowhere({
  name,
  position,
}: {
  readonly name?: string;
  readonly position?: StatedPosition;
}): boolean {
  return name === undefined && position === undefined;
}
