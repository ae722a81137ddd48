/**
 * What a design states for interference: spectra of its radios, what its sites and the network say, and the lists of
 * others' transmissions that it names. What is not stated is not here, so that it can be told from what is.
 */

import type { Address } from "./address.js";

/** A point of a mask or of a selectivity, both of which are alike on both sides of the centre. */
export interface SpectrumPoint {
  /** From the centre, not below 0. */
  readonly offsetHz: number;
  /** Below what it is at the centre, per hertz; two points of one offset make a step. */
  readonly attenuationDb: number;
}

/** Least C/I of an interferer at a distance, for two degradations of the threshold. */
export interface CarrierToInterference {
  /** Between the centres, not below 0. */
  readonly offsetHz: number;
  readonly for1Db: number;
  readonly for3Db: number;
}

/** What the catalogue says of a mode's spectrum; lists ascend by offset. Each of them may be missing. */
export interface ModeSpectrum {
  readonly transmitMask?: readonly SpectrumPoint[];
  readonly selectivity?: readonly SpectrumPoint[];
  /** Of the raised cosine, 0 to 1. */
  readonly rollOff?: number;
  readonly carrierToInterference?: readonly CarrierToInterference[];
  /** Points of one list do not ascend in the text. */
  readonly outOfOrder?: true;
}

/** Automatic transmit power control of an end, as stated there, else at the hop or in the defaults. */
export interface PowerControl {
  /** By how much power is let down while nothing fades; 0: it is off; undefined: as far as the radio can, which states no range. */
  readonly reductionDb?: number;
}

/** What the network states of interference; all of it may be missing. */
export interface InterferenceTerms {
  /** Criterion: most degradation of a threshold by one transmitter. */
  readonly singleEntryDegradationDb?: number;
  /** Criterion: most degradation by all together, in the long-term percentage. */
  readonly aggregateDegradationDb?: number;
  /** Criterion: most degradation in the short-term percentage. */
  readonly shortTermDegradationDb?: number;
  /** Criteria: most I/N that a hop may bring to a receiver of others, in the two percentages. */
  readonly towardOthersLongTermDb?: number;
  readonly towardOthersShortTermDb?: number;
  /** Of the average year; undefined: `INTERFERENCE_DEFAULTS`. */
  readonly longTermPercent?: number;
  readonly shortTermPercent?: number;
  /** Median fall of refractivity over the lowest kilometre (DN of P.452), positive, below 157. */
  readonly lapseNPerKm?: number;
  /** Refractivity at sea level (N0 of P.452), N-units. */
  readonly surfaceRefractivity?: number;
  /** Ground of the terrain at or below this is sea; undefined: none is. */
  readonly seaBelowM?: number;
  /** Share of an interfering path over sea, where the terrain does not tell; undefined: none. */
  readonly seaSharePercent?: number;
  /** Noise figure assumed for receivers of others that state none. */
  readonly assumedNoiseFigureDb?: number;
  /** Transmitters further away than this are not looked at. */
  readonly searchDistanceM?: number;
  /** Step of the profiles of interfering paths; undefined: `INTERFERENCE_DEFAULTS`. */
  readonly profileStepM?: number;
  /** Reference pattern of antennas without one of their own, where many transmitters are summed; undefined: F.699 there too. */
  readonly sumPattern?: "F.699" | "F.1245";
  /** Emission mask that the masks of radios are held against; undefined: none. */
  readonly emissionMask?: "47-CFR-101.111";
  /** Figures of the air that the design leaves open and that were read from the user's maps. */
  readonly fromMaps?: readonly ("lapseNPerKm" | "surfaceRefractivity")[];
}

export const INTERFERENCE_DEFAULTS = {
  longTermPercent: 20,
  shortTermPercent: 0.01,
  profileStepM: 250,
} as const;

/** What a site states, beside the site, so that no hop's own result depends on it. */
export interface InterferenceAtSite {
  /** Over land from the site to the nearest coast. */
  readonly coastM?: number;
  readonly couplingLosses?: readonly CouplingLoss[];
}

/** Measured between the antenna ports of two hops at one place; of a hop alone, to whatever others have there. */
export interface CouplingLoss {
  readonly hops: readonly [string, string] | readonly [string];
  readonly lossDb: number;
}

/** A file with others' transmissions, and what its columns are. */
export interface OthersList {
  /** Address of its statement. */
  readonly at: Address;
  /** Absolute; `/` parts folders. */
  readonly file: string;
  /** In the order of the text. */
  readonly columns: readonly OthersColumn[];
  /** System of eastings and northings. */
  readonly epsg?: number;
  /** What a row's state has to be for it to count; undefined: whatever it is. */
  readonly stands?: string;
}

export interface OthersColumn {
  readonly key: OthersKey;
  /** Head of the column, as stated. */
  readonly head: string;
  /** Symbol of the unit; undefined: that of the head, else the usual one. */
  readonly unit?: string;
  /** Heads of the columns with the rest of an angle. */
  readonly minutes?: string;
  readonly seconds?: string;
  readonly hemisphere?: string;
}

/** What a column can hold; those of the receiver begin so. */
export type OthersKey =
  | "name"
  | "latitude"
  | "longitude"
  | "position"
  | "easting"
  | "northing"
  | "ground"
  | "antenna-height"
  | "antenna-gain"
  | "antenna-diameter"
  | "feeder-loss"
  | "azimuth"
  | "elevation"
  | "frequency"
  | "emission"
  | "bandwidth"
  | "polarization"
  | "eirp"
  | "power"
  | "receiver-latitude"
  | "receiver-longitude"
  | "receiver-position"
  | "receiver-easting"
  | "receiver-northing"
  | "receiver-ground"
  | "receiver-antenna-height"
  | "receiver-antenna-gain"
  | "receiver-antenna-diameter"
  | "receiver-feeder-loss"
  | "receiver-noise-figure"
  | "valid-from"
  | "valid-until"
  | "status";
