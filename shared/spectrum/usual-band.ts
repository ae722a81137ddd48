/** What the trade calls the band of a frequency. Common practice, no source: names, edges of the usual channel plans. */

import { CHANNEL_PLANS } from "./channel-plans.data.js";

/** From, up to, name; in GHz. Where two overlap, the first holds. */
const BANDS: readonly (readonly [number, number, string])[] = [
  [3.6, 4.2, "4 GHz"],
  [4.4, 5, "5 GHz"],
  [5.9, 6.425, "lower 6 GHz"],
  [6.425, 7.125, "upper 6 GHz"],
  [7.125, 7.725, "7 GHz"],
  [7.725, 8.5, "8 GHz"],
  [10, 10.68, "10 GHz"],
  [10.68, 11.7, "11 GHz"],
  [12.75, 13.25, "13 GHz"],
  [14.25, 15.35, "15 GHz"],
  [17.3, 19.7, "18 GHz"],
  [21.2, 23.6, "23 GHz"],
  [24.25, 26.5, "26 GHz"],
  [27.5, 29.5, "28 GHz"],
  [31.8, 33.4, "32 GHz"],
  [36, 40, "38 GHz"],
  [40.5, 43.5, "42 GHz"],
  [48.5, 52.6, "50 GHz"],
  [55.78, 57, "55 GHz"],
  [57, 71, "60 GHz"],
  [71, 86, "80 GHz"],
  [92, 95, "92 GHz"],
];

/**
 * @param plan identifier of the channel plan, whose name of the band counts: 7 and 8 GHz overlap
 * @returns `18 GHz`, `lower 6 GHz`; of a frequency in no usual band its whole GHz, rounded down, or its MHz below 1 GHz
 */
export function usualBand(frequencyHz: number, plan?: string): string {
  const known = CHANNEL_PLANS.find(({ id }) => id === plan);
  const named = known && /^(?:lower |upper )?\d+ GHz/.exec(known.band)?.[0];
  if (named !== undefined) return named;
  const ghz = frequencyHz / 1e9;
  const band = BANDS.find(([from, to]) => ghz >= from && ghz <= to);
  if (band !== undefined) return band[2];
  return ghz < 1 ? `${Math.floor(ghz * 1000)} MHz` : `${Math.floor(ghz)} GHz`;
}
