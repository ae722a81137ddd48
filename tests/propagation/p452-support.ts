import { type ClearAirLoss, clearAirLosses } from "../../shared/propagation/p452/clear-air.js";
import { type ClearAirGeometry, clearAirGeometry } from "../../shared/propagation/p452/geometry.js";
import type { ClearAirPath } from "../../shared/propagation/p452/path.js";
import { must } from "../p530/support.js";
import { loadVectors } from "../support/vectors.js";

/** A path of `p452-paths.json`, under the file's own names. */
export interface VectorPath {
  readonly id: string;
  readonly pathCentreLatDeg: number;
  readonly antennaAboveGround1M: number;
  readonly antennaAboveGround2M: number;
  readonly gainToHorizon1Dbi: number;
  readonly gainToHorizon2Dbi: number;
  readonly DN: number;
  readonly N0: number;
  readonly dryPressureHpa: number;
  readonly temperatureC: number;
  readonly coastDistance1Km: number;
  readonly coastDistance2Km: number;
  readonly zoneRuns: readonly [zone: number, points: number][];
  readonly distanceKm: readonly number[];
  readonly terrainM: readonly number[];
  readonly coverM?: readonly number[];
  readonly geometry: Readonly<Record<string, number | string>>;
}

export const paths = loadVectors<{ source: string; paths: VectorPath[] }>("propagation/p452-paths.json");

/** One value for each point from runs of equal ones. */
export function unrolled(runs: readonly (readonly [value: number, points: number])[]): number[] {
  return runs.flatMap(([value, points]) => Array<number>(points).fill(value));
}

export function pathOf(vector: VectorPath): ClearAirPath {
  return {
    distanceM: Float64Array.from(vector.distanceKm, (km) => 1000 * km),
    heightM: Float64Array.from(vector.terrainM),
    coverHeightM: vector.coverM && Float64Array.from(vector.coverM),
    zone: Uint8Array.from(unrolled(vector.zoneRuns)),
    antennaTM: vector.antennaAboveGround1M,
    antennaRM: vector.antennaAboveGround2M,
    latitudeDeg: vector.pathCentreLatDeg,
    lapseNPerKm: vector.DN,
    seaLevelN: vector.N0,
    coastTM: 1000 * vector.coastDistance1Km,
    coastRM: 1000 * vector.coastDistance2Km,
  };
}

export function geometryOf(path: ClearAirPath): ClearAirGeometry {
  return must(clearAirGeometry(path)).geometry;
}

export function lossesOf(
  vector: VectorPath,
  geometry: ClearAirGeometry,
  frequencyGHz: number,
  polarization: "H" | "V",
  percents: readonly number[],
) {
  return must(
    clearAirLosses(
      geometry,
      {
        frequencyHz: frequencyGHz * 1e9,
        polarization: polarization === "H" ? "horizontal" : "vertical",
        gainTDbi: vector.gainToHorizon1Dbi,
        gainRDbi: vector.gainToHorizon2Dbi,
        dryPressureHPa: vector.dryPressureHpa,
        temperatureK: vector.temperatureC + 273.15,
      },
      percents,
    ),
  );
}

export function lossOf(...args: Parameters<typeof lossesOf>): ClearAirLoss {
  return lossesOf(...args).losses[0]!;
}
