import type { Antenna } from "../design/catalogue.js";
import { SPEED_OF_LIGHT_M_PER_S } from "../propagation/constants.js";

/** Efficiency of a parabolic antenna when the catalogue gives a diameter only; usual range 0.5 to 0.65. */
export const ESTIMATE_EFFICIENCY = 0.55;

/** A frequency this far (as a ratio) from the only gain point is worth a remark. */
const FAR_FROM_POINT = 1.1;

export interface AntennaGain {
  readonly gainDbi: number;
  readonly origin: "catalogue" | "estimate";
  /** From the nearest point of a catalogue that does not reach the frequency. */
  readonly ofNearestPoint?: true;
}

/**
 * Boresight gain at a frequency f (> 0): the catalogue's points, linear in log frequency between two of them,
 *
 *     G = G1 + (G2 - G1) ln(f/f1)/ln(f2/f1);
 *
 * outside them the nearest point as it stands, and says so (never extrapolated); without points an
 * estimate from the diameter.
 * @returns undefined when the catalogue gives neither gain nor diameter
 */
export function antennaGain(antenna: Antenna, frequencyHz: number): AntennaGain | undefined {
  const points = antenna.gain;
  const first = points[0];
  if (first === undefined) {
    if (antenna.diameterM === undefined || !(antenna.diameterM > 0)) return undefined;
    return {
      gainDbi: parabolicGainDbi(antenna.diameterM, frequencyHz, ESTIMATE_EFFICIENCY),
      origin: "estimate",
    };
  }
  let below: { gainDbi: number; frequencyHz: number } | undefined;
  for (const point of points) {
    if (point.frequencyHz === undefined) return { gainDbi: point.gainDbi, origin: "catalogue" };
    const here = { gainDbi: point.gainDbi, frequencyHz: point.frequencyHz };
    if (here.frequencyHz >= frequencyHz) return between(antenna, below, here, frequencyHz);
    below = here;
  }
  return between(antenna, below, undefined, frequencyHz);
}

/**
 * Gain of a circular aperture; diameter D, frequency and efficiency eta > 0.
 *
 *     G = 10 log(eta (pi D/lambda)^2)    dBi, D and lambda in the same unit
 *
 * @see aperture theory; the usual efficiency of 0.5 to 0.65 is common practice
 * @example parabolicGainDbi(0.6, 18.7e9, 0.55)
 */
export function parabolicGainDbi(diameterM: number, frequencyHz: number, efficiency: number): number {
  const diameterInWavelengths = (diameterM * frequencyHz) / SPEED_OF_LIGHT_M_PER_S;
  return 10 * Math.log10(efficiency) + 20 * Math.log10(Math.PI * diameterInWavelengths);
}

type Point = { readonly gainDbi: number; readonly frequencyHz: number };

function between(
  antenna: Antenna,
  below: Point | undefined,
  above: Point | undefined,
  frequencyHz: number,
): AntennaGain {
  if (below && above) {
    const share = Math.log(frequencyHz / below.frequencyHz) / Math.log(above.frequencyHz / below.frequencyHz);
    return { gainDbi: below.gainDbi + share * (above.gainDbi - below.gainDbi), origin: "catalogue" };
  }
  const nearest = (below ?? above)!;
  const ratio = Math.max(frequencyHz / nearest.frequencyHz, nearest.frequencyHz / frequencyHz);
  const outside = antenna.gain.length > 1 ? ratio > 1 : ratio > FAR_FROM_POINT;
  return {
    gainDbi: nearest.gainDbi,
    origin: "catalogue",
    ...(outside && { ofNearestPoint: true }),
  };
}
