import type { Antenna, Coupler, Feeder, RadioMode } from "../design/catalogue.js";
import type { Climate } from "../design/climate.js";
import type { FurtherAntenna, FurtherChannel, Hop, HopEnd, Site } from "../design/design.js";
import type { ClearanceCriterion } from "../design/objective.js";

/** Lowest and highest believable value of a fact, both allowed; wide, to keep arithmetic within the numbers. */
type Bounds<T> = { readonly [K in keyof T]?: readonly [number, number] };

const DECIBELS = [-500, 500] as const;
const HERTZ = [1e6, 1e12] as const;
const ABOVE_SEA_M = [-1000, 20_000] as const;
const PATH_M = [-1e8, 1e8] as const;
const LINK_M = [1, 1e8] as const;

const END: Bounds<HopEnd> = {
  antennaHeightM: [0, 10_000],
  feederLengthM: [0, 10_000],
  transmitFrequencyHz: HERTZ,
  transmitPowerDbm: DECIBELS,
  extraLossDb: DECIBELS,
  diversityHeightM: [0, 10_000],
};
const SITE: Bounds<Site> = { groundM: ABOVE_SEA_M };
const HOP: Bounds<Hop> = { degradationDb: [0, 200], mostEirpDbm: DECIBELS, repairHours: [0, 1e5] };
const ANTENNA: Bounds<Antenna> = {
  diameterM: [1e-3, 200],
  beamwidthDeg: [1e-3, 360],
  crossPolarDiscriminationDb: [0, 200],
};
const COUPLER: Bounds<Coupler> = {
  mainLossDb: DECIBELS,
  standbyLossDb: DECIBELS,
  secondMainLossDb: DECIBELS,
  secondStandbyLossDb: DECIBELS,
  transmitLossDb: DECIBELS,
};
const MODE: Bounds<RadioMode> = {
  bitRateBps: [1, 1e13],
  transmitPowerDbm: DECIBELS,
  thresholdDbm: DECIBELS,
  requiredSnrDb: DECIBELS,
  dispersiveMarginDb: [0, 200],
};
const CLIMATE: Bounds<Climate> = {
  rainRateMmPerH: [0, 2000],
  rainTimePercent: [1e-6, 100],
  logK: [-20, 10],
  dN75: [-2000, 2000],
  dN1: [-5000, 5000],
  kFactor: [0.05, 1e6],
  temperatureK: [150, 400],
  pressureHPa: [1, 1500],
  waterVapourDensityGm3: [0, 200],
  terrainRoughnessM: [0, 10_000],
  rainHeightM: [-5000, 15_000],
  rainProbabilityPercent: [1e-6, 100],
  worstMonthQ1: [0.1, 100],
  worstMonthBeta: [1e-3, 1],
};

export interface Believable {
  /** The hop as it was when everything can be believed, else without the facts that cannot. */
  readonly hop: Hop;
  /** What was left out, one sentence each. */
  readonly beyond: readonly string[];
}

/**
 * Leaves out facts that no terrestrial hop can have (an antenna 1e9 m high, a k of 1e-300), as if they were not
 * written, and tells each. The bounds are ours and wide; ranges of methods are told by the methods. A k that is not above
 * 0 has no radius, and nothing behind this asks for it again.
 */
export function withinReason(hop: Hop): Believable {
  // Evaluation and judgement ask for the same hop; a design is immutable.
  let known = checked.get(hop);
  if (known === undefined) checked.set(hop, (known = check(hop)));
  return known;
}

const checked = new WeakMap<Hop, Believable>();

/** The parts are copied as they are looked through; where all can be believed the hop itself is handed back. */
function check(hop: Hop): Believable {
  const beyond: string[] = [];
  const ends = hop.ends.map((end) => endWithinReason(end, beyond));
  const changed: Partial<Hop> = {
    ends: [ends[0]!, ends[1]!],
    radio: hop.radio && radioWithinReason(hop.radio, beyond),
    modes: modesWithinReason(hop.modes, beyond),
    climate: bounded(hop.climate, CLIMATE, "climate", beyond),
    objective: hop.objective && objectiveWithinReason(hop.objective, beyond),
    obstacles: keep(
      hop.obstacles,
      ({ heightM, distanceM }) => inside(heightM, ABOVE_SEA_M) && inside(distanceM, PATH_M),
      "an obstacle",
      beyond,
    ),
    surfaces:
      hop.surfaces &&
      keep(
        hop.surfaces,
        ({ fromM, toM, heightM = 0 }) =>
          inside(fromM, PATH_M) && inside(toM, PATH_M) && inside(heightM, ABOVE_SEA_M),
        "a surface",
        beyond,
      ),
    measuredRain: hop.measuredRain && measuredWithinReason(hop.measuredRain, beyond),
    furtherChannels:
      hop.furtherChannels && keep(hop.furtherChannels, channelWithinReason, "a further channel", beyond),
  };
  const own = bounded(hop, HOP, "the hop", beyond);
  return beyond.length === 0 ? { hop, beyond } : { hop: { ...own, ...changed }, beyond };
}

