import type { MethodReference } from "../method.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.4.2",
  title: "Attenuation multiplier of the melting layer",
  status: "verified",
  note: "Read in one implementation; the same functions stand in attachment C of P.2001's reference code.",
  checked: {
    by: "two independent computations of each step; one public implementation run",
    vectors: ["rain-wet-snow"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

/**
 * How much more than rain the precipitation takes at a height: 0 above the rain height (dry snow), 3.53 at most
 * (241 m below it), 1 from 1200 m below it (rain).
 *
 *     G = 0                                                                             dh > 0
 *     G = 4 (1 - e^(dh/70))^2/[1 + (1 - e^(-(dh/600)^2))^2 (4 (1 - e^(dh/70))^2 - 1)]   -1200 <= dh <= 0
 *     G = 1                                                                             dh < -1200
 *
 * @param belowRainHeightM dh, height minus rain height, m: negative below
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
 *     slo = 1 + floor((hrain - hlo)/100),   shi = 1 + floor((hrain - hhi)/100)    slices of the two antennas
 *     slo < 1: 0;   shi > 12: 1;   slo = shi: G((hlo + hhi)/2 - hrain)
 *
 * else the sum of q G(dh) over s = max(shi, 1) .. min(slo, 12), q the part of the path in the slice:
 *
 *     shi < s < slo:  dh = 100 (0.5 - s),                    q = 100/(hhi - hlo)
 *     s = slo:        dh = (hlo - hrain - 100 (s - 1))/2,    q = (hrain - 100 (s - 1) - hlo)/(hhi - hlo)
 *     s = shi:        dh = (hhi - hrain - 100 s)/2,          q = (hhi - hrain + 100 s)/(hhi - hlo)
 *
 * and for slo > 12 the part in rain as well, q = (hrain - 1200 - hlo)/(hhi - hlo) with G = 1.
 * @param rainHeightM hrain, m above sea level
 * @param lowM hlo, lower antenna, m above sea level
 * @param highM hhi, upper antenna, >= lowM
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
