/** Where the rows of a sheet lie, and what is suspect in all of them. */
import type { Cells, Side } from "./cells.js";
import { short } from "./figures.js";
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
import { type SheetRow, textOf } from "./table.js";

export interface PlaceOptions {
  /** System of eastings and northings where no column and no head names it. */
  readonly epsg?: number;
  /** Coordinates are to be taken for WGS 84 whatever datum the list names. */
  readonly takeDatum?: boolean;
}

export class RowPlaces {
  constructor(
    private readonly cells: Cells,
    private readonly options: PlaceOptions,
    private readonly unclear: string[],
  ) {
    this.suspectAxes();
    this.needSystem();
  }

  /** @returns undefined where the row says nothing of its place */
  position(row: SheetRow, side: Side): ReadPosition | undefined {
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
    const pair = this.cells.text(row, "position", side);
    if (pair !== undefined) return positionOfPair(pair);
    const easting = this.cells.text(row, "easting", side);
    const northing = this.cells.text(row, "northing", side);
    if (easting === undefined && northing === undefined) return undefined;
    if (easting === undefined || northing === undefined)
      return { ok: false, reason: "has one of easting and northing alone" };
    const code = this.systemOf(row, side);
    if (code === undefined) return { ok: false, reason: "names no system of its easting and northing" };
    return positionOfProjected(easting, northing, code, this.cells.mark);
  }

  private angle(row: SheetRow, key: "latitude" | "longitude", side: Side): string | undefined {
    const part = (name: "minutes" | "seconds" | "hemisphere") => this.cells.cellText(row, key, side, name);
    const degrees = this.cells.text(row, key, side);
    const [minutes, seconds, hemisphere] = [part("minutes"), part("seconds"), part("hemisphere")];
    if (degrees === undefined) return undefined;
    const cell = row.cells[this.cells.use(key, side)!.index];
    const plain = typeof cell === "number" ? String(cell) : degrees;
    if (minutes === undefined && hemisphere === undefined) return plain;
    return angleOfParts({ degrees: plain, minutes, seconds, hemisphere });
  }

  private systemOf(row: SheetRow, side: Side): number | undefined {
    const stated = this.cells.text(row, "epsg", side) ?? this.cells.text(row, "epsg", undefined);
    const zone = this.cells.text(row, "zone", side) ?? this.cells.text(row, "zone", undefined);
    const head = this.cells.use("easting", side)?.reference;
    return (
      (stated === undefined ? undefined : epsgIn(stated)) ??
      (zone === undefined ? undefined : epsgOfZone(zone)) ??
      (head === undefined ? undefined : epsgIn(head)) ??
      this.options.epsg
    );
  }

  /** Why a position does not count as one on WGS 84, if it does not. */
  private otherDatum(row: SheetRow, side: Side): string | undefined {
    const head = this.cells.use("latitude", side)?.reference ?? this.cells.use("position", side)?.reference;
    const stated = this.cells.text(row, "datum", side) ?? this.cells.text(row, "datum", undefined) ?? head;
    if (stated === undefined || this.options.takeDatum) return undefined;
    const metres = metresFromWgs84(stated);
    if (metres === undefined)
      return `stands on the datum ${short(stated)}, which is not WGS 84 and may lie some 100 m off; convert it, or say --datum-as-wgs84`;
    if (metres > 0)
      this.cells.once(`${stated} is taken for WGS 84, from which it differs by about ${metres} m`);
    return undefined;
  }

  /** Latitudes beyond 90 in every row are longitudes; the same for eastings that are northings. */
  private suspectAxes(): void {
    for (const side of [undefined, "a", "b"] as const) {
      const latitude = this.cells.use("latitude", side);
      if (latitude && this.cells.use("longitude", side)) {
        const texts = this.cells.columns.rows
          .map(({ cells }) => textOf(cells[latitude.index]))
          .filter((text) => text !== "");
        const beyond = texts.filter((text) => isBeyond(text, "latitude", this.cells.mark)).length;
        if (beyond > 0 && beyond * 2 > texts.length)
          this.unclear.push(
            `"${latitude.head}" holds ${beyond} figures beyond 90: latitude and longitude seem to be exchanged`,
          );
      }
      const easting = this.cells.use("easting", side);
      const northing = this.cells.use("northing", side);
      if (!easting || !northing) continue;
      const [east, north] = [this.cells.sampled(easting), this.cells.sampled(northing)];
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
    const code = this.options.epsg ?? epsgIn(this.cells.use("easting", side)?.reference ?? "");
    return code !== undefined && !(code >= 32601 && code <= 32760);
  }

  private needSystem(): void {
    for (const side of [undefined, "a", "b"] as const) {
      if (
        !this.cells.use("easting", side) ||
        this.cells.use("latitude", side) ||
        this.cells.use("position", side)
      )
        continue;
      const named =
        this.options.epsg ??
        this.cells.use("epsg", side) ??
        this.cells.use("epsg", undefined) ??
        this.cells.use("zone", side) ??
        this.cells.use("zone", undefined) ??
        this.cells.use("easting", side)?.reference;
      if (named === undefined) {
        this.unclear.push(
          `"${this.cells.use("easting", side)!.head}" is an easting: say of which system, for example --epsg 32632`,
        );
        return;
      }
    }
  }
}
