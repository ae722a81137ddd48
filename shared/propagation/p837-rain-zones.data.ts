/**
 * Rain climatic zones, rain intensity exceeded (mm/h, 1 min integration). Rec. ITU-R PN.837-1 (1994) Table 1.
 *
 * SUPERSEDED: later editions of P.837 have maps only. From memory and equal to one public source file in all 105
 * values; not checked against the Recommendation. There is no zone I and no zone O.
 */

/** Percentages of the average year, one for each column. */
export const RAIN_ZONE_PERCENTAGES: readonly number[] = [1, 0.3, 0.1, 0.03, 0.01, 0.003, 0.001];

/** Rates by zone. Zone A at 1 % is printed "<0.1"; its upper bound stands here. */
// biome-ignore format: one zone a row, as the Table has it
export const RAIN_ZONE_RATES_MM_PER_H = {
  A: [0.1, 0.8, 2, 5, 8, 14, 22],
  B: [0.5, 2, 3, 6, 12, 21, 32],
  C: [0.7, 2.8, 5, 9, 15, 26, 42],
  D: [2.1, 4.5, 8, 13, 19, 29, 42],
  E: [0.6, 2.4, 6, 12, 22, 41, 70],
  F: [1.7, 4.5, 8, 15, 28, 54, 78],
  G: [3, 7, 12, 20, 30, 45, 65],
  H: [2, 4, 10, 18, 32, 55, 83],
  J: [8, 13, 20, 28, 35, 45, 55],
  K: [1.5, 4.2, 12, 23, 42, 70, 100],
  L: [2, 7, 15, 33, 60, 105, 150],
  M: [4, 11, 22, 40, 63, 95, 120],
  N: [5, 15, 35, 65, 95, 140, 180],
  P: [12, 34, 65, 105, 145, 200, 250],
  Q: [24, 49, 72, 96, 115, 142, 170],
} as const;
