import type { Hop } from "../design/design.js";
import type { HopResult } from "../evaluate/result.js";
import { multipathOccurrence, SHORTEST_PATH_M } from "../propagation/p530/multipath.js";
import { multipathOccurrence17 } from "../propagation/p530/multipath17.js";
import { rainLaw } from "../propagation/p530/rain.js";
import { isRainZone, rainZoneRateMmPerH } from "../propagation/p837.js";
import { rainCoefficients } from "../propagation/p838.js";

/** An intermediate value under the method's own symbol. */
export interface Step {
  readonly name: string;
  readonly value: string;
}

/**
 * The steps of the multipath method that the evaluation took, computed again by the same function. Symbols are
 * those of Rec. ITU-R P.530.
 */
export function multipathSteps(hop: Hop, result: HopResult, frequencyHz: number): Step[] {
  const { distanceM, geometry, profile } = result;
  if (distanceM === undefined || geometry === undefined || distanceM <= SHORTEST_PATH_M) return [];
  const common = {
    distanceM,
    frequencyGHz: frequencyHz / 1e9,
    antenna1AslM: geometry[0].groundM + geometry[0].antennaHeightM,
    antenna2AslM: geometry[1].groundM + geometry[1].antennaHeightM,
  };
  const { logK, dN75, dN1 } = hop.climate;
  if (logK !== undefined && dN75 !== undefined && profile?.meanM !== undefined) {
    return stepsOf(multipathOccurrence({ ...common, logK, dN75, meanTerrainAslM: profile.meanM }).steps);
  }
  return dN1 === undefined ? [] : stepsOf(multipathOccurrence17({ ...common, dN1 }).steps);
}

/** The steps of the rain method in the direction of the higher attenuation. */
export function rainSteps(hop: Hop, result: HopResult): Step[] {
  const rainRate001MmH = rateOf(hop);
  const highestHz = Math.max(0, ...hop.ends.map((end) => end.transmitFrequencyHz ?? 0));
  if (
    rainRate001MmH === undefined ||
    result.distanceM === undefined ||
    hop.polarization === undefined ||
    highestHz === 0
  )
    return [];
  const frequencyGHz = highestHz / 1e9;
  const { k, alpha } = rainCoefficients({
    frequencyGHz,
    polarizationTiltDeg: hop.polarization === "horizontal" ? 0 : 90,
  });
  const rain = rainLaw({ rainRate001MmH, kCoefficient: k, alpha, distanceM: result.distanceM, frequencyGHz });
  return rain.ok ? [...stepsOf({ k, alpha }), ...stepsOf(rain.steps)] : [];
}

function rateOf({ climate }: Hop): number | undefined {
  const { rainRateMmPerH, rainTimePercent = 0.01, rainZone } = climate;
  if (rainRateMmPerH !== undefined && Math.abs(rainTimePercent - 0.01) < 1e-9) return rainRateMmPerH;
  return rainZone !== undefined && isRainZone(rainZone) ? rainZoneRateMmPerH(rainZone, 0.01) : undefined;
}

/** What a name in the code says of its unit, longest ending first; the rest of the name is the symbol. */
const UNITS: readonly (readonly [ending: string, unit: string])[] = [
  ["DbPerKm", " dB/km"],
  ["Percent", " %"],
  ["Mrad", " mrad"],
  ["Km", " km"],
  ["Db", " dB"],
  ["M", " m"],
];

function stepsOf(steps: object | undefined): Step[] {
  return Object.entries(steps ?? {})
    .filter((entry): entry is [string, number] => typeof entry[1] === "number")
    .map(([name, value]) => {
      const [ending, unit] = UNITS.find(([end]) => name.endsWith(end)) ?? ["", ""];
      return {
        name: name.slice(0, name.length - ending.length),
        value: `${Number(value.toPrecision(5))}${unit}`,
      };
    });
}
