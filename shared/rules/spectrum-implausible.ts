import { address } from "../design/address.js";
import type { RadioMode } from "../design/catalogue.js";
import type { CarrierToInterference, SpectrumPoint } from "../design/interference.js";
import { bandwidth, dbm, decibels, frequency } from "../format/numbers.js";
import { interferenceToNoiseDb } from "../radio/degradation.js";
import { aboutEntries } from "./entry-rule.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";

export const spectrumImplausible = gathering({
  scope: "network",
  id: "spectrum-implausible",
  severity: "warning",
  title: "Masks and C/I are such as equipment can have",
  checks:
    "The points of masks and selectivities of radios in use: in the order of their offsets in the text, never rising again with the offset, at most two of one offset, no more than 6 dB down within a quarter of the channel from its centre, where the signal itself is, and nowhere more than 120 dB: a transmitter's own noise lies above that, as 1 W in 10 MHz is 134 dB over thermal noise, and no filter is measured further. Of C/I tables: one row an offset, the figure for 1 dB not below the one for 3 dB, no more C/I further out, at most 70 dB, within a quarter of the channel at least 5.9 dB for 1 dB, which is what an interferer 5.9 dB below the noise comes to where the signal is no weaker than the noise, and no interferer above 0 dBm at the threshold, where a receiver has long been overloaded.",
  why: "A figure in the wrong column or line moves interference by tens of decibels without a sign.",
  fix: "Hold the lines against the data sheet.",
  source:
    "data of the equipment; the limits are common practice, no source, but for 5.9 dB, which is I/N = 10 log(10^(1/10) - 1)",
  good: exampleHop(),
  bad: `radio R18X like R18 {\n  spectrum {\n    mask 30 MHz 40 dB\n    mask 60 MHz 20 dB\n  }\n}\n\n${exampleHop(
    {
      hop: "polarization vertical\n  radio R18X\n  mode 55 MHz 128QAM",
    },
  )}`,
  ...aboutEntries(
    ({ radio }) => (radio === undefined ? [] : [radio]),
    ({ name, modes }) => {
      // A block for all modes is told once.
      const told = new Map<string, RadioMode>();
      for (const mode of modes)
        for (const fault of faultsOf(mode)) if (!told.has(fault)) told.set(fault, mode);
      return [...told].map(([fault, { bandwidthHz, modulation }]) => ({
        at: address("radio", name, "spectrum"),
        message: `${name} at ${bandwidth(bandwidthHz)} ${modulation}: ${fault}`,
      }));
    },
  ),
});

function faultsOf(mode: RadioMode): readonly string[] {
  const { spectrum, bandwidthHz } = mode;
  if (spectrum === undefined) return [];
  const ratios = spectrum.carrierToInterference ?? [];
  const exchanged = ratios.find(({ for1Db, for3Db }) => for1Db < for3Db);
  const doubled = ratios.find(({ offsetHz }, i) => i > 0 && offsetHz === ratios[i - 1]!.offsetHz);
  return [
    ...(spectrum.outOfOrder ? ["the offsets of its spectrum do not ascend in the text"] : []),
    ...pointFaults("mask", spectrum.transmitMask ?? [], bandwidthHz),
    ...pointFaults("selectivity", spectrum.selectivity ?? [], bandwidthHz),
    ...(exchanged
      ? [
          `C/I at ${frequency(exchanged.offsetHz)} is ${decibels(exchanged.for1Db)} for 1 dB of degradation and ${decibels(exchanged.for3Db)} for 3 dB: are they exchanged?`,
        ]
      : []),
    ...ratioFaults(mode, ratios),
    ...(doubled ? [`C/I at ${frequency(doubled.offsetHz)} is stated twice`] : []),
  ];
}

/** Within this share of the channel the signal itself lies, whatever its roll-off. */
const INSIDE = 1 / 4;
/** Most that a mask may be down there. */
const MOST_INSIDE_DB = 6;
const MOST_DB = 120;
const MOST_RATIO_DB = 70;
/** Of 1 dB of degradation, from a signal no weaker than the noise. */
const LEAST_OWN_RATIO_DB = -interferenceToNoiseDb(1)!;
/** Stronger at its input no receiver works. */
const MOST_INPUT_DBM = 0;
/** Of a mode that states none. */
const USUAL_THRESHOLD_DBM = -90;

function ratioFaults(mode: RadioMode, ratios: readonly CarrierToInterference[]): readonly string[] {
  const told = ({ offsetHz, for1Db }: CarrierToInterference) =>
    `C/I at ${frequency(offsetHz)} is ${decibels(for1Db)} for 1 dB of degradation`;
  const rising = ratios.find(({ offsetHz, for1Db }, i) => {
    const before = ratios[i - 1];
    return before !== undefined && offsetHz > before.offsetHz && for1Db > before.for1Db;
  });
  const great = ratios.find(({ for1Db, for3Db }) => Math.max(for1Db, for3Db) > MOST_RATIO_DB);
  const little = ratios.find(
    ({ offsetHz, for1Db }) => offsetHz <= INSIDE * mode.bandwidthHz && for1Db < LEAST_OWN_RATIO_DB,
  );
  const { thresholdDbm = USUAL_THRESHOLD_DBM } = mode;
  const loud = ratios.find(({ for1Db, for3Db }) => thresholdDbm - Math.min(for1Db, for3Db) > MOST_INPUT_DBM);
  return [
    ...(rising ? [`${told(rising)}, more than nearer to the centre`] : []),
    ...(great ? [`${told(great)}, and more than ${decibels(MOST_RATIO_DB)} is asked by no mode`] : []),
    ...(little
      ? [
          `${told(little)}, in the channel itself: less than ${decibels(LEAST_OWN_RATIO_DB)} would be a signal below the noise`,
        ]
      : []),
    ...(loud && loud !== little
      ? [
          `${told(loud)}, which at the threshold would be an interferer above ${dbm(MOST_INPUT_DBM)} at the receiver`,
        ]
      : []),
  ];
}

function pointFaults(of: string, points: readonly SpectrumPoint[], bandwidthHz: number): readonly string[] {
  const inside = points.find(
    ({ offsetHz, attenuationDb }) => offsetHz <= INSIDE * bandwidthHz && attenuationDb > MOST_INSIDE_DB,
  );
  const deep = points.find(({ attenuationDb }) => attenuationDb > MOST_DB);
  const rising = points.findIndex(
    ({ attenuationDb }, i) => i > 0 && attenuationDb < points[i - 1]!.attenuationDb,
  );
  const third = points.find(({ offsetHz }, i) => i > 1 && offsetHz === points[i - 2]!.offsetHz);
  const before = points[rising - 1];
  return [
    ...(before
      ? [
          `its ${of} is ${decibels(before.attenuationDb)} down at ${frequency(before.offsetHz)} and only ${decibels(points[rising]!.attenuationDb)} at ${frequency(points[rising]!.offsetHz)}`,
        ]
      : []),
    ...(inside
      ? [
          `its ${of} is ${decibels(inside.attenuationDb)} down ${frequency(inside.offsetHz)} from the centre, where the signal itself is`,
        ]
      : []),
    ...(deep && deep !== inside
      ? [
          `its ${of} is ${decibels(deep.attenuationDb)} down at ${frequency(deep.offsetHz)}, and more than ${decibels(MOST_DB)} is not measured`,
        ]
      : []),
    ...(third ? [`its ${of} has more than two points at ${frequency(third.offsetHz)}`] : []),
  ];
}
