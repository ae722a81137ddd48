/** What a branch passes between its unit and its antenna, at one end and in one direction. */
import { address } from "../../design/address.js";
import type { Antenna, Coupler } from "../../design/catalogue.js";
import type { HopEnd } from "../../design/design.js";
import { armLossDb, branchingLossDb } from "../../equipment/branch-loss.js";
import { type Arm, type Branch, type EndBranches, sidesOf } from "../../equipment/branches.js";
import { ESTIMATED_LENGTH_M, type GuideEstimate, guideEstimate } from "../../equipment/guide-to-choose.js";
import { leadTo } from "../../equipment/mounting.js";
import { branchesAt, type Stand, standsOf } from "../../equipment/stands.js";
import { antennaGain, ESTIMATE_EFFICIENCY } from "../../radio/antenna-gain.js";
import type { ArrangementFacts } from "../../radio/arrangements.js";
import { feederLossPerM } from "../../radio/feeder-loss.js";
import type { LackReason } from "../account/lack.js";
import type { LevelElement } from "../account/level-result.js";
import { missing, note, type Trace, use } from "../account/trace.js";
import type { Passage } from "../path/passage.js";

interface Loss {
  readonly passes: LevelElement;
  readonly lossDb: number;
}

/** What one branch of an end passes, and the antenna it hangs on. */
export interface EndParts {
  /** From the radio to the antenna. */
  readonly losses: readonly Loss[];
  readonly lossDb: number;
  /** Of these, what depends on the branch: arm of the coupler and branching network. */
  readonly branchingDb: number;
  /** Whether the arms of its coupler lose different amounts. */
  readonly unequal: boolean;
  readonly antenna: string;
  readonly gainDbi: number;
}

export interface Terminal extends EndBranches {
  /** Undefined when a figure is not known. */
  parts(branch: Branch): EndParts | undefined;
}

/** What of a passage its ends depend on. */
type AtEnds = Omit<Passage, "climate">;

/**
 * One end of a passage, as its sender or its receiver.
 * @param facts what that end is built as
 */
export function terminal(passage: AtEnds, direction: Direction, facts: ArrangementFacts): Terminal {
  const { hop, ends } = passage;
  const end = ends[direction === "transmit" ? 0 : 1];
  const side = sidesOf(hop)[end === hop.ends[0] ? 0 : 1];
  const stands = standsOf(end, facts);
  const known = new Map<Branch, EndParts | undefined>();
  return {
    facts,
    branches: branchesAt(end, facts, side),
    parts(branch) {
      if (!known.has(branch)) {
        const stand = standOf(stands, branch);
        known.set(branch, stand && partsThrough(passage, { end, stand, branch, direction }));
      }
      return known.get(branch);
    },
  };
}

/** The antenna of a branch; undefined where the end states none for it, or not how high it hangs. */
function standOf(stands: readonly Stand[], { antenna: number }: Branch): Stand | undefined {
  const stand = stands[number - 1];
  return number === 1 || (stand?.antenna !== undefined && stand.heightM !== undefined) ? stand : undefined;
}

type Direction = "transmit" | "receive";

interface BranchAtEnd {
  readonly end: HopEnd;
  readonly stand: Stand;
  readonly branch: Branch;
  readonly direction: Direction;
}

