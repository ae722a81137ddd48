/** The levels that a technician should read: for each end, receiver, sender and mode of a hop. */
import type { UnitRole } from "../design/as-built.js";
import type { Hop, HopEnd, Polarization } from "../design/design.js";
import { branchesOf, carrierUnits } from "../equipment/branches.js";
import { unitsOf } from "../equipment/units.js";
import type { DirectionResult, PathLevel } from "../evaluate/account/level-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { transmitPowerDbm } from "../evaluate/level/levels.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import { type ArrangementFacts, SINGLE } from "../radio/arrangements.js";

export interface ExpectedMode {
  readonly modulation: string;
  readonly bandwidthHz: number;
  /** Median, in clear air, at full power. */
  readonly levelDbm: number;
}

export interface ExpectedLevel {
  readonly from: string;
  readonly to: string;
  readonly state: PathLevel["state"];
  /** What the receiver is there for, and what the sender is. */
  readonly branch: UnitRole;
  readonly sender: UnitRole;
  /** The receiving branch, by the name that the arrangement gives it. */
  readonly branchName: string;
  /** From 1, in the order of the arrangement. */
  readonly carrier: number;
  readonly polarization?: Polarization;
  /** Lowest rate first; the last is the reference mode, which runs in clear air. Never empty. */
  readonly modes: readonly ExpectedMode[];
}

/**
 * Every way through the branches of both ends, as the level diagram has it: the first direction first, the normal state
 * before those with a unit on standby. In another mode than the reference one the level differs by the power of the
 * sender alone.
 */
export function expectedLevels(hop: Hop, { directions }: HopResult): readonly ExpectedLevel[] {
  return directions.flatMap((direction) => {
    const sends = hop.ends.find(({ site }) => site.name === direction.from);
    const receives = hop.ends.find(({ site }) => site.name === direction.to);
    if (sends === undefined || receives === undefined) return [];
    const paths = direction.paths ?? [onlyPath(direction)];
    return paths.flatMap((path) => {
      const found = expectedOver(hop, direction, { sends, receives, path });
      return found === undefined ? [] : [found];
    });
  });
}

type OnlyPath = Pick<PathLevel, "state" | "receivedLevelDbm"> & {
  readonly from?: string;
  readonly to?: string;
};

function onlyPath({ receivedLevelDbm }: DirectionResult): OnlyPath {
  return { state: "normal", receivedLevelDbm };
}

function expectedOver(
  hop: Hop,
  direction: DirectionResult,
  { sends, receives, path }: { sends: HopEnd; receives: HopEnd; path: OnlyPath },
): ExpectedLevel | undefined {
  const back = placeOf(hop, receives, path.to);
  const out = placeOf(hop, sends, path.from);
  const referenceDbm = direction.levels[0]?.levelDbm;
  if (back === undefined || out === undefined || referenceDbm === undefined) return undefined;
  const modes = hop.modes.flatMap((mode): ExpectedMode[] => {
    const power = transmitPowerDbm(sends, mode);
    if (power === undefined) return [];
    const levelDbm = path.receivedLevelDbm + power - referenceDbm;
    return [{ modulation: mode.modulation, bandwidthHz: mode.bandwidthHz, levelDbm }];
  });
  if (modes.length === 0) return undefined;
  const { name, role, carrier, polarization } = back;
  return {
    from: direction.from,
    to: direction.to,
    state: path.state,
    branch: role,
    sender: out.role,
    branchName: name,
    carrier,
    polarization,
    modes,
  };
}

export interface BranchPlace {
  /** By which the arrangement knows it. */
  readonly name: string;
  readonly role: UnitRole;
  readonly carrier: number;
  readonly polarization?: Polarization;
}

/** Every unit of an end, in the order of the branches. */
export function unitPlaces(hop: Hop, end: HopEnd): readonly BranchPlace[] {
  const facts = factsAt(hop, end) ?? SINGLE;
  return branchesOf(facts).flatMap((_, index) => placeAt(hop, end, facts, index) ?? []);
}

/** @param branch undefined: the only one */
function placeOf(hop: Hop, end: HopEnd, branch: string | undefined): BranchPlace | undefined {
  const facts = factsAt(hop, end) ?? SINGLE;
  const index = branch === undefined ? 0 : branchesOf(facts).findIndex(({ name }) => name === branch);
  return placeAt(hop, end, facts, index);
}

function placeAt(hop: Hop, end: HopEnd, facts: ArrangementFacts, index: number): BranchPlace | undefined {
  const unit = unitsOf(hop, end, facts)[index];
  const carrier = carrierUnits(facts).findIndex((one) => one.unit === index || one.standby === index);
  if (unit === undefined || carrier < 0) return undefined;
  const waits = carrierUnits(facts)[carrier]!.standby === index;
  return {
    name: unit.branch,
    role: waits ? waitingRole(facts) : "main",
    carrier: carrier + 1,
    polarization: unit.polarization,
  };
}

function waitingRole({ protection }: ArrangementFacts): UnitRole {
  return protection === "space-diversity" ? "diversity" : "standby";
}

/** Common practice, no source: what catalogue figures, alignment and instruments leave open together. */
export const USUAL_WINDOW_DB = 3;

/** How far a reading may be from what is promised, above and below. */
export function levelWindowDb({ objective }: Pick<Hop, "objective">): number {
  return objective?.levelWindowDb ?? USUAL_WINDOW_DB;
}

/** What power control may take off while nothing fades; undefined: the design has none, or does not say how much. */
export function controlRangeDb(hop: Hop, sendingSite: string): number | undefined {
  const control = hop.ends.find(({ site }) => site.name === sendingSite)?.powerControl;
  const rangeDb = control && (control.reductionDb ?? hop.radio?.powerControlRangeDb);
  return rangeDb !== undefined && rangeDb > 0 ? rangeDb : undefined;
}
