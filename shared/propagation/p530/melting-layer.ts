import type { MethodReference } from "../method.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.4.2",
  title: "Attenuation multiplier of the melting layer",
  status: "verified",
  note: "Read in one implementation; the same functions stand in attachment C of P.2001's reference code.",
};

/**
 * How much more than rain the precipitation takes at a height: 0 above the rain height (dry snow), 3.53 at most
 * (241 m below it), 1 from 1200 m below it (rain).
 *
 * @param belowRainHeightM height minus rain height, m: negative below
 * @see Rec. ITU-R P.530-18 section 2.4.2. Verified.
 */
export function meltingMultiplier(belowRainHeightM: number): number {
  const dh = belowRainHeightM;
  if (!(dh <= 0)) return 0;
  if (dh < -1200) return 1;
  const rise = 4 * (1 - Math.exp(dh / 70)) ** 2;
  return rise / (1 + (1 - Math.exp(-((dh / 600) ** 2))) ** 2 * (rise - 1));
}

/**
 * Multiplier averaged along a straight path between two heights, in slices of 100 m below the rain height.
 *
 * @param lowM lower antenna, m above sea level
 * @param highM upper antenna, >= lowM
 * @see Rec. ITU-R P.530-18 section 2.4.2. Verified.
 */
export function pathMultiplier(rainHeightM: number, lowM: number, highM: number): number {
  const slo = 1 + Math.floor((rainHeightM - lowM) / 100);
  const shi = 1 + Math.floor((rainHeightM - highM) / 100);
  if (slo < 1) return 0;
  if (shi > 12) return 1;
  if (slo === shi) return meltingMultiplier((lowM + highM) / 2 - rainHeightM);
  const rangeM = highM - lowM;
  let sum = 0;
  for (let s = Math.max(shi, 1); s <= Math.min(slo, 12); s++) {
    if (s === slo) {
      const shareM = rainHeightM - 100 * (s - 1) - lowM;
      sum += shareM * meltingMultiplier((lowM - rainHeightM - 100 * (s - 1)) / 2);
    } else if (s === shi) {
      const shareM = highM - (rainHeightM - 100 * s);
      sum += shareM * meltingMultiplier((highM - rainHeightM - 100 * s) / 2);
    } else {
      sum += 100 * meltingMultiplier(100 * (0.5 - s));
    }
  }
  if (slo > 12) sum += rainHeightM - 1200 - lowM;
  return sum / rangeM;
}
