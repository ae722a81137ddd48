/** What a column of a list of others' transmissions can hold: a row a key. */
import type { OthersKey } from "../design/interference.js";
import type { Dimension } from "../units/units.js";

export interface OthersField {
  /** What it is called in messages. */
  readonly called: string;
  /** A figure: its dimension, the unit where neither the statement nor the head names one, and what is possible, in the base unit. */
  readonly figure?: {
    readonly dimension: Dimension;
    readonly usual: string;
    readonly least: number;
    readonly most: number;
  };
  /** It may be parted into columns for minutes, seconds and hemisphere. */
  readonly angle?: true;
  readonly meaning: string;
}

const FREQUENCY = { dimension: "frequency", usual: "MHz", least: 1e8, most: 1.2e11 } as const;
const HEIGHT = { dimension: "length", usual: "m", least: -500, most: 10_000 } as const;
const ABOVE_GROUND = { dimension: "length", usual: "m", least: 0, most: 1_000 } as const;
const GAIN = { dimension: "gain", usual: "dBi", least: -10, most: 70 } as const;
const DIAMETER = { dimension: "length", usual: "m", least: 0.05, most: 20 } as const;
const LOSS = { dimension: "ratio", usual: "dB", least: 0, most: 60 } as const;

export const OTHERS_FIELDS: Readonly<Record<OthersKey, OthersField>> = {
  name: { called: "name", meaning: "What the transmission is called where it is told: a licence, a number." },
  latitude: {
    called: "latitude",
    angle: true,
    meaning: "Of the transmitter: decimal degrees, or degrees, minutes and seconds in any usual spelling.",
  },
  longitude: { called: "longitude", angle: true, meaning: "Of the transmitter, as the latitude." },
  position: { called: "position", meaning: "Latitude and longitude of the transmitter in one cell." },
  easting: { called: "easting", meaning: "Of the transmitter, in the system that `epsg` names." },
  northing: { called: "northing", meaning: "Of the transmitter, in the system that `epsg` names." },
  ground: { called: "ground level", figure: HEIGHT, meaning: "Above sea level at the transmitter." },
  "antenna-height": {
    called: "height of the antenna",
    figure: ABOVE_GROUND,
    meaning: "Centre above ground at the transmitter.",
  },
  "antenna-gain": { called: "gain of the antenna", figure: GAIN, meaning: "Of the transmitter's antenna." },
  "antenna-diameter": {
    called: "diameter of the antenna",
    figure: DIAMETER,
    meaning: "Of the transmitter's antenna; its gain is estimated from it where none is stated.",
  },
  "feeder-loss": {
    called: "feeder loss",
    figure: LOSS,
    meaning: "Between transmitter and antenna; not of an EIRP.",
  },
  azimuth: {
    called: "azimuth",
    figure: { dimension: "angle", usual: "deg", least: -360, most: 360 },
    meaning: "Of the transmitter's antenna from true north; the receiver's place counts before it.",
  },
  elevation: {
    called: "elevation",
    figure: { dimension: "angle", usual: "deg", least: -90, most: 90 },
    meaning: "Of the transmitter's antenna above the horizon.",
  },
  frequency: { called: "frequency", figure: FREQUENCY, meaning: "Centre of the transmission." },
  emission: {
    called: "emission designator",
    meaning: "The bandwidth stands in it; of several parted by a bar, a comma or a blank all are read.",
  },
  bandwidth: {
    called: "bandwidth",
    figure: { dimension: "frequency", usual: "MHz", least: 1, most: 1e10 },
    meaning: "Where there is no emission designator.",
  },
  polarization: {
    called: "polarization",
    meaning: "V, H and their words; what else stands there counts as not known.",
  },
  eirp: {
    called: "EIRP",
    figure: { dimension: "power level", usual: "dBm", least: -60, most: 120 },
    meaning: "In the direction of the antenna; counts before power, gain and feeder loss.",
  },
  power: {
    called: "power",
    figure: { dimension: "power level", usual: "dBm", least: -60, most: 80 },
    meaning: "Of the transmitter; needs a gain, or a diameter.",
  },
  "receiver-latitude": { called: "latitude of the receiver", angle: true, meaning: "Where it is received." },
  "receiver-longitude": {
    called: "longitude of the receiver",
    angle: true,
    meaning: "Where it is received.",
  },
  "receiver-position": {
    called: "position of the receiver",
    meaning: "Latitude and longitude of the receiver in one cell.",
  },
  "receiver-easting": { called: "easting of the receiver", meaning: "In the system that `epsg` names." },
  "receiver-northing": { called: "northing of the receiver", meaning: "In the system that `epsg` names." },
  "receiver-ground": {
    called: "ground level of the receiver",
    figure: HEIGHT,
    meaning: "Above sea level at the receiver.",
  },
  "receiver-antenna-height": {
    called: "height of the receiver's antenna",
    figure: ABOVE_GROUND,
    meaning: "Centre above ground at the receiver.",
  },
  "receiver-antenna-gain": {
    called: "gain of the receiver's antenna",
    figure: GAIN,
    meaning: "Of the receiver's antenna.",
  },
  "receiver-antenna-diameter": {
    called: "diameter of the receiver's antenna",
    figure: DIAMETER,
    meaning: "Of the receiver's antenna; its gain is estimated from it where none is stated.",
  },
  "receiver-feeder-loss": {
    called: "feeder loss of the receiver",
    figure: LOSS,
    meaning: "Between antenna and receiver.",
  },
  "receiver-noise-figure": {
    called: "noise figure of the receiver",
    figure: { dimension: "ratio", usual: "dB", least: 0, most: 30 },
    meaning: "Where it is not stated, `assumed-noise-figure` counts.",
  },
  "valid-from": { called: "first day", meaning: "First day of the transmission, year-month-day." },
  "valid-until": { called: "last day", meaning: "Last day of the transmission, year-month-day." },
  status: {
    called: "state",
    meaning: "Whether the transmission counts, with `stands` for the word that says so.",
  },
};

export const OTHERS_KEYS = Object.keys(OTHERS_FIELDS) as readonly OthersKey[];
