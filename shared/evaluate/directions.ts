import type { RadioMode } from "../design/catalogue.js";
import type { Hop } from "../design/design.js";
import { enhancementExceeded } from "../propagation/p530/enhancement.js";
import { modeThreshold } from "../radio/threshold.js";
import { modeNamed } from "./account/lack.js";
import type { DirectionResult, ModeResult } from "./account/level-result.js";
import { cite, missing, newTrace, note, type Trace } from "./account/trace.js";
import { fadingOf } from "./fading/fading.js";
import type { Fading, FadingPath } from "./fading/fading-model.js";
import type { DirectionWays } from "./level/carriers.js";
import { judgedMode } from "./level/judged-mode.js";
import { type Chain, chainOf, levelDiagram, transmitPowerDbm, waysOf } from "./level/levels.js";
import { ownChannels } from "./level/own-channels.js";
import { withTimeInUse } from "./outage/adaptive.js";
import type { FadingDirection } from "./outage/availability.js";
import { type ModeFading, modeFadingOf, modeOutages } from "./outage/outages.js";
import type { ClimateInUse } from "./path/climate.js";
import type { FurtherGround } from "./path/further-antennas.js";
import type { GroundPath } from "./path/ground-path.js";
import type { Passage } from "./path/passage.js";
import { type PathLosses, pathLosses } from "./path/path-loss.js";

export interface BothDirections {
  readonly directions: readonly FadingDirection[];
  /** Every way through the branches, of the same directions. */
  readonly ways: readonly DirectionWays[];
  readonly losses: readonly PathLosses[];
  readonly fading: readonly Fading[];
}

/** Degradation of the thresholds at the receivers of a hop, dB, by the site where they are; see `shared/interference`. */
export type InterferenceAtEnds = ReadonlyMap<string, number>;

export const NOTHING: BothDirections = { directions: [], ways: [], losses: [], fading: [] };

/** Level, margin and outage of each direction whose frequency is known. */
export function evaluateDirections(
  hop: Hop,
  climate: ClimateInUse,
  path: FadingPath & { readonly rays?: FurtherGround },
  obstruction: GroundPath | undefined,
  trace: Trace,
  interference?: InterferenceAtEnds,
): BothDirections {
  if (obstruction !== undefined) note(trace, { code: "fading-as-of-clear-path" });
  const { heights, rays } = path;
  const directions: FadingDirection[] = [];
  const ways: DirectionWays[] = [];
  const losses: PathLosses[] = [];
  const fading: Fading[] = [];
  for (const ends of [hop.ends, [hop.ends[1], hop.ends[0]]] as const) {
    const [from] = ends;
    const firstHz = from.transmitFrequencyHz;
    if (firstHz === undefined || !(firstHz > 0)) continue;
    const interferenceDb = interference?.get(ends[1].site.name);
    const passage: Passage = { hop, ends, frequencyHz: firstHz, climate, trace, interferenceDb };
    const between = (hz: number, tell: Trace): PathLosses | undefined => {
      const loss = pathLosses({ ...passage, frequencyHz: hz, trace: tell }, heights, obstruction);
      if (loss === undefined) return undefined;
      const rayDb = (sends: number, receives: number) =>
        rays!.diffractionDb(from === hop.ends[0] ? [sends, receives] : [receives, sends], hz);
      return rays ? { ...loss, rayDb } : loss;
    };
    // The trace tells the figures of the channel that is judged.
    const silent = newTrace();
    const { frequencyHz, ways: own } = ownChannels(hop, from, firstHz, (hz) => {
      const lossAt = between(hz, silent);
      return lossAt && waysOf({ ...passage, frequencyHz: hz, trace: silent }, lossAt);
    });
    const loss = between(frequencyHz, trace);
    if (loss === undefined) continue;
    losses.push(loss);
    const secondDb = loss.rayDb?.(1, 2);
    const moreLossDb = secondDb === undefined ? undefined : secondDb - loss.diffractionDb;
    const judged = { ...passage, frequencyHz };
    const fades = fadingOf(judged, { ...path, moreLossDb });
    const here = waysOf(judged, loss);
    const chain = here && chainOf(judged, own ?? here, loss);
    const direction = chain && directionOf(judged, chain, fades);
    if (direction === undefined) continue;
    ways.push({ direction: direction.direction, ways: chain!.ways });
    directions.push(direction);
    fading.push(fades);
  }
  return { directions, ways, losses, fading };
}

