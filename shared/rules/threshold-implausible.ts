import { address, nth } from "../design/address.js";
import type { Radio, RadioMode } from "../design/catalogue.js";
import { apart, dbm, decibels } from "../format/numbers.js";
import {
  leastThresholdDbm,
  modeThreshold,
  noisePowerDbm,
  shannonSnrDb,
  symbolRateHz,
} from "../radio/threshold.js";
import { aboutEntries } from "./entry-rule.js";
import { exampleHop } from "./example-preamble.js";
import { gathering, type Report } from "./rule.js";

/** Real modes lie some 3 to 8 dB above the limit; so far above, a figure is probably of another mode. */
const SUSPICIOUS_DB = 12;

export const thresholdImplausible = gathering({
  scope: "network",
  id: "threshold-implausible",
  severity: "error",
  title: "A threshold cannot lie below the limit of information theory",
  checks:
    "Threshold of each mode of the radios in use against thermal noise plus noise figure (0 dB where none is stated) plus the SNR that Shannon asks: for the stated rate in the whole width, and, with a rate or without, for half of the modulation's bits a symbol in two thirds of the width. 12 dB above the limit of its rate is a warning.",
  why: "A threshold of another mode or bandwidth in the catalogue makes every margin wrong by as much.",
  fix: "Look the threshold, the rate and the bandwidth up again.",
  source:
    "Shannon's channel capacity; that no code spends more than half of the bits and no filter more than a third of the width: common practice, from memory, unconfirmed; the 12 dB are our own limit",
  good: exampleHop(),
  bad: `radio R18X like R18 {\n  mode 55 MHz 256QAM rate 360 Mbit/s power 18 dBm threshold -86 dBm\n}\n\n${exampleHop(
    {
      hop: "polarization vertical\n  radio R18X\n  mode 55 MHz 256QAM",
    },
  )}`,
  ...aboutEntries(
    ({ radio }) => (radio === undefined ? [] : [radio]),
    (radio) =>
      radio.modes.flatMap((mode, index) => {
        const told = implausible(radio, mode);
        return told === undefined ? [] : { at: address("radio", radio.name, nth("mode", index)), ...told };
      }),
  ),
});

function implausible(radio: Radio, mode: RadioMode): Pick<Report, "message" | "severity"> | undefined {
  const { thresholdDbm } = modeThreshold(mode, radio.noiseFigureDb) ?? {};
  const { bitRateBps = 0, bandwidthHz, modulation } = mode;
  if (thresholdDbm === undefined || !(bandwidthHz > 0)) return undefined;
  // No receiver is without noise: the most lenient limits.
  const noiseFigureDb = radio.noiseFigureDb ?? 0;
  const ofModulationDbm = leastThresholdDbm(modulation, bandwidthHz, noiseFigureDb);
  // No symbol rate exceeds the channel.
  const ofRateDbm =
    bitRateBps > 0
      ? noisePowerDbm(bandwidthHz, noiseFigureDb) + shannonSnrDb(bitRateBps, bandwidthHz)
      : Number.NEGATIVE_INFINITY;
  const limitDbm = Math.max(ofModulationDbm, ofRateDbm);
  if (thresholdDbm < limitDbm) {
    const [stated, limit] = apart(dbm, thresholdDbm, limitDbm);
    const known = ofRateDbm >= ofModulationDbm ? "rate" : "modulation, width";
    const noise = radio.noiseFigureDb === undefined ? "with no noise of the receiver" : "noise figure";
    return {
      // What Shannon's limit of the rate excludes nobody can agree on; that of the modulation rests on practice.
      severity: thresholdDbm < ofRateDbm ? "error" : undefined,
      message: `threshold ${stated} of ${modulation} is impossible; at this ${known} and ${noise} nothing works below ${limit}`,
    };
  }
  if (radio.noiseFigureDb === undefined || !(bitRateBps > 0)) return undefined;
  const symbolRate = symbolRateHz(bandwidthHz);
  const usualDbm = noisePowerDbm(symbolRate, radio.noiseFigureDb) + shannonSnrDb(bitRateBps, symbolRate);
  if (thresholdDbm <= usualDbm + SUSPICIOUS_DB) return undefined;
  return {
    message: `threshold ${dbm(thresholdDbm)} of ${modulation} lies ${decibels(thresholdDbm - usualDbm)} above the limit of its rate; is it of another mode?`,
    severity: "warning",
  };
}
