/** Inputs of a result: their names, values as they are written, and what there is to say of them. */
import type { InputBasis, InputCode, InputOf, InputUsed, ReadFrom } from "../evaluate/account/input.js";
import { bandwidth, decibels, frequency, kilometres, metres, outage, trimmed } from "../format/numbers.js";
import { HOURS_A_YEAR } from "../units/year.js";
import { type Message, message, shown } from "./message.js";

interface InputWords<T> {
  readonly name: (input: T) => string;
  readonly value: (input: T & InputBasis) => string;
  /** Said behind the origin, of those that were not read anywhere. */
  readonly note?: (input: T & InputBasis) => string | undefined;
}

type InputWordTable = { readonly [C in InputCode]: InputWords<InputOf<C>> };

const INPUT_WORDS: InputWordTable = {
  "path-length": {
    name: () => "path length",
    value: ({ lengthM }) => kilometres(lengthM, 1),
    note: () => "along the ground, between both positions",
  },
  "straight-distance": {
    name: () => "straight distance between the antennas",
    value: ({ lengthM }) => kilometres(lengthM, 1),
    note: () => "what free space and gases count",
  },
  ground: { name: ({ site }) => `ground at ${site}`, value: ({ heightM }) => metres(heightM) },
  "median-k": {
    name: () => "median k",
    value: ({ kFactor, origin }) => trimmed(kFactor, origin === "default" ? 2 : 3),
    note: ({ origin }) => (origin === "default" ? "standard refraction" : undefined),
  },
  "zone-frequency": {
    name: () => "frequency of the Fresnel zone",
    value: ({ frequencyHz }) => frequency(frequencyHz),
    note: () => "the lower of both directions",
  },
  "antenna-gain": {
    name: ({ antenna, ofPointsAtHz }) => `gain of ${antenna}${at(ofPointsAtHz)}`,
    value: ({ gainDbi, estimatedAtHz }) => `${gainDbi.toFixed(1)} dBi${at(estimatedAtHz)}`,
    note: ({ estimatedAtHz }) => (estimatedAtHz === undefined ? undefined : "estimated from the diameter"),
  },
  "guide-loss": {
    name: ({ site }) => `loss of the waveguide at ${site}`,
    value: ({ lossDb }) => decibels(lossDb),
    note: ({ lengthM, band }) =>
      `estimated: ${metres(lengthM)} of flexible guide with the greatest usual loss at ${band}, from memory, unconfirmed`,
  },
  pressure: {
    name: () => "pressure",
    value: ({ pressureHPa }) => `${trimmed(pressureHPa, 1)} hPa`,
    note: atHeight,
  },
  temperature: {
    name: () => "temperature",
    value: ({ temperatureK }) => `${trimmed(temperatureK - 273.15, 1)} degC`,
    note: atHeight,
  },
  "water-vapour": {
    name: () => "water vapour",
    value: ({ densityGm3 }) => `${trimmed(densityGm3, 2)} g/m3`,
    note: atHeight,
  },
  "rain-rate": {
    name: () => "rain rate at 0.01 %",
    value: ({ rateMmPerH }) => `${trimmed(rateMmPerH, 1)} mm/h`,
    note: ({ zone }) => (zone === undefined ? undefined : `rain zone ${zone}, superseded`),
  },
  "measured-rain": {
    name: () => "rain attenuation measured at 0.01 %",
    value: ({ attenuationDb, frequencyHz }) => `${decibels(attenuationDb)} at ${frequency(frequencyHz)}`,
  },
  polarization: {
    name: () => "polarization",
    value: ({ polarization }) => polarization,
    note: ({ both }) => (both ? "both polarizations are on the air; judged for the worse" : undefined),
  },
  "rain-height": { name: () => "rain height", value: ({ heightM }) => metres(heightM) },
  "rain-probability": { name: () => "probability of rain", value: ({ timePercent }) => outage(timePercent) },
  "log-k": { name: () => "logK", value: ({ logK }) => trimmed(logK, 3) },
  dn75: { name: () => "dN75", value: ({ dN75 }) => `${trimmed(dN75, 2)} N-units` },
  dn1: {
    name: () => "dN1",
    value: ({ dN1 }) => `${trimmed(dN1, 1)} N/km`,
    note: ({ standing }) =>
      standing === "assumed" ? "assumed for early planning, of no particular place" : undefined,
  },
  "mean-terrain": { name: () => "mean terrain", value: ({ heightM }) => metres(heightM) },
  "terrain-roughness": { name: () => "terrain roughness", value: ({ roughnessM }) => metres(roughnessM) },
  signature: {
    name: ({ modulation }) => `signature of ${modulation}`,
    value: ({ widthHz, depthDb, referenceDelayNs }) =>
      `${bandwidth(widthHz)} wide, ${decibels(depthDb)} deep at ${referenceDelayNs} ns`,
  },
  "dispersive-margin": {
    name: ({ modulation }) => `dispersive margin of ${modulation}`,
    value: ({ marginDb }) => decibels(marginDb),
  },
  "channel-distance": {
    name: () => "distance of the two channels",
    value: ({ separationHz }) => frequency(separationHz),
  },
  "diversity-spacing": {
    name: ({ site }) => `spacing of the diversity antennas at ${site}`,
    value: ({ spacingM }) => metres(spacingM),
  },
  "antenna-discrimination": {
    name: () => "cross-polar discrimination of the antennas",
    value: ({ discriminationDb }) => decibels(discriminationDb),
  },
  "canceller-gain": {
    name: () => "gain of the cross-polar canceller",
    value: ({ gainDb }) => decibels(gainDb),
    note: ({ origin }) => (origin === "default" ? "state `xpic-gain` in the radio" : undefined),
  },
  "required-ratio": {
    name: ({ modulation }) => `carrier to interference that ${modulation} needs`,
    value: ({ ratioDb }) => `${trimmed(ratioDb, 1)} dB`,
    note: ({ from }) => (from === "snr" ? "its SNR" : "threshold over thermal noise"),
  },
  mtbf: {
    name: () => "MTBF of a unit",
    value: ({ mtbfHours }) => `${trimmed(mtbfHours / HOURS_A_YEAR, 1)} years`,
  },
  "repair-time": { name: () => "repair time", value: ({ repairHours }) => `${trimmed(repairHours, 1)} h` },
  "national-share": {
    name: () => "share of the national portion",
    value: ({ sharePercent }) => `${sharePercent} %`,
    note: () => "7.5 to 8.5 % in use",
  },
  "cable-length": {
    name: ({ site, cable }) => `length of ${cable} at ${site}`,
    value: ({ lengthM }) => metres(lengthM),
    note: ({ standing }) =>
      standing === "estimated"
        ? "estimated: up to the highest antenna and the run to the rack, a tenth and 4 m more, by common practice"
        : undefined,
  },
  "cable-loss": {
    name: ({ cable, frequencyHz }) => `loss of ${cable}${at(frequencyHz)}`,
    value: ({ lossDbPerM }) => `${trimmed(100 * lossDbPerM, 2)} dB/100m`,
  },
  "if-limit": {
    name: ({ radio, frequencyHz }) => `most that ${radio} equalizes${at(frequencyHz)}`,
    value: ({ lossDb }) => `${trimmed(lossDb, 2)} dB`,
  },
  "loop-resistance": {
    name: ({ cable }) => `loop resistance of ${cable}`,
    value: ({ ohmPerM }) => `${trimmed(1000 * ohmPerM, 3)} ohm/km`,
  },
  "service-voltage": {
    name: () => "lowest voltage of normal service",
    value: ({ voltageV }) => `${trimmed(voltageV, 1)} V`,
    note: () => "ETSI EN 300 132-2, from memory, unconfirmed",
  },
  "least-supply": {
    name: ({ radio }) => `voltage at which ${radio} starts`,
    value: ({ voltageV }) => `${trimmed(voltageV, 1)} V`,
  },
  "rssi-point": {
    name: ({ radio, levelDbm }) => `test voltage of ${radio} at ${trimmed(levelDbm, 1)} dBm`,
    value: ({ voltageV }) => `${trimmed(voltageV, 3)} V`,
  },
  consumption: {
    name: ({ part }) => `greatest consumption of ${part}`,
    value: ({ drawsW }) => `${trimmed(drawsW, 1)} W`,
  },
  "plant-power": {
    name: ({ site }) => `plant at ${site}`,
    value: ({ powerW }) => `${trimmed(powerW, 1)} W`,
  },
  "chassis-supply": {
    name: ({ chassis }) => `supply of ${chassis}`,
    value: ({ powerW }) => `${trimmed(powerW, 1)} W`,
  },
  "heat-limit": {
    name: ({ chassis }) => `heat that the fan of ${chassis} carries away`,
    value: ({ powerW }) => `${trimmed(powerW, 1)} W`,
  },
  "air-warming": {
    name: () => "warming of the cooling air",
    value: ({ riseK }) => `${trimmed(riseK, 1)} K`,
    note: () => "common practice",
  },
  battery: {
    name: () => "battery",
    value: ({ capacityAh, nominalV }) => `${trimmed(capacityAh, 1)} Ah at ${trimmed(nominalV, 1)} V`,
  },
  "depth-of-discharge": {
    name: () => "depth of discharge, DoD",
    value: ({ share }) => `${trimmed(100 * share, 1)} %`,
    note: commonPractice,
  },
  "end-of-life": {
    name: () => "capacity left at the end of its life, k",
    value: ({ share }) => `${trimmed(100 * share, 1)} %`,
    note: commonPractice,
  },
  autonomy: { name: () => "autonomy asked", value: ({ hours }) => `${trimmed(hours, 1)} h` },
  "basic-wind": {
    name: () => "basic wind, 10-minute mean at 10 m",
    value: ({ speedMPerS, terrainClass }) =>
      `${trimmed(speedMPerS, 1)} m/s over terrain class ${terrainClass}`,
    note: () => "roughness of the terrain classes from memory, unconfirmed",
  },
  drag: {
    name: ({ part }) => `drag coefficient of ${part}, C`,
    value: ({ coefficient }) => trimmed(coefficient, 2),
    note: ({ origin }) => (origin === "default" ? "common practice, from memory" : undefined),
  },
  "wind-limit": {
    name: () => "wind force that the structure takes",
    value: ({ forceN }) => `${trimmed(forceN / 1000, 3)} kN`,
  },
  "weight-limit": {
    name: () => "weight that the structure takes",
    value: ({ massKg }) => `${trimmed(massKg, 1)} kg`,
  },
};

