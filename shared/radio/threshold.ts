import type { Radio, RadioMode } from "../design/catalogue.js";
import { bitsPerSymbol } from "./modulation.js";

/** Boltzmann constant, J/K (exact in the SI), and the standard noise temperature, K. */
const BOLTZMANN_J_PER_K = 1.380649e-23;
const STANDARD_TEMPERATURE_K = 290;

/** Channel width over symbol rate. Common practice (roll-off about 0.15), from memory, unconfirmed. */
const WIDTH_OVER_SYMBOL_RATE = 1.15;

export interface Threshold {
  readonly thresholdDbm: number;
  readonly from: "catalogue" | "noise figure and required SNR";
  /** In which the noise of a computed one is counted. */
  readonly noiseBandwidthHz?: number;
}

/**
 * Received level at which a mode reaches its reference bit error ratio: the catalogue's figure, else
 *
 *     10 log(k T0 B) + F + S/N    B the symbol rate, F the noise figure, S/N what the mode needs
 *
 * @returns undefined when the catalogue gives neither
 * @see kT0B with T0 = 290 K: physics; symbol rate = channel width / 1.15: common practice, unconfirmed
 */
export function modeThreshold(mode: RadioMode, noiseFigureDb: Radio["noiseFigureDb"]): Threshold | undefined {
  if (mode.thresholdDbm !== undefined) return { thresholdDbm: mode.thresholdDbm, from: "catalogue" };
  if (mode.requiredSnrDb === undefined || noiseFigureDb === undefined || !(mode.bandwidthHz > 0))
    return undefined;
  const noiseBandwidthHz = symbolRateHz(mode.bandwidthHz);
  const noiseDbm = noisePowerDbm(noiseBandwidthHz, noiseFigureDb);
  return {
    thresholdDbm: noiseDbm + mode.requiredSnrDb,
    from: "noise figure and required SNR",
    noiseBandwidthHz,
  };
}

/** Thermal noise of a receiver, `N = 10 log(k T0 B) + F`, dBm; bandwidth B > 0, T0 = 290 K. */
export function noisePowerDbm(bandwidthHz: number, noiseFigureDb: number): number {
  return 10 * Math.log10(BOLTZMANN_J_PER_K * STANDARD_TEMPERATURE_K * bandwidthHz) + 30 + noiseFigureDb;
}

export function symbolRateHz(bandwidthHz: number): number {
  return bandwidthHz / WIDTH_OVER_SYMBOL_RATE;
}

/** Softest usual filter, roll-off 0.5, and strongest usual code, half of the bits. Common practice, from memory, unconfirmed. */
const WIDEST_OVER_SYMBOL_RATE = 1.5;
const LEAST_CODE_RATE = 0.5;

/**
 * Level below which no mode of this modulation works, whatever its rate: thermal noise in the least symbol rate that
 * fills its width, plus noise figure, plus the SNR that half of its b bits a symbol need after Shannon.
 *
 *     10 log(k T0 Rs) + F + 10 log(2^(b/2) - 1),   Rs = width/1.5
 *
 * Real modes lie 6 to 20 dB above. A name that tells no bits counts as one bit a symbol.
 * @param bandwidthHz > 0
 * @see Shannon's channel capacity; least code rate and widest filter: common practice, unconfirmed
 */
export function leastThresholdDbm(modulation: string, bandwidthHz: number, noiseFigureDb: number): number {
  const symbolRate = bandwidthHz / WIDEST_OVER_SYMBOL_RATE;
  const leastRateBps = LEAST_CODE_RATE * (bitsPerSymbol(modulation) ?? 1) * symbolRate;
  return noisePowerDbm(symbolRate, noiseFigureDb) + shannonSnrDb(leastRateBps, symbolRate);
}

/**
 * Least signal-to-noise ratio for a net bit rate C in a bandwidth B, after Shannon.
 *
 *     C = B log2(1 + S/N),   so S/N = 10 log(2^(C/B) - 1) dB
 */
export function shannonSnrDb(bitRateBps: number, bandwidthHz: number): number {
  const naturalLog = (bitRateBps / bandwidthHz) * Math.LN2;
  // Beyond some thousand bits a hertz the power overflows; the 1 was lost long before.
  return naturalLog < 100 ? 10 * Math.log10(Math.expm1(naturalLog)) : 10 * naturalLog * Math.LOG10E;
}