function directionOf(passage: Passage, chain: Chain, fading: Fading): FadingDirection | undefined {
  const { hop, ends, frequencyHz, trace } = passage;
  const [from, to] = ends;
  const powered = hop.modes.filter((mode) => {
    if (transmitPowerDbm(from, mode) !== undefined) return true;
    const { modulation } = mode;
    const reason = { code: "mode-without-power", modulation, site: from.site.name } as const;
    missing(trace, { code: "catalogue", of: ["level"], reason, mode: modeNamed(mode) });
    return false;
  });
  const reference = powered.at(-1);
  if (reference === undefined) return undefined;
  const power = transmitPowerDbm(from, reference)!;
  const levels = levelDiagram(passage, reference, power, chain);
  const receivedLevelDbm = levels.at(-1)!.levelDbm;

  const strongest = powered.reduce((a, b) =>
    transmitPowerDbm(from, b)! > transmitPowerDbm(from, a)! ? b : a,
  );
  const greatestDbm = transmitPowerDbm(from, strongest)!;
  const strongestDbm = greatestDbm + Math.max(...chain.ways.map(({ totalDb }) => totalDb));
  const overloadDbm = hop.radio?.overloadDbm;
  const modes = powered.flatMap((mode) => modeResult(passage, mode, chain, fading) ?? []);
  const results = modes.map(({ result }) => result);
  const direction: DirectionResult = {
    from: from.site.name,
    to: to.site.name,
    frequencyHz,
    eirpDbm: power + chain.weakest.eirpGainDb,
    greatestEirpDbm: greatestDbm + Math.max(...chain.ways.map(({ eirpGainDb }) => eirpGainDb)),
    levels,
    receivedLevelDbm,
    judged: judgedLevel(hop, results),
    modes: results,
    overload:
      overloadDbm === undefined
        ? undefined
        : {
            modulation: strongest.modulation,
            transmitPowerDbm: greatestDbm,
            ...overloadOf(strongestDbm, overloadDbm, fading, trace),
          },
    ...pathLevels(chain, receivedLevelDbm),
  };
  const fadings = modes.map(({ fading: of }) => of);
  return { direction: withTimeInUse(hop, { direction, modes: fadings }, trace), modes: fadings };
}

function judgedLevel(hop: Hop, modes: readonly ModeResult[]): DirectionResult["judged"] {
  const mode = judgedMode(hop, modes);
  if (mode === undefined) return undefined;
  const { modulation, bandwidthHz, receivedLevelDbm } = mode;
  return { modulation, bandwidthHz, receivedLevelDbm };
}

/** Distance to overload, and how often enhancement in clear air crosses it. */
function overloadOf(
  receivedLevelDbm: number,
  overloadDbm: number,
  { multipath }: Fading,
  trace: Trace,
): Omit<NonNullable<DirectionResult["overload"]>, "modulation" | "transmitPowerDbm"> {
  const marginDb = overloadDbm - receivedLevelDbm;
  const found = { receivedLevelDbm, overloadDbm, marginDb };
  if (multipath === undefined || multipath.occurrencePercent === 0 || !(marginDb >= 0)) return found;
  const enhancement = enhancementExceeded({
    occurrencePercent: multipath.occurrencePercent,
    enhancementDb: marginDb,
  });
  if (!enhancement.ok) return found;
  cite(trace, "enhancement");
  return { ...found, worstMonthPercent: enhancement.exceededPercent };
}

/** Levels of every way through the branches, and of the weakest with a unit on standby where it is weaker. */
function pathLevels(
  chain: Chain,
  receivedLevelDbm: number,
): Pick<DirectionResult, "paths" | "pathsIncomplete" | "standbyReceivedLevelDbm"> {
  const pathsIncomplete = chain.complete ? undefined : true;
  if (chain.ways.length < 2) return { pathsIncomplete };
  const paths = chain.ways.map(({ path, branchingLossDb, betweenDb, diffractionDb, totalDb }) => ({
    state: path.state,
    from: path.from.name,
    to: path.to.name,
    fromArm: path.from.arm,
    toArm: path.to.arm,
    branchingLossDb,
    betweenDb,
    diffractionDb: diffractionDb > 0 ? diffractionDb : undefined,
    receivedLevelDbm: receivedLevelDbm + totalDb - chain.totalDb,
  }));
  const standby = paths.filter(({ state }) => state !== "normal");
  const weakestDbm = Math.min(...standby.map((path) => path.receivedLevelDbm));
  return {
    paths,
    pathsIncomplete,
    standbyReceivedLevelDbm: weakestDbm < receivedLevelDbm - 1e-9 ? weakestDbm : undefined,
  };
}

function modeResult(
  { hop, ends: [from], climate: { climate }, trace, interferenceDb }: Passage,
  mode: RadioMode,
  chain: Chain,
  fading: Fading,
): { readonly result: ModeResult; readonly fading: ModeFading } | undefined {
  const threshold = modeThreshold(mode, hop.radio?.noiseFigureDb);
  if (threshold === undefined) {
    const reason = { code: "mode-without-threshold", modulation: mode.modulation } as const;
    missing(trace, { code: "catalogue", of: ["threshold"], reason, mode: modeNamed(mode) });
    return undefined;
  }
  if (threshold.from !== "catalogue") cite(trace, "thermal-noise");
  const transmitPower = transmitPowerDbm(from, mode)!;
  const receivedLevelDbm = transmitPower + chain.totalDb;
  // What is stated is the least that counts.
  const degradationDb = Math.max(hop.degradationDb ?? 0, interferenceDb ?? 0);
  const fadeMarginDb = receivedLevelDbm - threshold.thresholdDbm - degradationDb;
  const modeFading = modeFadingOf(hop, fading, mode, climate, trace);
  const result: ModeResult = {
    modulation: mode.modulation,
    bandwidthHz: mode.bandwidthHz,
    bitRateBps: mode.bitRateBps,
    transmitPowerDbm: transmitPower,
    receivedLevelDbm,
    thresholdDbm: threshold.thresholdDbm,
    thresholdFrom: threshold.from,
    ...(threshold.noiseBandwidthHz !== undefined && { noiseBandwidthHz: threshold.noiseBandwidthHz }),
    degradationDb,
    ...(interferenceDb !== undefined && { computedDegradationDb: interferenceDb }),
    fadeMarginDb,
    ...modeOutages(modeFading, fadeMarginDb, trace),
  };
  return { result, fading: modeFading };
}
