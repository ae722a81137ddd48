/**
 * The resolved design: what the text means, with names replaced by the things they name, templates and
 * defaults applied, every quantity in SI units (angles in degrees). Plain immutable data, and
 * incomplete on purpose: while somebody types, most of it may be missing, so what a design need not
 * have is optional here and the rules say what is missing.
 *
 * No source positions stand in it, so that a result computed from it can be cached by content. A fact is
 * found again in the text by its address (`address.ts`).
 */

export interface Position {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

export type HalfOfBand = "high" | "low";
export type Polarization = "horizontal" | "vertical";

/** A closed range of frequencies, `fromHz <= toHz`. */
export interface FrequencyRange {
  readonly fromHz: number;
  readonly toHz: number;
}

export interface Site {
  readonly name: string;
  readonly title?: string;
  readonly position?: Position;
  /** Ground level above sea level as stated; undefined: taken from terrain. */
  readonly groundM?: number;
  readonly structure?: { readonly kind: string; readonly heightM: number };
}

/** One operating mode of a radio: a bandwidth with a modulation. */
export interface RadioMode {
  /** Modulation as the catalogue writes it, for example `128QAM`. */
  readonly modulation: string;
  readonly bandwidthHz: number;
  readonly bitRateBps?: number;
  readonly transmitPowerDbm?: number;
  /** Received level at the reference bit error ratio; computed by the resolver's caller if only snrDb is given. */
  readonly thresholdDbm?: number;
  /** Signal-to-noise ratio the demodulator needs; with the noise figure it gives the threshold. */
  readonly requiredSnrDb?: number;
}

export interface Radio {
  readonly name: string;
  readonly title?: string;
  readonly tuning?: FrequencyRange;
  readonly lowHalf?: FrequencyRange;
  readonly highHalf?: FrequencyRange;
  readonly duplexSpacingHz?: number;
  readonly noiseFigureDb?: number;
  /** Highest received level the receiver works with. */
  readonly overloadDbm?: number;
  /** In the order of the catalogue. */
  readonly modes: readonly RadioMode[];
}

export interface Antenna {
  readonly name: string;
  readonly title?: string;
  readonly band?: FrequencyRange;
  readonly diameterM?: number;
  /** Gain points, ascending by frequency; between two points the gain is linear in log frequency. */
  readonly gain: readonly { readonly gainDbi: number; readonly frequencyHz?: number }[];
  readonly beamwidthDeg?: number;
  readonly frontToBackDb?: number;
  readonly crossPolarDiscriminationDb?: number;
  readonly polarizations?: "single" | "dual";
  /** Envelope: discrimination below boresight gain by angle, ascending. */
  readonly pattern: readonly {
    readonly angleDeg: number;
    readonly copolarDb: number;
    readonly crossPolarDb?: number;
  }[];
}

export type CouplerKind = "hybrid" | "omt" | "dual-polarized";

export interface Coupler {
  readonly name: string;
  readonly title?: string;
  readonly kind?: CouplerKind;
  readonly band?: FrequencyRange;
  /** Loss of the main arm (or of each arm, if equal). */
  readonly mainLossDb?: number;
  /** Loss of the standby arm; equal to the main arm's when not given. */
  readonly standbyLossDb?: number;
}

export interface Feeder {
  readonly name: string;
  readonly title?: string;
  readonly kind?: string;
  readonly band?: FrequencyRange;
  /** Loss per metre, points ascending by frequency; between two points linear in log-log. */
  readonly loss: readonly { readonly lossDbPerM: number; readonly frequencyHz?: number }[];
}

/** A quantity used in a computation together with the place it comes from. */
export type Origin = "hop" | "network" | "default" | "catalogue" | "terrain" | "standard" | "estimate";

export interface Climate {
  /** Rain rate exceeded for `rainTimePercent` of the average year, 1 min integration. */
  readonly rainRateMmPerH?: number;
  readonly rainTimePercent?: number;
  /** Letter of the superseded rain zones (PN.837-1). */
  readonly rainZone?: string;
  /** log10 K and dN75 of P.530-18 section 2.3.1. */
  readonly logK?: number;
  readonly dN75?: number;
  /** Refractivity gradient not exceeded for 1 % of the year (P.530-17), N/km. */
  readonly dN1?: number;
  /** Median effective Earth radius factor. */
  readonly kFactor?: number;
  readonly temperatureK?: number;
  /** Total barometric pressure at the path's mean height. */
  readonly pressureHPa?: number;
  readonly waterVapourDensityGm3?: number;
}

/** `fresnelFraction` of the first Fresnel zone must be free at effective Earth radius factor `kFactor`. */
export interface ClearanceCriterion {
  readonly fresnelFraction: number;
  readonly kFactor: number;
}

export interface Objective {
  readonly name: string;
  readonly title?: string;
  /** Both directions together, average year, 0..100. */
  readonly availabilityPercent?: number;
  /** Capacity that must hold at that availability. */
  readonly capacityBps?: number;
  readonly fadeMarginDb?: number;
  readonly clearance: readonly ClearanceCriterion[];
}

/** Something on the path that the terrain does not know. */
export interface Obstacle {
  readonly title?: string;
  /** Height above ground at its place. */
  readonly heightM: number;
  /** Distance along the path from the first end of the hop. */
  readonly distanceM: number;
}

/** A finding that the design accepts on purpose. */
export interface Acceptance {
  readonly rule: string;
  readonly reason?: string;
  /** ISO date; undefined: no end. */
  readonly until?: string;
}

export interface HopEnd {
  readonly site: Site;
  readonly antenna?: Antenna;
  /** Antenna centre above ground. */
  readonly antennaHeightM?: number;
  readonly coupler?: Coupler;
  readonly mounting?: "direct" | "separate";
  readonly feeder?: Feeder;
  readonly feederLengthM?: number;
  /** Half of the band in which this end transmits. */
  readonly transmits?: HalfOfBand;
  /** Centre frequency that this end transmits: stated, or of the channel and half. */
  readonly transmitFrequencyHz?: number;
  /** Transmit power stated for this end, in place of the mode's. */
  readonly transmitPowerDbm?: number;
  /** Further loss between radio and antenna. */
  readonly extraLossDb?: number;
}

export interface Channel {
  readonly plan: string;
  readonly bandwidthHz: number;
  readonly number: number;
  /** How far the plan's figures are confirmed, in the words of the plan table. */
  readonly status: string;
}

export interface Arrangement {
  /** Canonical words, for example `1+0` or `1+1 hot-standby`. */
  readonly name: string;
}

export interface Hop {
  readonly name: string;
  readonly title?: string;
  /** In the order of the text; a hop with fewer or more than two ends in the text is not evaluated. */
  readonly ends: readonly [HopEnd, HopEnd];
  readonly channel?: Channel;
  readonly polarization?: Polarization;
  readonly arrangement: Arrangement;
  readonly radio?: Radio;
  /** Modes in use, lowest rate first. One for a fixed mode, several for an adaptive range. */
  readonly modes: readonly RadioMode[];
  readonly climate: Climate;
  readonly objective?: Objective;
  readonly obstacles: readonly Obstacle[];
  /** File of a surveyed profile, relative to the design's folder; distances counted from the first end. */
  readonly surveyFile?: string;
  /** True when the survey's distances count from the second end. */
  readonly surveyReversed?: boolean;
  readonly accepts: readonly Acceptance[];
}

export interface Design {
  readonly title?: string;
  /** Folders and files of terrain, as written, relative to the file that names them (absolute after resolving by the host). */
  readonly terrain: readonly string[];
  readonly sites: ReadonlyMap<string, Site>;
  readonly hops: ReadonlyMap<string, Hop>;
}
