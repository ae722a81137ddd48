/** What was found at the hop: levels that were measured, and what was built beside what was planned. Facts, no results. */
import type { Antenna } from "./catalogue.js";

/** What a unit is there for. `diversity`: the receiver on the diversity antenna. */
export type UnitRole = "main" | "standby" | "diversity";

/** One reading of a received level. */
export interface Measurement {
  readonly levelDbm: number;
  /** Site where it was read. */
  readonly site: string;
  /** Day, ISO date. */
  readonly on: string;
  /** The receiver; undefined: the main one. */
  readonly branch?: UnitRole;
  /** Which unit of the far end sent; undefined: the main one. */
  readonly sender?: UnitRole;
  /** From 1, in the order of the arrangement; undefined: not stated. */
  readonly carrier?: number;
  readonly polarization?: "horizontal" | "vertical" | "slant";
  /** Modulation that the far end sent; undefined: that of the reference mode. */
  readonly mode?: string;
  /** Of the far end while it was read; undefined: not stated. */
  readonly powerControl?: "active" | "off";
  /** Level that the design promised when it was read, as it stood on the sheet. */
  readonly promisedDbm?: number;
  readonly by?: string;
  readonly remark?: string;
}

/** One end as it was built. What is not stated is as planned, as far as anybody knows. */
export interface AsBuilt {
  /** Day on which it was looked at, ISO date. */
  readonly on?: string;
  readonly by?: string;
  readonly antenna?: Antenna;
  /** Antenna centre above ground. */
  readonly heightM?: number;
  readonly diversityHeightM?: number;
  /** From true north, clockwise. */
  readonly azimuthDeg?: number;
  /** Of each cable to a unit. */
  readonly cableLengthM?: number;
  readonly serials?: readonly Serial[];
}

export interface Serial {
  readonly number: string;
  readonly of: SerialOf;
  /** Of several units. */
  readonly branch?: UnitRole;
  readonly carrier?: number;
}

type SerialOf = "unit" | "antenna" | "diversity-antenna" | "coupler";
