import type { Hop } from "../design/design.js";
import type { DirectionResult, ModeResult } from "../evaluate/account/level-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { newTrace, type Trace } from "../evaluate/account/trace.js";
import { fadingOf } from "../evaluate/fading/fading.js";
import type { FadingPath } from "../evaluate/fading/fading-model.js";
import { sameMode } from "../evaluate/level/judged-mode.js";
import { inJudgedPolarization } from "../evaluate/level/polarization.js";
import { equipmentOutage } from "../evaluate/outage/equipment.js";
import { modeFadingOf, outagesAt } from "../evaluate/outage/outages.js";
import { climateInUse } from "../evaluate/path/climate.js";
import { airOf } from "../evaluate/path/path-loss.js";
import { withinReason } from "../evaluate/reason.js";
import { trimmed } from "../format/numbers.js";
import { explainFade } from "../propagation/p530/fade-distribution.js";
import { specificGasAttenuation } from "../propagation/p676.js";
import { STEP_WORDS, type StepKey } from "./step-words.js";

/** An intermediate value, in the words of the method. */
export interface Step {
  readonly name: string;
  /** Name of the step in the method's module; undefined: no step of a method. */
  readonly key?: StepKey;
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
  const trace = recordingTrace();
  const hop = inJudgedPolarization(withinReason(design).hop, trace);
  const path = pathOf(hop, result);
  const ends = direction.from === hop.ends[0].site.name ? hop.ends : ([hop.ends[1], hop.ends[0]] as const);
  const stated = hop.modes.find((one) => sameMode(one, mode));
  if (path !== undefined && stated !== undefined) {
    const climate = climateInUse({ climate: result.climate ?? hop.climate });
    const end = hop.ends.findIndex(({ site }) => site.name === direction.to);
    const second = result.furtherPaths?.find(({ of, antennas }) => of === "diversity" && antennas[end] === 2);
    const ways = { ...path, moreLossDb: second?.moreLossDb };
    const fading = fadingOf({ hop, ends, frequencyHz: direction.frequencyHz, climate, trace }, ways);
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
  const air = airOf(climate ?? {}, meanHeightM);
  if (air === undefined) return [];
  const { oxygenDbPerKm, waterVapourDbPerKm } = specificGasAttenuation({
    frequencyHz,
    ...air,
  });
  return stepsOf({ meanHeightM, oxygenDbPerKm, waterVapourDbPerKm: waterVapourDbPerKm });
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

/** Steps in words and with their units; a step that is a word, such as a branch, is left out. */
function stepsOf(steps: object | undefined): Step[] {
  return Object.entries(steps ?? {})
    .filter((entry): entry is [StepKey, number] => typeof entry[1] === "number" && entry[0] in STEP_WORDS)
    .map(([key, value]) => {
      const [name, unit] = STEP_WORDS[key];
      return { key, name, value: `${figure(value)}${unit === undefined ? "" : ` ${unit}`}` };
    });
}

/** Five significant digits, never in powers of ten. */
function figure(value: number): string {
  const magnitude = value === 0 ? 0 : Math.floor(Math.log10(Math.abs(value)));
  return trimmed(value, Math.min(20, Math.max(0, 4 - magnitude)));
}
