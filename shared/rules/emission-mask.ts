import { address } from "../design/address.js";
import type { RadioMode } from "../design/catalogue.js";
import { bandwidth, decibels, frequency } from "../format/numbers.js";
import { spectrumOf } from "../interference/stations.js";
import { symbolRateHz } from "../radio/threshold.js";
import { piecesOf } from "../spectrum/filter-shape.js";
import { usEmissionMaskDb, usMeasuredInHz } from "../spectrum/us-emission-mask.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";

const radio = (edge: number) =>
  `interference {\n  emission-mask 47-CFR-101.111\n}\n\nradio R18X like R18 {\n  spectrum {\n    mask 25 MHz 0 dB\n    mask 27.5 MHz ${edge} dB\n    mask 60 MHz 45 dB\n    mask 137.5 MHz 60 dB\n  }\n}\n\n${exampleHop(
    { hop: "polarization vertical\n  radio R18X\n  mode 55 MHz 128QAM" },
  )}`;

export const emissionMask: NetworkRule = {
  scope: "network",
  id: "emission-mask",
  severity: "error",
  title: "Masks of radios meet the emission mask that the network states",
  checks:
    "The stated `mask` of each radio and mode in use against the emission mask of the network, from the edge of the channel to 250 % of its width. The law counts the power in 4 kHz (below 15 GHz) or 1 MHz against the mean power, a catalogue the density against that at the centre: the mean power is taken as spread over the symbol rate, channel width / 1.15. A radio without a mask is not judged.",
  why: "A radio that does not meet the mask may not be licensed there, whatever it does to others.",
  fix: "Hold the mask of the catalogue against the data sheet, or take a radio or a wider channel that meets it.",
  source: "47 CFR 101.111(a)(2), as it was read; the conversion is ours",
  good: radio(20),
  bad: radio(2),
  check({ design, report }) {
    if (design.interference?.emissionMask === undefined) return;
    const told = new Set<string>();
    for (const { radio: used, modes, channel, ends } of design.hops.values()) {
      const frequencyHz = ends[0].transmitFrequencyHz;
      if (used === undefined || frequencyHz === undefined) continue;
      for (const mode of modes) {
        const key = `${used.name} ${mode.bandwidthHz} ${mode.modulation}`;
        const fault = told.has(key) ? undefined : faultOf(mode, frequencyHz, channel?.bandwidthHz);
        if (fault === undefined) continue;
        told.add(key);
        report({
          at: address("radio", used.name, "spectrum"),
          about: key,
          message: `${used.name} at ${bandwidth(mode.bandwidthHz)} ${mode.modulation}: ${fault}`,
        });
      }
    }
  },
};

/** Steps of the channel's width in percent. */
const STEP_PERCENT = 0.5;

function faultOf(mode: RadioMode, frequencyHz: number, channelHz = mode.bandwidthHz): string | undefined {
  const shape = spectrumOf(mode, "transmitMask");
  if (shape.kind !== "points") return undefined;
  const { density } = piecesOf(shape, "held");
  const spreadDb = 10 * Math.log10(symbolRateHz(mode.bandwidthHz) / usMeasuredInHz(frequencyHz));
  let worst: { readonly offsetHz: number; readonly isDb: number; readonly leastDb: number } | undefined;
  for (let percent = 50 + STEP_PERCENT; percent <= 250; percent += STEP_PERCENT) {
    const offsetHz = (percent / 100) * channelHz;
    const leastDb = usEmissionMaskDb(frequencyHz, channelHz, offsetHz);
    const isDb = spreadDb - 10 * Math.log10(density(offsetHz));
    if (leastDb === undefined || isDb >= leastDb - ROUNDING_DB) continue;
    if (worst === undefined || leastDb - isDb > worst.leastDb - worst.isDb)
      worst = { offsetHz, isDb, leastDb };
  }
  return (
    worst &&
    `its mask is ${decibels(worst.isDb)} below the mean power at ${frequency(worst.offsetHz)}, 47 CFR 101.111 asks ${decibels(worst.leastDb)}`
  );
}

/** To a hundredth, as it is written. */
const ROUNDING_DB = 0.005;