function commonPractice({ origin }: InputBasis): string | undefined {
  return origin === "default" ? "common practice, lead-acid" : undefined;
}

function at(frequencyHz: number | undefined): string {
  return frequencyHz === undefined ? "" : ` at ${frequency(frequencyHz)}`;
}

function atHeight({ atHeightM }: { readonly atHeightM?: number }): string | undefined {
  return atHeightM === undefined ? undefined : `at ${metres(atHeightM)}`;
}

const READ: { readonly [C in ReadFrom["code"]]: (from: Extract<ReadFrom, { readonly code: C }>) => string } =
  {
    map: ({ file, date, recommendation }) => `${file} of ${date}, ${recommendation}`,
    "heights-around": ({ heights }) => `standard deviation of ${heights} heights in 110 km by 110 km`,
  };

/** An input as it is shown. */
export interface InputShown {
  readonly name: Message;
  readonly value: Message;
  readonly origin: Message;
  readonly note?: Message;
}

export function inputShown(input: InputUsed): InputShown {
  const { origin, readFrom } = input;
  const { name, value, note } = INPUT_WORDS[input.code] as InputWords<InputUsed>;
  const said =
    readFrom === undefined ? note?.(input) : (READ[readFrom.code] as (from: ReadFrom) => string)(readFrom);
  return {
    name: message(name(input)),
    value: message(value(input)),
    origin: message(origin),
    ...(said !== undefined && { note: message(said) }),
  };
}

/** For example `path length 25.3 km (design, along the ground, between both positions)`. */
export function inputLine(input: InputUsed, between = " "): Message {
  const { name, value, origin, note } = inputShown(input);
  const behind = note === undefined ? "" : `, ${shown(note)}`;
  return message(`${shown(name)}${between}${shown(value)} (${shown(origin)}${behind})`);
}
