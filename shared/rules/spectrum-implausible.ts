import { address } from "../design/address.js";
import type { RadioMode } from "../design/catalogue.js";
import type { ModeSpectrum, SpectrumPoint } from "../design/interference.js";
import { bandwidth, decibels, frequency } from "../format/numbers.js";
import { aboutEntries } from "./entry-rule.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";

export const spectrumImplausible = gathering({
  scope: "network",
  id: "spectrum-implausible",
  severity: "warning",
  title: "Masks fall outwards, and 1 dB of degradation takes more C/I than 3 dB",
  checks:
    "The points of masks and selectivities of radios in use: in the order of their offsets in the text, never rising again with the offset, at most two of one offset. Of C/I tables: one row an offset, and the figure for 1 dB not below the one for 3 dB.",
  why: "A figure in the wrong column or line moves interference by tens of decibels without a sign.",
  fix: "Hold the lines against the data sheet.",
  source: "data of the equipment; the form of such tables is common practice",
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
        for (const fault of faultsOf(mode.spectrum)) if (!told.has(fault)) told.set(fault, mode);
      return [...told].map(([fault, { bandwidthHz, modulation }]) => ({
        at: address("radio", name, "spectrum"),
        message: `${name} at ${bandwidth(bandwidthHz)} ${modulation}: ${fault}`,
      }));
    },
  ),
});

function faultsOf(spectrum: ModeSpectrum | undefined): readonly string[] {
  if (spectrum === undefined) return [];
  const ratios = spectrum.carrierToInterference ?? [];
  const exchanged = ratios.find(({ for1Db, for3Db }) => for1Db < for3Db);
  const doubled = ratios.find(({ offsetHz }, i) => i > 0 && offsetHz === ratios[i - 1]!.offsetHz);
  return [
    ...(spectrum.outOfOrder ? ["the offsets of its spectrum do not ascend in the text"] : []),
    ...pointFaults("mask", spectrum.transmitMask ?? []),
    ...pointFaults("selectivity", spectrum.selectivity ?? []),
    ...(exchanged
      ? [
          `C/I at ${frequency(exchanged.offsetHz)} is ${decibels(exchanged.for1Db)} for 1 dB of degradation and ${decibels(exchanged.for3Db)} for 3 dB: are they exchanged?`,
        ]
      : []),
    ...(doubled ? [`C/I at ${frequency(doubled.offsetHz)} is stated twice`] : []),
  ];
}

function pointFaults(of: string, points: readonly SpectrumPoint[]): readonly string[] {
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
    ...(third ? [`its ${of} has more than two points at ${frequency(third.offsetHz)}`] : []),
  ];
}
