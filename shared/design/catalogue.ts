/** What the catalogue says of the parts of a hop: radios with their modes, antennas, couplers, feeders. */
import type { AntennaMount, LineFacts, UnitFacts } from "./equipment.js";
import type { FrequencyRange } from "./frequency-range.js";
import type { ModeSpectrum } from "./interference.js";

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
  /** Notches of a two-ray channel that bring the mode down, from the radio's `signature`. */
  readonly signature?: ModeSignature;
  /** Dispersive fade margin, in place of a signature. */
  readonly dispersiveMarginDb?: number;
  /** Unless nothing of it is stated. */
  readonly spectrum?: ModeSpectrum;
}

/** Signature of a receiver, equal for minimum and non-minimum phase. */
interface ModeSignature {
  readonly widthHz: number;
  readonly depthDb: number;
  /** Delay of the two-ray channel it was measured with. */
  readonly referenceDelayNs: number;
}

export interface Radio {
  readonly name: string;
  readonly title?: string;
  readonly orderCode?: string;
  readonly tuning?: FrequencyRange;
  readonly lowHalf?: FrequencyRange;
  readonly highHalf?: FrequencyRange;
  readonly duplexSpacingHz?: number;
  readonly noiseFigureDb?: number;
  /** Highest received level the receiver works with. */
  readonly overloadDbm?: number;
  /** What the canceller of cross-polar interference gains (XPIF). */
  readonly xpicGainDb?: number;
  /** By how much the level must exceed a mode's threshold before an adaptive radio returns to it. */
  readonly hysteresisDb?: number;
  /** Range of automatic transmit power control. */
  readonly powerControlRangeDb?: number;
  /** Mean time between failures of one unit, all that fails with it included. */
  readonly mtbfHours?: number;
  /** Interruption when a standby takes over. */
  readonly switchOverHours?: number;
  /** In the order of the catalogue. */
  readonly modes: readonly RadioMode[];
  /** The unit as a part: construction, port, sub-bands, consumption. */
  readonly unit?: UnitFacts;
  /** Modes named by a signature, dispersive margin or spectrum that the radio does not have, as written. */
  readonly unknownModes?: readonly string[];
}

export interface Antenna {
  readonly name: string;
  readonly title?: string;
  readonly orderCode?: string;
  readonly band?: FrequencyRange;
  readonly diameterM?: number;
  /** Gain points, ascending by frequency; between two points the gain is linear in log frequency. */
  readonly gain: readonly { readonly gainDbi: number; readonly frequencyHz?: number }[];
  readonly beamwidthDeg?: number;
  readonly frontToBackDb?: number;
  readonly crossPolarDiscriminationDb?: number;
  readonly polarizations?: "single" | "dual";
  readonly mount?: AntennaMount;
  /** Envelope: discrimination below boresight gain by angle, ascending. */
  readonly pattern: readonly {
    readonly angleDeg: number;
    readonly copolarDb: number;
    readonly crossPolarDb?: number;
  }[];
  /** The points do not ascend in the text. */
  readonly patternOutOfOrder?: true;
  /** File of a pattern, absolute; used where no points are stated. */
  readonly patternFile?: string;
  /** Reference pattern that the design chooses for it; used where neither points nor a file are stated. */
  readonly referencePattern?: "F.699";
}

/** `splitter`: transmit relay and receive splitter of an all-indoor hot standby. */
export type CouplerKind = "hybrid" | "omt" | "dual-polarized" | "splitter";

export interface Coupler {
  readonly name: string;
  readonly title?: string;
  readonly orderCode?: string;
  readonly kind?: CouplerKind;
  readonly band?: FrequencyRange;
  /** Loss of the main arm (or of each arm, if equal). */
  readonly mainLossDb?: number;
  /** Loss of the standby arm; equal to the main arm's when not given. */
  readonly standbyLossDb?: number;
  /** Of the arms of the second polarization; undefined: as of the first. */
  readonly secondMainLossDb?: number;
  readonly secondStandbyLossDb?: number;
  /** Loss outwards where it differs from the loss inwards. */
  readonly transmitLossDb?: number;
  /** Between the ports of its units. */
  readonly isolationDb?: number;
  readonly interface?: string;
  readonly weightKg?: number;
}

export interface Feeder {
  readonly name: string;
  readonly title?: string;
  readonly orderCode?: string;
  readonly kind?: string;
  readonly band?: FrequencyRange;
  readonly interface?: string;
  /** Size of a rectangular guide, by any of its names. */
  readonly guide?: string;
  readonly line?: LineFacts;
  /** Loss per metre, points ascending by frequency; between two points linear in log-log. */
  readonly loss: readonly { readonly lossDbPerM: number; readonly frequencyHz?: number }[];
}