function partsThrough(
  { hop, frequencyHz, trace }: AtEnds,
  { end, stand, branch, direction }: BranchAtEnd,
): EndParts | undefined {
  const site = end.site.name;
  const { antenna, coupler } = stand;
  const losses: Loss[] = [];
  const feeder = leadTo(hop, end, stand) === "feeder" ? stand.feeder : undefined;
  let branchingDb = 0;
  if (coupler !== undefined) {
    const lossDb = armLossDb(coupler, branch, direction);
    if (lossDb === undefined) {
      lacksFigure({ code: "coupler-without-loss", coupler: coupler.name, site }, trace);
      return undefined;
    }
    branchingDb += lossDb;
    losses.push({ passes: couplerPassed(coupler, branch.arm, direction), lossDb });
  }
  const branching = hop.radio?.unit?.branching;
  if (branching !== undefined) {
    const lossDb = branchingLossDb(branching, branch.position);
    branchingDb += lossDb;
    losses.push({ passes: { code: "branching-network" }, lossDb });
  }
  if (feeder !== undefined) {
    const loss = feederLossPerM(feeder, frequencyHz);
    if (loss === undefined) {
      lacksFigure({ code: "feeder-without-loss", feeder: feeder.name, site }, trace);
      return undefined;
    }
    if (stand.feederLengthM === undefined) return undefined;
    if (loss.ofNearestPoint) note(trace, { code: "loss-of-nearest-point", feeder: feeder.name });
    const { feederLengthM: lengthM } = stand;
    const passes = { code: "feeder", feeder: feeder.name, lengthM } as const;
    losses.push({ passes, lossDb: loss.lossDbPerM * lengthM });
  }
  const guide = guideEstimate(hop, end, stand);
  if (guide !== undefined) {
    if ("open" in guide) {
      missing(trace, {
        code: "fact",
        of: ["level", "standby"],
        reason: guide.open,
        fact: { code: "waveguide", site },
        at: address("hop", hop.name, site, "feeder"),
      });
      return undefined;
    }
    const passes = { code: "guide-to-choose", lengthM: ESTIMATED_LENGTH_M } as const;
    losses.push({ passes, lossDb: guide.lossDb });
    noteEstimate(site, guide, trace);
  }
  if (end.extraLossDb !== undefined && end.extraLossDb !== 0) {
    losses.push({ passes: { code: "further-loss" }, lossDb: end.extraLossDb });
  }

  if (antenna === undefined) return undefined;
  const gainDbi = gainOf(antenna, site, frequencyHz, trace);
  if (gainDbi === undefined) return undefined;
  let lossDb = 0;
  for (const loss of losses) lossDb += loss.lossDb;
  return {
    losses,
    lossDb,
    branchingDb,
    unequal: coupler !== undefined && isUnequal(coupler),
    antenna: antenna.name,
    gainDbi,
  };
}

function lacksFigure(reason: LackReason, trace: Trace): void {
  missing(trace, { code: "catalogue", of: ["level", "standby"], reason });
}

function noteEstimate(site: string, { lossDb, band }: GuideEstimate, trace: Trace): void {
  use(
    trace,
    { code: "guide-loss", site, lossDb, lengthM: ESTIMATED_LENGTH_M, band },
    { origin: "default", standing: "estimated" },
  );
  note(trace, { code: "guide-loss-estimated", site, lossDb });
}

function gainOf(antenna: Antenna, site: string, frequencyHz: number, trace: Trace): number | undefined {
  const gain = antennaGain(antenna, frequencyHz);
  if (gain === undefined) {
    lacksFigure({ code: "antenna-without-gain", antenna: antenna.name, site }, trace);
    return undefined;
  }
  if (gain.origin === "estimate")
    note(trace, { code: "gain-estimated", antenna: antenna.name, efficiency: ESTIMATE_EFFICIENCY });
  if (gain.ofNearestPoint) note(trace, { code: "gain-of-nearest-point", antenna: antenna.name });
  // Of several points of the catalogue each frequency has a gain of its own; an estimate is one remark, with its frequency.
  const { gainDbi } = gain;
  const told = { code: "antenna-gain", antenna: antenna.name, gainDbi } as const;
  if (gain.origin === "estimate")
    use(trace, { ...told, estimatedAtHz: frequencyHz }, { origin: "default", standing: "estimated" });
  else use(trace, antenna.gain.length > 1 ? { ...told, ofPointsAtHz: frequencyHz } : told, "catalogue");
  return gain.gainDbi;
}

function isUnequal({ mainLossDb, standbyLossDb }: Coupler): boolean {
  return standbyLossDb !== undefined && standbyLossDb !== mainLossDb;
}

function couplerPassed(coupler: Coupler, arm: Arm, direction: Direction): LevelElement {
  const { name, kind } = coupler;
  if (kind === "omt") return { code: "coupler", coupler: name, kind: "orthomode" };
  if (coupler.transmitLossDb !== undefined && direction === "transmit")
    return { code: "coupler", coupler: name, kind: "relay" };
  return {
    code: "coupler",
    coupler: name,
    kind: kind === "splitter" ? "splitter" : "coupler",
    arm: isUnequal(coupler) ? arm : undefined,
  };
}
