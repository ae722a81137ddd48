/** Where the two ends of a row are: angles in any usual notation, both in a cell, or projected coordinates. */
import type { OthersKey } from "../design/interference.js";
import type { LatLon } from "../geodesy/coordinates.js";
import type { DecimalMark } from "../lists/figures.js";
import { angleOfParts, positionOfAngles, positionOfPair, positionOfProjected } from "../lists/positions.js";
import { plainDecimal } from "../units/decimal.js";
import type { MappedColumn } from "./mapped.js";

/** `exchanged`: it would be a place with latitude and longitude the other way. */
export type PlaceFault = "position" | "exchanged";

type Cells = readonly string[];

const MOST_REMEMBERED = 200_000;

export class PlacesOfRows {
  mark: DecimalMark = ".";
  /** Sites recur, and reading an angle is what takes longest. */
  private readonly known = new Map<string, LatLon | undefined>();

  constructor(
    private readonly by: ReadonlyMap<OthersKey, MappedColumn>,
    private readonly epsg: number | undefined,
  ) {}

  /** @param of whose place */
  of(cells: Cells, of: "" | "receiver-"): LatLon | undefined {
    const north = this.angle(cells, `${of}latitude`);
    const east = this.angle(cells, `${of}longitude`);
    if (north !== undefined && east !== undefined)
      return this.remembered(`${north} ${east}`, () => ofAngles(north, east));
    const pair = this.text(cells, `${of}position`);
    if (pair !== "") return this.remembered(pair, () => placeIn(positionOfPair(pair)));
    const easting = this.text(cells, `${of}easting`);
    const northing = this.text(cells, `${of}northing`);
    const { epsg } = this;
    if (easting === "" || northing === "" || epsg === undefined) return undefined;
    return this.remembered(`${easting} ${northing}`, () =>
      placeIn(positionOfProjected(easting, northing, epsg, this.mark)),
    );
  }

  /** Why a transmitter has no place, and what stands there. */
  faultOf(cells: Cells): { readonly code: PlaceFault; readonly sample: string } {
    const north = this.angle(cells, "latitude");
    const east = this.angle(cells, "longitude");
    const [latitude, longitude] = [north, east].map((text) => plainDecimal(text ?? ""));
    const beyond = latitude !== undefined && Math.abs(latitude) > 90;
    const isExchanged = beyond && longitude !== undefined && Math.abs(longitude) <= 90;
    const sample =
      north !== undefined || east !== undefined
        ? `${north ?? ""} ${east ?? ""}`
        : this.text(cells, "position") || `${this.text(cells, "easting")} ${this.text(cells, "northing")}`;
    return { code: isExchanged ? "exchanged" : "position", sample: sample.trim() };
  }

  private text(cells: Cells, key: OthersKey): string {
    const column = this.by.get(key);
    return column === undefined ? "" : (cells[column.index] ?? "").trim();
  }

  /** Undefined where nothing stands there. */
  private angle(cells: Cells, key: OthersKey): string | undefined {
    const degrees = this.text(cells, key);
    if (degrees === "") return undefined;
    const { minutes, seconds, hemisphere } = this.by.get(key)!;
    if (minutes === undefined && hemisphere === undefined)
      return this.mark === "," ? degrees.replace(",", ".") : degrees;
    const part = (index: number | undefined) =>
      index === undefined ? undefined : (cells[index] ?? "").trim().replace(",", ".");
    return angleOfParts({
      degrees: degrees.replace(",", "."),
      minutes: part(minutes),
      seconds: part(seconds),
      hemisphere: part(hemisphere),
    });
  }

  private remembered(text: string, read: () => LatLon | undefined): LatLon | undefined {
    const known = this.known.get(text);
    if (known !== undefined || this.known.has(text)) return known;
    const place = read();
    if (this.known.size < MOST_REMEMBERED) this.known.set(text, place);
    return place;
  }
}

function ofAngles(north: string, east: string): LatLon | undefined {
  const latitudeDeg = plainDecimal(north);
  const longitudeDeg = plainDecimal(east);
  if (latitudeDeg === undefined || longitudeDeg === undefined) return placeIn(positionOfAngles(north, east));
  if (Math.abs(latitudeDeg) > 90 || Math.abs(longitudeDeg) > 360) return undefined;
  // Where nothing is known programs write nought.
  if (latitudeDeg === 0 && longitudeDeg === 0) return undefined;
  const turns = longitudeDeg > 180 ? -360 : longitudeDeg <= -180 ? 360 : 0;
  return { latitudeDeg, longitudeDeg: longitudeDeg + turns };
}

function placeIn(read: ReturnType<typeof positionOfPair>): LatLon | undefined {
  if (!read.ok) return undefined;
  const { latitudeDeg, longitudeDeg } = read.position;
  return { latitudeDeg, longitudeDeg };
}
