/** Mean annual global reference atmosphere. Rec. ITU-R P.835-6 (12/2017) section 1. */

import type { MethodReference } from "./method.js";
import { vapourDensityOfPressureGm3, vapourPressureOfDensityHPa } from "./vapour.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.835-6",
  section: "1",
  title: "Mean annual global reference atmosphere",
  status: "verified",
  note: "Agrees with the ITU-R Study Group 3 examples to 12 digits; below sea level the lowest layer is continued, outside the stated range.",
  checked: {
    by: "25 ITU-R Study Group 3 values",
    vectors: ["p835"],
    tolerance: "1e-12",
  },
};

/** Air at a height. Total barometric pressure is `pressureHPa`; dry pressure is that less the vapour pressure. */
export interface ReferenceAir {
  readonly temperatureK: number;
  /** TOTAL pressure. */
  readonly pressureHPa: number;
  readonly vapourPressureHPa: number;
  readonly waterVapourDensityGm3: number;
}

/**
 * Reference atmosphere at a geometric height Z, km.
 *
 *     H = 6356.766 Z/(6356.766 + Z)                                geopotential height, km'
 *     T = Tb + L (H - Hb)                                          K
 *     P = Pb (Tb/T)^(34.1632/L);  L = 0: P = Pb exp[-34.1632 (H - Hb)/Tb]       hPa, total
 *     rho = rho0 exp(-Z/2)                                         g/m3
 *     e = rho T/216.7, not below 2e-6 P                            hPa
 *
 * The Recommendation prints a row for each layer; here its base Hb, Tb and Pb there and its lapse L stand in `LAYERS`.
 * Below sea level the first layer is continued (our practice: outside the stated range, 0 to 100 km; the caller says
 * so).
 * @param heightM geometric height above sea level, -5000 to 100 000
 * @param surfaceDensityGm3 rho0, water vapour density at sea level, 7.5 for the global mean
 * @throws RangeError outside -5000 to 100 000 m
 * @see Rec. ITU-R P.835-6 section 1; 25 ITU-R Study Group 3 values checked to 1e-12
 * @example referenceAtmosphere(500) // 284.9 K, 954.6 hPa, 5.84 g/m3
 */
export function referenceAtmosphere(heightM: number, surfaceDensityGm3 = 7.5): ReferenceAir {
  if (!(heightM >= -5000 && heightM <= 100_000)) {
    throw new RangeError(`heightM must be -5000 to 100000, not ${heightM}`);
  }
  const Z = heightM / 1000;
  const { temperatureK, pressureHPa } = dryAir(Z);
  const density = surfaceDensityGm3 * Math.exp(-Z / 2);
  const vapour = vapourPressureOfDensityHPa(density, temperatureK);
  // High up the mixing ratio e/P stays at 2e-6.
  if (vapour >= 2e-6 * pressureHPa) {
    return { temperatureK, pressureHPa, vapourPressureHPa: vapour, waterVapourDensityGm3: density };
  }
  const vapourPressureHPa = 2e-6 * pressureHPa;
  return {
    temperatureK,
    pressureHPa,
    vapourPressureHPa,
    waterVapourDensityGm3: vapourDensityOfPressureGm3(vapourPressureHPa, temperatureK),
  };
}

/** One layer of the lower atmosphere: from a geopotential height (km') on, temperature linear in it. */
interface Layer {
  readonly baseKm: number;
  readonly temperatureK: number;
  readonly lapseKPerKm: number;
  readonly pressureHPa: number;
}

/** Top first, so that the first layer whose base lies below is the right one. */
const LAYERS: readonly Layer[] = [
  { baseKm: 71, temperatureK: 214.65, lapseKPerKm: -2, pressureHPa: 0.03956649 },
  { baseKm: 51, temperatureK: 270.65, lapseKPerKm: -2.8, pressureHPa: 0.6694167 },
  { baseKm: 47, temperatureK: 270.65, lapseKPerKm: 0, pressureHPa: 1.109106 },
  { baseKm: 32, temperatureK: 228.65, lapseKPerKm: 2.8, pressureHPa: 8.680422 },
  { baseKm: 20, temperatureK: 216.65, lapseKPerKm: 1, pressureHPa: 54.7498 },
  { baseKm: 11, temperatureK: 216.65, lapseKPerKm: 0, pressureHPa: 226.3226 },
  { baseKm: 0, temperatureK: 288.15, lapseKPerKm: -6.5, pressureHPa: 1013.25 },
];

function dryAir(Z: number): { temperatureK: number; pressureHPa: number } {
  if (Z >= 86) return upperAir(Z);
  const H = (6356.766 * Z) / (6356.766 + Z);
  const layer = LAYERS.find((candidate) => H >= candidate.baseKm) ?? LAYERS.at(-1)!;
  const temperatureK = layer.temperatureK + layer.lapseKPerKm * (H - layer.baseKm);
  const pressureHPa =
    layer.lapseKPerKm === 0
      ? layer.pressureHPa * Math.exp((-34.1632 * (H - layer.baseKm)) / layer.temperatureK)
      : layer.pressureHPa * (layer.temperatureK / temperatureK) ** (34.1632 / layer.lapseKPerKm);
  return { temperatureK, pressureHPa };
}

/**
 * From Z = 86 to 100 km, by geometric height.
 *
 *     T = 186.8673 up to 91 km, above 263.1905 - 76.3232 sqrt(1 - ((Z - 91)/19.9429)^2)
 *     P = exp(95.571899 - 4.011801 Z + 6.424731e-2 Z^2 - 4.789660e-4 Z^3 + 1.340543e-6 Z^4)
 */
function upperAir(Z: number): { temperatureK: number; pressureHPa: number } {
  const temperatureK = Z <= 91 ? 186.8673 : 263.1905 - 76.3232 * Math.sqrt(1 - ((Z - 91) / 19.9429) ** 2);
  const pressureHPa = Math.exp(
    95.571899 - 4.011801 * Z + 6.424731e-2 * Z ** 2 - 4.78966e-4 * Z ** 3 + 1.340543e-6 * Z ** 4,
  );
  return { temperatureK, pressureHPa };
}