function measuredWithinReason(
  measured: NonNullable<Hop["measuredRain"]>,
  beyond: string[],
): Hop["measuredRain"] {
  if (inside(measured.attenuation001Db, [0, 1000]) && inside(measured.frequencyHz, HERTZ)) return measured;
  beyond.push("the measured rain");
  return undefined;
}

function channelWithinReason({ separationHz, lowHz = 1e9, highHz = 1e9 }: FurtherChannel): boolean {
  return inside(separationHz, [0, 1e11]) && inside(lowHz, HERTZ) && inside(highHz, HERTZ);
}

function endWithinReason(end: HopEnd, beyond: string[]): HopEnd {
  const site = siteWithinReason(end.site, beyond);
  const antenna = end.antenna && antennaWithinReason(end.antenna, beyond);
  const diversityAntenna = end.diversityAntenna && antennaWithinReason(end.diversityAntenna, beyond);
  const coupler = end.coupler && bounded(end.coupler, COUPLER, `coupler ${end.coupler.name}`, beyond);
  const feeder = end.feeder && feederWithinReason(end.feeder, beyond);
  const further = end.further?.map((one) => furtherWithinReason(one, end.site.name, beyond));
  const own = bounded(end, END, `at ${end.site.name}`, beyond);
  return { ...own, site, antenna, diversityAntenna, coupler, further, feeder };
}

function furtherWithinReason(one: FurtherAntenna, site: string, beyond: string[]): FurtherAntenna {
  const antenna = one.antenna && antennaWithinReason(one.antenna, beyond);
  const coupler = one.coupler && bounded(one.coupler, COUPLER, `coupler ${one.coupler.name}`, beyond);
  const feeder = one.feeder && feederWithinReason(one.feeder, beyond);
  const own = bounded(
    one,
    { heightM: [0, 10_000], feederLengthM: [0, 10_000] },
    `of a further antenna at ${site}`,
    beyond,
  );
  return { ...own, antenna, coupler, feeder };
}

function siteWithinReason(site: Site, beyond: string[]): Site {
  const own = bounded(site, SITE, site.name, beyond);
  const { position, structure } = site;
  const isPlace =
    position === undefined ||
    (inside(position.latitudeDeg, [-90, 90]) && inside(position.longitudeDeg, [-540, 540]));
  const isStructure = structure === undefined || inside(structure.heightM, [0, 10_000]);
  if (isPlace && isStructure) return own;
  if (!isPlace) beyond.push(`the position of ${site.name}`);
  if (!isStructure) beyond.push(`the structure of ${site.name}`);
  return { ...own, position: isPlace ? position : undefined, structure: isStructure ? structure : undefined };
}

function antennaWithinReason(antenna: Antenna, beyond: string[]): Antenna {
  const own = bounded(antenna, ANTENNA, `antenna ${antenna.name}`, beyond);
  const gain = keep(
    antenna.gain,
    ({ gainDbi, frequencyHz = 1e9 }) => inside(gainDbi, DECIBELS) && inside(frequencyHz, HERTZ),
    `a gain of ${antenna.name}`,
    beyond,
  );
  return gain === antenna.gain ? own : { ...own, gain };
}

function feederWithinReason(feeder: Feeder, beyond: string[]): Feeder {
  const loss = keep(
    feeder.loss,
    ({ lossDbPerM, frequencyHz = 1e9 }) => inside(lossDbPerM, [0, 1000]) && inside(frequencyHz, HERTZ),
    `a loss of ${feeder.name}`,
    beyond,
  );
  return loss === feeder.loss ? feeder : { ...feeder, loss };
}

