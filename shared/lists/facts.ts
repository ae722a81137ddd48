/** What a row says, read: facts of sites and of hops, each with the place that it was read at. */

import type { Measurement } from "../design/as-built.js";
import type { HalfOfBand, Polarization } from "../design/design.js";
import type { State } from "../design/state.js";
import type { LatLon } from "../geodesy/coordinates.js";
import type { Figure } from "./figures.js";

/** Where a row stands: the sheet, and its line. */
export interface Source {
  readonly sheet: string;
  readonly line: number;
}

export interface StatedPosition extends LatLon {
  /** What one of the last digit is worth, degrees. */
  readonly stepDeg: number;
  /** Decimals of the seconds, of a position in degrees, minutes and seconds. */
  readonly secondDecimals?: number;
}

export interface SiteRow {
  readonly from: Source;
  /** As written. */
  readonly name?: string;
  readonly title?: string;
  readonly state?: State;
  readonly position?: StatedPosition;
  readonly ground?: Figure;
  readonly structure?: string;
  readonly structureHeight?: Figure;
}

export interface EndRow {
  readonly site: SiteRow;
  readonly antenna?: string;
  readonly antennaHeight?: Figure;
  readonly antennaDiameter?: Figure;
  readonly antennaGain?: Figure;
  readonly antennaBeamwidth?: Figure;
  readonly radio?: string;
  readonly coupler?: string;
  readonly mounting?: string;
  readonly feeder?: string;
  readonly feederLength?: Figure;
  readonly transmits?: HalfOfBand;
  readonly frequency?: Figure;
  readonly power?: Figure;
  readonly extraLoss?: Figure;
  readonly diversityAntenna?: string;
  readonly diversityHeight?: Figure;
  readonly diversityGain?: Figure;
  readonly azimuth?: Figure;
}

interface ChannelFact {
  readonly plan: string;
  readonly width: Figure;
  readonly number: number;
}

export interface HopRow {
  readonly from: Source;
  readonly name?: string;
  readonly title?: string;
  readonly state?: State;
  readonly objective?: string;
  readonly channel?: ChannelFact;
  readonly polarization?: Polarization;
  readonly arrangement?: string;
  readonly radio?: string;
  /** Width of a mode where it is no channel of a plan. */
  readonly width?: Figure;
  readonly lowestMode?: string;
  readonly highestMode?: string;
  readonly bitRate?: Figure;
  readonly length?: Figure;
  /** Undefined: the hop is one that is there, by its name. */
  readonly ends?: readonly [EndRow, EndRow];
}

/** One end of a hop that is named. */
export interface HopEndRow {
  readonly from: Source;
  readonly hop: string;
  readonly end: EndRow;
}

/** A level that was read, with the row that it stands in. */
export interface ReadingRow {
  readonly from: Source;
  readonly hop: string;
  readonly measured: Measurement;
}

/** What is to be told of a row or a cell. */
export interface Told {
  readonly from: Source;
  readonly reason: string;
  /** Whether all of the row is left out, or a cell of it alone. */
  readonly what: "row" | "cell" | "remark";
}

export interface ListedRows {
  readonly sites: readonly SiteRow[];
  readonly hops: readonly HopRow[];
  /** From the transmitter, the first end, to the receiver. */
  readonly transmissions: readonly HopRow[];
  readonly ends: readonly HopEndRow[];
  /** Levels that were measured. */
  readonly readings: readonly ReadingRow[];
  readonly told: readonly Told[];
}
