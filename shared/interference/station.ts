/** What sends and what hears, each a side of one direction of a hop or of others' transmissions, ready to be paired. */
import type { Polarization } from "../design/design.js";
import type { CarrierToInterference } from "../design/interference.js";
import type { LatLon } from "../geodesy/coordinates.js";
import type { Direction } from "../geodesy/off-axis.js";
import type { FilterShape } from "../spectrum/filter-shape.js";
import type { AntennaView } from "./antenna-view.js";

/** Where an antenna is, and where it looks. */
export interface Place {
  /** Undefined: of others. */
  readonly site?: string;
  readonly position: LatLon;
  /** Undefined: as the terrain has it. */
  readonly groundM?: number;
  /** Centre above ground. */
  readonly antennaM: number;
  /** The height above ground is assumed. */
  readonly heightAssumed?: true;
  /** Undefined: it is not known where it looks, and it counts with its whole gain everywhere. */
  readonly boresight?: Direction;
  /** Over land to the nearest coast, where stated. */
  readonly coastM?: number;
}

/** Whose a station is. */
export type Owner =
  | { readonly hop: string }
  /** A row of a list: its place among the lists of the design, what its file is called, and its line. */
  | { readonly list: number; readonly file?: string; readonly line: number; readonly name?: string };

interface Station {
  /** The same as long as it is the same station: `KELD-TARN KELD 1`. */
  readonly key: string;
  readonly of: Owner;
  readonly place: Place;
  readonly frequencyHz: number;
  /** Undefined: not known, and counted as parallel to any. */
  readonly polarization?: Polarization;
  /** Of the channel or emission. */
  readonly bandwidthHz: number;
  readonly antenna: AntennaView;
  /** Of the same antenna for the sum of many, where the network wants another pattern there. */
  readonly antennaInSum?: AntennaView;
  /** Undefined: of others. */
  readonly entries?: StationEntries;
}

/** What of the catalogue a station is made of, by name. */
export interface StationEntries {
  readonly antenna: string;
  /** Its pattern is to stand in a file. */
  readonly patternInFile?: true;
  readonly radio?: string;
}

export interface Sender extends Station {
  /** Greatest: of the strongest mode, with power control off. */
  readonly eirpDbm: number;
  /** By how much power control lets it down while nothing fades; 0: not. */
  readonly reductionDb: number;
  readonly spectrum: FilterShape;
  /** What the EIRP is made of; undefined: it is stated as one figure, or the row does not say. */
  readonly power?: SentPower;
}

/** EIRP = power - loss + gain of the antenna. */
interface SentPower {
  readonly modulation: string;
  readonly powerDbm: number;
  /** From the transmitter to the antenna. */
  readonly lossDb: number;
}

export interface Receiver extends Station {
  /** From the antenna to the receiver. */
  readonly lossDb: number;
  readonly noiseDbm: number;
  /** What the noise is made of: figure, and the symbol rate that it is counted over; undefined: not told. */
  readonly noise?: { readonly figureDb: number; readonly symbolRateHz: number };
  /** The noise figure behind it is assumed. */
  readonly noiseAssumed?: true;
  readonly selectivity: FilterShape;
  /** In the modes whose catalogue has a table of C/I, with their thresholds. */
  readonly tables?: readonly ModeTable[];
}

export interface ModeTable {
  readonly modulation: string;
  readonly thresholdDbm: number;
  readonly points: readonly CarrierToInterference[];
}

export function isOwn(owner: Owner): owner is { readonly hop: string } {
  return "hop" in owner;
}
