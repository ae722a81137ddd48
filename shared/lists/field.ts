/** What a column of a list says: a row of the table in `fields.ts`. */
import type { Dimension } from "../units/units.js";

export type FieldKey =
  | "site"
  | "title"
  | "state"
  | "latitude"
  | "longitude"
  | "position"
  | "easting"
  | "northing"
  | "zone"
  | "epsg"
  | "datum"
  | "ground"
  | "structure"
  | "structureHeight"
  | "hop"
  | "farSite"
  | "objective"
  | "plan"
  | "channelWidth"
  | "channel"
  | "polarization"
  | "arrangement"
  | "radio"
  | "modeWidth"
  | "lowestMode"
  | "highestMode"
  | "bitRate"
  | "antenna"
  | "antennaHeight"
  | "antennaDiameter"
  | "antennaGain"
  | "antennaBeamwidth"
  | "coupler"
  | "mounting"
  | "feeder"
  | "feederLength"
  | "transmits"
  | "frequency"
  | "power"
  | "extraLoss"
  | "diversityAntenna"
  | "diversityHeight"
  | "diversityGain"
  | "azimuth"
  | "length";

type FieldOf = "site" | "hop" | "end";

export interface Field {
  readonly key: FieldKey;
  /** What it is called in messages. */
  readonly called: string;
  readonly of: readonly FieldOf[];
  /** Figures have a dimension; where a head names no unit it is `usual`. */
  readonly figure?: {
    readonly dimension: Dimension;
    readonly usual: string;
    /** None is below zero. */
    readonly positive?: true;
  };
  /** A figure without a unit. */
  readonly number?: true;
  /** Held against what is computed, never stated. */
  readonly checked?: true;
  /** Heads: words without blanks, accents and case. */
  readonly spellings: readonly string[];
}