function radioWithinReason(radio: NonNullable<Hop["radio"]>, beyond: string[]): NonNullable<Hop["radio"]> {
  const bounds = {
    noiseFigureDb: DECIBELS,
    overloadDbm: DECIBELS,
    duplexSpacingHz: [0, 1e12],
    xpicGainDb: [0, 200],
    hysteresisDb: [0, 200],
    mtbfHours: [1e-3, 1e12],
    switchOverHours: [0, 1e4],
  } as const;
  const ranges = (["tuning", "lowHalf", "highHalf"] as const).filter((name) => {
    const range = radio[name];
    return range !== undefined && !(inside(range.fromHz, HERTZ) && inside(range.toHz, HERTZ));
  });
  for (const name of ranges) beyond.push(`${name} of ${radio.name}`);
  const own = bounded(radio, bounds, radio.name, beyond);
  const modes = modesWithinReason(radio.modes, beyond);
  return { ...own, modes, ...Object.fromEntries(ranges.map((name) => [name, undefined])) };
}

function modesWithinReason(modes: readonly RadioMode[], beyond: string[]): readonly RadioMode[] {
  const usable = keep(
    modes,
    ({ bandwidthHz }) => inside(bandwidthHz, [1, 1e12]),
    "the bandwidth of a mode",
    beyond,
  );
  return usable.map((mode) => {
    const checkedMode = bounded(mode, MODE, mode.modulation, beyond);
    if (mode.signature === undefined || signatureIsPossible(mode.signature)) return checkedMode;
    beyond.push(`the signature of ${mode.modulation}`);
    return { ...checkedMode, signature: undefined };
  });
}

function signatureIsPossible(signature: NonNullable<RadioMode["signature"]>): boolean {
  return (
    inside(signature.widthHz, [0, 1e12]) &&
    inside(signature.depthDb, DECIBELS) &&
    inside(signature.referenceDelayNs, [1e-3, 1e6])
  );
}

function objectiveWithinReason(
  objective: NonNullable<Hop["objective"]>,
  beyond: string[],
): NonNullable<Hop["objective"]> {
  const bounds = {
    availabilityPercent: [0, 100],
    capacityBps: [0, 1e15],
    fadeMarginDb: DECIBELS,
    standbyMarginDb: DECIBELS,
    levelWindowDb: [0, 200],
  } as const;
  const own = bounded(objective, bounds, `objective ${objective.name}`, beyond);
  const criteria = (of: readonly ClearanceCriterion[], what: string) =>
    keep(
      of,
      ({ fresnelFraction, kFactor }) => inside(fresnelFraction, [-100, 100]) && inside(kFactor, [0.05, 1e6]),
      `a ${what} of ${objective.name}`,
      beyond,
    );
  const clearance = criteria(objective.clearance, "clearance");
  const diversityClearance =
    objective.diversityClearance && criteria(objective.diversityClearance, "diversity-clearance");
  const availabilityClass =
    own.availabilityClass &&
    bounded(own.availabilityClass, { linkLengthM: LINK_M, propagationPercent: [0, 100] }, "link", beyond);
  const quality =
    own.quality &&
    bounded(
      own.quality,
      { linkLengthM: LINK_M, sharePercent: [0, 100], blockRatio: [1e-6, 1] },
      "quality",
      beyond,
    );
  return { ...own, clearance, diversityClearance, availabilityClass, quality };
}

/** The object itself, or a copy in which facts out of bounds are not stated. */
function bounded<T extends object>(object: T, bounds: Bounds<T>, of: string, beyond: string[]): T {
  let copy: T | undefined;
  for (const name in bounds) {
    const value = object[name as keyof T] as unknown;
    if (typeof value !== "number" || inside(value, bounds[name as keyof T]!)) continue;
    copy = { ...(copy ?? object), [name]: undefined };
    beyond.push(`${name.replace(/[A-Z][a-z]*\d*$/, "")} ${of}`);
  }
  return copy ?? object;
}

function keep<T>(
  list: readonly T[],
  believable: (one: T) => boolean,
  what: string,
  beyond: string[],
): readonly T[] {
  if (list.every(believable)) return list;
  beyond.push(what);
  return list.filter(believable);
}

function inside(value: number, [from, to]: readonly [number, number]): boolean {
  return value >= from && value <= to;
}
