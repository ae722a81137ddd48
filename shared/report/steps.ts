import type { Hop } from "../design/design.js";
import { climateInUse } from "../evaluate/climate.js";
import { equipmentOutage } from "../evaluate/equipment.js";
import { type FadingPath, fadingOf } from "../evaluate/fading.js";
import { sameMode } from "../evaluate/judged-mode.js";
import { modeFadingOf, outagesAt } from "../evaluate/outages.js";
import { withinReason } from "../evaluate/reason.js";
import type { DirectionResult, HopResult, ModeResult } from "../evaluate/result.js";
import { newTrace, type Trace } from "../evaluate/trace.js";
import { explainFade } from "../propagation/p530/fade-distribution.js";
import { specificGasAttenuation } from "../propagation/p676.js";
import { referenceAtmosphere } from "../propagation/p835.js";

/** An intermediate value under the method's own symbol. */
export interface Step {
  readonly name: string;
  readonly value: string;
}

/** Intermediate values by section of P.530, for one mode in one direction. */
export type StepsBySection = (section: string) => Step[];

/**
 * The steps that the evaluation took towards the outage of a mode, taken again by the same functions. Symbols are
 * those of Rec. ITU-R P.530.
 */
export function fadingSteps(
  design: Hop,
  result: HopResult,
  direction: DirectionResult,
  mode: ModeResult,
): StepsBySection {
  const { hop } = withinReason(design);
  const trace = recordingTrace();
  const path = pathOf(hop, result);
  const ends = direction.from === hop.ends[0].site.name ? hop.ends : ([hop.ends[1], hop.ends[0]] as const);
  const stated = hop.modes.find((one) => sameMode(one, mode));
  if (path !== undefined && stated !== undefined) {
    const climate = climateInUse({ climate: result.climate ?? hop.climate });
    const fading = fadingOf(hop, ends, path, climate, direction.frequencyHz, trace);
    const modeFading = modeFadingOf(hop, fading, stated, climate.climate, trace);
    if (mode.fadeMarginDb > 0) {
      outagesAt(modeFading, mode.fadeMarginDb, trace);
      if (fading.multipath && fading.multipath.occurrencePercent > 0) {
        trace.steps!.set("2.3.2", explainFade(fading.multipath.month, mode.fadeMarginDb).steps ?? {});
      }
    }
  }
  return (section) => stepsOf(trace.steps!.get(section));
}

/** Unavailability of a unit, an end, both ends and of switching over, as fractions. */
export function equipmentSteps(hop: Hop): Step[] {
  const trace = recordingTrace();
  equipmentOutage(withinReason(hop).hop, trace);
  return stepsOf(trace.steps!.get("equipment"));
}

/** Specific attenuation of the gases at the path's mean height. */
export function gasSteps({ geometry, climate, directions }: HopResult): Step[] {
  const frequencyHz = Math.max(0, ...directions.map((direction) => direction.frequencyHz));
  if (geometry === undefined || !(frequencyHz >= 1e9 && frequencyHz <= 1e12)) return [];
  const meanHeightM =
    geometry.reduce((sum, { groundM, antennaHeightM }) => sum + groundM + antennaHeightM, 0) / 2;
  const standard = referenceAtmosphere(Math.round(Math.min(Math.max(meanHeightM, -5000), 9000) / 10) * 10);
  const { oxygenDbPerKm, waterVapourDbPerKm } = specificGasAttenuation({
    frequencyGHz: frequencyHz / 1e9,
    pressureHPa: climate?.pressureHPa ?? standard.pressureHPa,
    temperatureK: climate?.temperatureK ?? standard.temperatureK,
    waterVapourDensityGm3: climate?.waterVapourDensityGm3 ?? standard.waterVapourDensityGm3,
  });
  return stepsOf({ "mean heightM": meanHeightM, oxygenDbPerKm, "water vapourDbPerKm": waterVapourDbPerKm });
}

function recordingTrace(): Trace {
  return { ...newTrace(), steps: new Map() };
}

/** The path as it was evaluated, from what the result holds of it. */
function pathOf(
  hop: Hop,
  { distanceM, geometry, profile, slantDistanceM }: HopResult,
): FadingPath | undefined {
  const [from, to] = hop.ends.map(({ site }) => site.position);
  if (distanceM === undefined || geometry === undefined || from === undefined || to === undefined)
    return undefined;
  const [first, second] = geometry;
  return {
    course: {
      distanceM,
      azimuthDeg: [first.azimuthDeg, second.azimuthDeg],
      latitudeDeg: (from.latitudeDeg + to.latitudeDeg) / 2,
    },
    heights: {
      groundM: [first.groundM, second.groundM],
      antennaAslM: [first.groundM + first.antennaHeightM, second.groundM + second.antennaHeightM],
      slantDistanceM: slantDistanceM ?? distanceM,
      ends: geometry,
    },
    terrain: profile,
  };
}

/** What a name in the code says of its unit, longest ending first; the rest of the name is the symbol. */
const UNITS: readonly (readonly [ending: string, unit: string])[] = [
  ["DbPerKm", " dB/km"],
  ["Percent", " %"],
  ["Mrad", " mrad"],
  ["Ns", " ns"],
  ["Km", " km"],
  ["Db", " dB"],
  ["M", " m"],
];

export function stepsOf(steps: object | undefined): Step[] {
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
