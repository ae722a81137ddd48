import type { Antenna, Coupler, Radio, RadioMode } from "../../shared/design/catalogue.js";
import type { Climate } from "../../shared/design/climate.js";
import type { Hop, HopEnd, Site } from "../../shared/design/design.js";
import type { Objective } from "../../shared/design/objective.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import { arrangementByName } from "../../shared/radio/arrangements.js";
import { lackSentence } from "../../shared/words/lacks.js";
import { shown } from "../../shared/words/message.js";
import { noteMessage } from "../../shared/words/notes.js";

export const NO_GROUND: GroundInput = { groundM: [undefined, undefined], profileKind: "terrain" };

/** An invented hop in the 18 GHz band, 9.3 km long over the open sea; round numbers throughout. */
export const QPSK: RadioMode = {
  modulation: "QPSK",
  bandwidthHz: 55e6,
  bitRateBps: 78e6,
  transmitPowerDbm: 24,
  thresholdDbm: -86,
};
export const QAM128: RadioMode = {
  modulation: "128QAM",
  bandwidthHz: 55e6,
  bitRateBps: 310e6,
  transmitPowerDbm: 20,
  thresholdDbm: -69,
};

export const R18: Radio = {
  name: "R18",
  tuning: { fromHz: 17.7e9, toHz: 19.7e9 },
  lowHalf: { fromHz: 17.7e9, toHz: 18.69e9 },
  highHalf: { fromHz: 18.71e9, toHz: 19.7e9 },
  duplexSpacingHz: 1010e6,
  noiseFigureDb: 6.5,
  overloadDbm: -20,
  modes: [QPSK, QAM128],
};

export const TRUNK: Objective = {
  name: "trunk",
  availabilityPercent: 99.99,
  capacityBps: 300e6,
  fadeMarginDb: 20,
  clearance: [{ fresnelFraction: 1, kFactor: 1.33 }],
};

export const CLIMATE: Climate = { rainRateMmPerH: 34, logK: -4.2, dN75: 12 };

export const KELD: Site = {
  name: "KELD",
  position: { latitudeDeg: 47.5, longitudeDeg: -30.5 },
  groundM: 200,
  structure: { kind: "mast", heightM: 60 },
};
export const TARN: Site = {
  name: "TARN",
  position: { latitudeDeg: 47.55, longitudeDeg: -30.4 },
  groundM: 200,
  structure: { kind: "mast", heightM: 60 },
};

export const ANTENNA = {
  name: "DISH60-18",
  band: { fromHz: 17.7e9, toHz: 19.7e9 },
  diameterM: 0.6,
  gain: [{ gainDbi: 38.5, frequencyHz: 18.7e9 }],
  pattern: [],
};

export function end(site: Site, transmits: "high" | "low", more: Partial<HopEnd> = {}): HopEnd {
  const transmitFrequencyHz = transmits === "high" ? 18.93e9 : 17.92e9;
  return { site, antenna: ANTENNA, antennaHeightM: 40, transmits, transmitFrequencyHz, ...more };
}

/** What leads to the antennas in an arrangement: of a radio indoors a line, here one that loses nothing. */
export function lineOf(arrangement: string): Partial<HopEnd> {
  if (!arrangement.startsWith("all-indoor")) return {};
  return { feeder: { name: "LINE", loss: [{ lossDbPerM: 0 }] }, feederLengthM: 60 };
}

export function makeHop(more: Partial<Hop> = {}): Hop {
  return {
    name: "KELD-TARN",
    ends: [end(KELD, "high"), end(TARN, "low")],
    polarization: "vertical",
    arrangement: { name: "1+0" },
    radio: R18,
    modes: [QAM128],
    climate: CLIMATE,
    objective: TRUNK,
    obstacles: [],
    accepts: [],
    ...more,
  };
}

/** The antennas that an arrangement needs at an end beside the first, with the coupler of the first. */
export function antennasFor(name: string, antenna: Antenna = ANTENNA, coupler?: Coupler): Partial<HopEnd> {
  const facts = arrangementByName(name);
  if (facts === undefined || facts.antennas === 1) return {};
  if (facts.spaceDiversity)
    return { diversityAntenna: antenna, diversityHeightM: 36, further: coupler && [{ coupler }] };
  return {
    further: Array.from({ length: facts.antennas - 1 }, () => ({ antenna, heightM: 38, coupler })),
  };
}

/** The same hop told from the other end. */
export function reversed(hop: Hop, lengthM: number): Hop {
  const obstacles = hop.obstacles.map((one) => ({ ...one, distanceM: lengthM - one.distanceM }));
  return { ...hop, ends: [hop.ends[1], hop.ends[0]], obstacles };
}

/** A profile of given heights (null: unknown) at equal spacing. */
export function groundOf(heights: readonly (number | null)[], lengthM: number): GroundInput {
  const points = heights.length;
  const stepM = lengthM / (points - 1);
  const heightM = Float64Array.from(heights, (height) => height ?? Number.NaN);
  const distanceM = Float64Array.from(heights, (_, i) => (lengthM * i) / (points - 1));
  const gaps: { fromM: number; toM: number; reason: "void" | "uncovered" }[] = [];
  for (let i = 0; i < points; i++) {
    if (heights[i] !== null) continue;
    const open = gaps.at(-1);
    if (open && i > 0 && heights[i - 1] === null) gaps[gaps.length - 1] = { ...open, toM: distanceM[i]! };
    else gaps.push({ fromM: distanceM[i]!, toM: distanceM[i]!, reason: "void" });
  }
  const sources = [{ file: "terrain/made.hgt", sharePercent: 100 }];
  return {
    profile: { distanceM, heightM, stepM, gaps, sources },
    groundM: [heights[0] ?? undefined, heights.at(-1) ?? undefined],
    profileKind: "terrain",
  };
}

/** Level ground at 200 m, with one hill in the middle when asked for. */
export function levelGround(lengthM: number, hillM = 0, points = 101): GroundInput {
  return groundOf(
    Array.from({ length: points }, (_, i) => 200 + (i === (points - 1) / 2 ? hillM : 0)),
    lengthM,
  );
}

export function reversedGround(ground: GroundInput): GroundInput {
  const { profile } = ground;
  if (profile === undefined) return NO_GROUND;
  const lengthM = profile.distanceM.at(-1)!;
  return {
    ...ground,
    groundM: [ground.groundM[1], ground.groundM[0]],
    profile: {
      ...profile,
      heightM: profile.heightM.toReversed(),
      gaps: profile.gaps
        .map((gap) => ({ ...gap, fromM: lengthM - gap.toM, toM: lengthM - gap.fromM }))
        .toReversed(),
    },
  };
}

/** Every path to a number in a value that is not finite. */
export function notFinite(value: unknown, at = "result"): string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [`${at} is ${value}`];
  if (typeof value === "string") return /NaN|Infinity|undefined/.test(value) ? [`${at} says ${value}`] : [];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => notFinite(inner, `${at}.${key}`));
}

/** What a result says it lacks, in one text. */
export function lacksTold(result: HopResult): string {
  return result.missing.map((lack) => shown(lackSentence(lack))).join(" ");
}

/** What a result remarks, in sentences. */
export function notesTold(result: Pick<HopResult, "notes">): string[] {
  return result.notes.map((note) => shown(noteMessage(note)));
}

export function direction(result: HopResult, from: string) {
  const found = result.directions.find((one) => one.from === from);
  if (found === undefined) throw new Error(`no direction from ${from}: ${lacksTold(result)}`);
  return found;
}
