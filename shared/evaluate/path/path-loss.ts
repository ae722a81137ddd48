import type { Climate } from "../../design/climate.js";
import type { Hop } from "../../design/design.js";
import { MEAN_EARTH_RADIUS_M } from "../../propagation/constants.js";
import { freeSpaceLossDb } from "../../propagation/p525.js";
import { deltaBullington } from "../../propagation/p526/index.js";
import { gasAttenuationDb } from "../../propagation/p676.js";
import { referenceAtmosphere } from "../../propagation/p835.js";
import { vapourPressureOfDensityHPa } from "../../propagation/vapour.js";
import type { InputOf } from "../account/input.js";
import { cite, missing, note, type Trace, use } from "../account/trace.js";
import type { ClimateInUse } from "./climate.js";
import { diffractionGround } from "./diffraction-ground.js";
import type { Heights } from "./geometry.js";
import type { GroundPath } from "./ground-path.js";
import type { Passage } from "./passage.js";

/** With this share of the first Fresnel zone free at median k, diffraction takes nothing worth counting. */
export const FREE_OF_DIFFRACTION_FRACTION = 0.6;

/** What lies between the two antennas at one frequency, dB, each 0 or more. */
export interface PathLosses {
  readonly freeSpaceDb: number;
  readonly gasDb: number;
  readonly diffractionDb: number;
  /**
   * Diffraction of the ray from an antenna of the sender to one of the receiver, from 1; absent: all as the first.
   * Undefined: not known.
   */
  rayDb?(from: number, to: number): number | undefined;
}

/**
 * Losses between the two antennas at one frequency: free space (P.525) and gases at the path's mean height (P.676
 * with P.835 or the climate's own air), both along the ray, over the straight distance; for an obstructed path
 * diffraction (P.526 delta-Bullington at median k). What P.530 gives as a share of time, rain and multipath, is over
 * its path length d, along the ground.
 * @param obstruction the ground, where the path is not free of diffraction
 * @returns undefined where the obstruction's loss cannot be told: no level is, then
 */
export function pathLosses(
  { hop, climate, frequencyHz, trace }: Passage,
  heights: Heights,
  obstruction: GroundPath | undefined,
): PathLosses | undefined {
  cite(trace, "free-space");
  const diffractionDb =
    obstruction === undefined ? 0 : diffractionLossDb(hop, obstruction, frequencyHz, trace);
  if (diffractionDb === undefined) return undefined;
  return {
    freeSpaceDb: freeSpaceLossDb(heights.slantDistanceM, frequencyHz),
    gasDb: gasLossDb(climate, heights, frequencyHz, trace),
    diffractionDb,
  };
}

function gasLossDb(inUse: ClimateInUse, heights: Heights, frequencyHz: number, trace: Trace): number {
  if (!(frequencyHz >= 1e9 && frequencyHz <= 1000e9)) {
    note(trace, { code: "gases-not-counted", why: "frequency" });
    return 0;
  }
  const meanHeightM = (heights.antennaAslM[0] + heights.antennaAslM[1]) / 2;
  if (meanHeightM < 0) note(trace, { code: "path-below-sea-level" });
  if (meanHeightM > 9000) note(trace, { code: "path-above-reference-air" });
  const air = airOf(inUse.climate, meanHeightM);
  if (air === undefined) {
    note(trace, { code: "gases-not-counted", why: "no-air" });
    return 0;
  }
  useAir(inUse, air, meanHeightM, trace);
  cite(trace, "gases");
  return gasAttenuationDb({ frequencyHz, ...air }, heights.slantDistanceM);
}

/** The climate's own air, completed by the reference atmosphere; undefined: the figures describe none. */
export function airOf(climate: Climate, meanHeightM: number) {
  // Whole tens of metres: the attenuation moves by less than 0.2 % and neighbouring hops share a computation.
  const standard = referenceAtmosphere(Math.round(Math.min(Math.max(meanHeightM, -5000), 9000) / 10) * 10);
  const air = {
    pressureHPa: climate.pressureHPa ?? standard.pressureHPa,
    temperatureK: climate.temperatureK ?? standard.temperatureK,
    waterVapourDensityGm3: climate.waterVapourDensityGm3 ?? standard.waterVapourDensityGm3,
  };
  const vapourPressureHPa = vapourPressureOfDensityHPa(air.waterVapourDensityGm3, air.temperatureK);
  const isAir = air.temperatureK > 0 && air.waterVapourDensityGm3 >= 0 && air.pressureHPa > vapourPressureHPa;
  return isAir ? air : undefined;
}

function useAir(
  { climate, origin }: ClimateInUse,
  air: { pressureHPa: number; temperatureK: number; waterVapourDensityGm3: number },
  meanHeightM: number,
  trace: Trace,
): void {
  if (trace.inputs.some(({ code }) => code === "pressure")) return;
  const tell = (input: InputOf<"pressure" | "temperature" | "water-vapour">, fact: keyof Climate) =>
    climate[fact] === undefined
      ? use(trace, { ...input, atHeightM: meanHeightM }, "standard atmosphere")
      : use(trace, input, origin(fact));
  tell({ code: "pressure", pressureHPa: air.pressureHPa }, "pressureHPa");
  tell({ code: "temperature", temperatureK: air.temperatureK }, "temperatureK");
  tell({ code: "water-vapour", densityGm3: air.waterVapourDensityGm3 }, "waterVapourDensityGm3");
  if (
    climate.pressureHPa === undefined ||
    climate.temperatureK === undefined ||
    climate.waterVapourDensityGm3 === undefined
  ) {
    cite(trace, "reference-atmosphere");
  }
}

export function diffractionLossDb(
  hop: Hop,
  { heights, profile, tops, kFactor: k }: GroundPath,
  frequencyHz: number,
  trace: Trace,
): number | undefined {
  const result = deltaBullington(diffractionGround(profile, heights.groundM, tops), {
    antenna1HeightM: heights.antennaAslM[0],
    antenna2HeightM: heights.antennaAslM[1],
    effectiveRadiusM: k * MEAN_EARTH_RADIUS_M,
    frequencyHz,
    // The ground tells only the two apart, and hardly at these frequencies.
    polarization: hop.polarization === "horizontal" ? "horizontal" : "vertical",
  });
  cite(trace, "diffraction");
  note(trace, ...result.remarks.map((remark) => ({ code: "diffraction-remark", remark }) as const));
  if (!Number.isFinite(result.lossDb)) {
    missing(trace, { code: "refusal", of: ["level"], reason: { code: "no-diffraction-figure" } });
    return undefined;
  }
  if (result.lossDb > 0) note(trace, { code: "median-diffraction-loss", kFactor: k });
  return result.lossDb;
}
