/**
 * Wind on antennas. A planning aid: a structure is released by a structural engineer under the national code.
 *
 * The frontal force is physics. The profile over height follows the form of EN 1991-1-4:2005 section 4 with
 * orography and turbulence factors of 1: forms of the mean wind, turbulence and peak pressure were read on public
 * pages that explain the standard, the roughness factor and the terrain classes are from memory, not checked
 * against the standard. Its basic speed is a 10-minute mean at 10 m in open country: never put in a gust.
 */
import {
  figures,
  negative,
  notPositive,
  type Outcome,
  outside,
  outsideRange,
  refuse,
} from "../propagation/outcome.js";

/** Recommended in EN 1991-1-4, kg/m3. */
const AIR_DENSITY_KG_PER_M3 = 1.25;

/**
 * Drag of a round antenna over its frontal area when the catalogue gives none; 1.2 to 1.4 open, 0.8 to 1.0 under a
 * domed radome. Common practice, from memory.
 */
export const ROUND_ANTENNA_COEFFICIENT = 1.3;

export type TerrainClass = "0" | "I" | "II" | "III" | "IV";

/** Roughness length and least height, m. From memory, not checked against EN 1991-1-4 Table 4.1. */
const TERRAIN: Readonly<Record<TerrainClass, { readonly z0M: number; readonly leastM: number }>> = {
  "0": { z0M: 0.003, leastM: 1 },
  I: { z0M: 0.01, leastM: 1 },
  II: { z0M: 0.05, leastM: 2 },
  III: { z0M: 0.3, leastM: 5 },
  IV: { z0M: 1, leastM: 10 },
};

export interface WindAtHeight {
  readonly meanSpeedMPerS: number;
  readonly turbulence: number;
  readonly peakPressurePa: number;
  /** Peak pressure over that of the basic speed. */
  readonly exposureFactor: number;
}

/**
 * Peak pressure at a height: vm = kr ln(z/z0) vb with kr = 0.19 (z0/0.05)^0.07, Iv = 1/ln(z/z0),
 * qp = (1 + 7 Iv) rho vm^2/2.
 *
 * @param inputs.basicSpeedMPerS 10-minute mean at 10 m in open country, 50-year, >= 0
 * @param inputs.heightM above ground, >= 0; below the class's least height the pressure there holds
 * @see form of EN 1991-1-4:2005 section 4; see the head of this file for what was checked
 */
export function windAtHeight(inputs: {
  readonly basicSpeedMPerS: number;
  readonly heightM: number;
  readonly terrain: TerrainClass;
  readonly airDensityKgPerM3?: number;
}): Outcome<WindAtHeight> {
  const { basicSpeedMPerS, heightM, terrain, airDensityKgPerM3 = AIR_DENSITY_KG_PER_M3 } = inputs;
  const unusable = negative({ basicSpeedMPerS, heightM }) ?? notPositive({ airDensityKgPerM3 });
  if (unusable) return refuse(unusable);
  const { z0M, leastM } = TERRAIN[terrain];
  const kr = 0.19 * (z0M / 0.05) ** 0.07;
  const logHeight = Math.log(Math.max(heightM, leastM) / z0M);
  const roughness = kr * logHeight;
  const meanSpeedMPerS = roughness * basicSpeedMPerS;
  const turbulence = 1 / logHeight;
  return figures(
    {
      meanSpeedMPerS,
      turbulence,
      peakPressurePa: (1 + 7 * turbulence) * dynamicPressurePa(meanSpeedMPerS, airDensityKgPerM3),
      exposureFactor: (1 + 7 * turbulence) * roughness ** 2,
    },
    [outsideRange(heightM, 0, 200, "height", "m")],
  );
}

/** Pressure of moving air, rho v^2/2, Pa. */
export function dynamicPressurePa(
  speedMPerS: number,
  airDensityKgPerM3: number = AIR_DENSITY_KG_PER_M3,
): number {
  return 0.5 * airDensityKgPerM3 * speedMPerS ** 2;
}

/** Force from the front, q C A, N; all >= 0. Side force and twist are not in it. */
export function frontalForceN(pressurePa: number, areaM2: number, coefficient: number): number {
  return pressurePa * coefficient * areaM2;
}

/** What a round antenna shows to the front, pi D^2/4, m2. */
export function discAreaM2(diameterM: number): number {
  return (Math.PI * diameterM ** 2) / 4;
}

/**
 * Air density of the standard atmosphere at a height, kg/m3.
 *
 * @param heightM above sea level, -1000..11 000
 * @see ISA: T = 288.15 - 0.0065 h, P = 101325 (T/288.15)^5.25588, rho = P/(287.053 T)
 */
export function standardAirDensity(heightM: number): Outcome<{ readonly airDensityKgPerM3: number }> {
  const unusable = outside({ heightM }, -1000, 11_000);
  if (unusable) return refuse(unusable);
  const temperatureK = 288.15 - 0.0065 * heightM;
  const pressurePa = 101_325 * (temperatureK / 288.15) ** 5.25588;
  return figures({ airDensityKgPerM3: pressurePa / (287.053 * temperatureK) });
}
