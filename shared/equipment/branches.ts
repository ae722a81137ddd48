/**
 * Branches and paths of an arrangement. A branch is one transceiver with its way to the antenna; a path is the
 * sender's branch, the hop, the receiver's branch. Common practice.
 */
import type { ArrangementFacts } from "../radio/arrangements.js";

/** The arm of a coupler that a branch passes; `none` where nothing joins it to another. */
export type Arm = "none" | "main" | "standby";

export interface Branch {
  /** For example `main`, `standby`, `carrier 2`, `first polarization, standby`. */
  readonly name: string;
  readonly arm: Arm;
  /** 1 or 2: of both polarizations of the hop. */
  readonly polarization: 1 | 2;
  /** Coupler it hangs on, from 1, where there are several; also the antenna. */
  readonly coupler: number;
  /** Position in the branching network of an all-indoor terminal, from 1. */
  readonly position: number;
  /** On in the normal state. */
  readonly radiates: boolean;
}

export type PathState = "normal" | "receiver on standby" | "sender on standby" | "both on standby";

export interface BranchPath {
  readonly state: PathState;
  readonly from: Branch;
  readonly to: Branch;
}

/** Branches of an end. Two carriers on a hybrid cross their arms between the ends: see `pathsOf`. */
export function branchesOf(facts: ArrangementFacts): readonly Branch[] {
  let known = BRANCHES.get(facts);
  if (known === undefined) BRANCHES.set(facts, (known = makeBranches(facts)));
  return known;
}

/** The table of arrangements does not change. */
const BRANCHES = new WeakMap<ArrangementFacts, readonly Branch[]>();
const PATHS = new WeakMap<ArrangementFacts, readonly BranchPath[]>();

function makeBranches(facts: ArrangementFacts): readonly Branch[] {
  return Array.from({ length: facts.transceivers }, (_, index): Branch => {
    const place = placeOf(facts, index);
    return {
      ...place,
      name: nameOf(facts, index, place),
      position: index + 1,
      radiates: index % perGroup(facts) < radiatingPerGroup(facts),
    };
  });
}

/** Every way through the hop, one direction; those of the normal state first. */
export function pathsOf(facts: ArrangementFacts): readonly BranchPath[] {
  let known = PATHS.get(facts);
  if (known === undefined) PATHS.set(facts, (known = makePaths(facts)));
  return known;
}

function makePaths(facts: ArrangementFacts): readonly BranchPath[] {
  const branches = branchesOf(facts);
  if (!facts.hotStandby) {
    // With unequal arms the carriers cross: main at one end, standby at the other, so that both lose the same.
    return branches.map((branch) => ({
      state: "normal",
      from: branch,
      to: partner(branch, branches, facts),
    }));
  }
  const groups = pairs(branches);
  // The relay of an all-indoor terminal puts either transmitter on the main antenna.
  const oneWayOut = facts.construction === "all-indoor";
  const states = [
    ["normal", 0, 0],
    ["receiver on standby", 0, 1],
    ["sender on standby", 1, 0],
    ["both on standby", 1, 1],
  ] as const;
  const possible = states.filter(([, from]) => from === 0 || !(oneWayOut && facts.antennas > 1));
  return possible.flatMap(([state, from, to]) =>
    groups.map((pair): BranchPath => ({ state, from: pair[from]!, to: pair[to]! })),
  );
}

type Place = Pick<Branch, "arm" | "polarization" | "coupler">;

function placeOf(facts: ArrangementFacts, index: number): Place {
  const polarizationOf = (place: number) => (place % 2 === 0 ? 1 : 2);
  switch (facts.coupler) {
    case undefined:
      return { arm: "none", polarization: 1, coupler: facts.antennas > 1 ? index + 1 : 1 };
    case "omt":
      return { arm: "main", polarization: polarizationOf(index), coupler: 1 };
    case "dual-polarized": {
      // Hot-standby pairs stand together: main and standby of one polarization, then of the other.
      const place = index % 4;
      const polarization = facts.hotStandby ? (place < 2 ? 1 : 2) : polarizationOf(place);
      const second = facts.hotStandby ? place % 2 === 1 : place >= 2;
      return { arm: second ? "standby" : "main", polarization, coupler: Math.floor(index / 4) + 1 };
    }
    default:
      return { arm: index === 0 ? "main" : "standby", polarization: 1, coupler: 1 };
  }
}

function nameOf(facts: ArrangementFacts, index: number, { polarization }: Place): string {
  if (facts.transceivers === 1) return "only";
  if (facts.hotStandby) {
    const role = index % 2 === 0 ? "main" : facts.protection === "space-diversity" ? "diversity" : "standby";
    return facts.dualPolarized ? `${POLARIZATION[polarization]}, ${role}` : role;
  }
  if (facts.protection === "twin") return POLARIZATION[polarization];
  return facts.protection === "n+1" && index === facts.workingCarriers
    ? "protecting carrier"
    : `carrier ${index + 1}`;
}

const POLARIZATION = { 1: "first polarization", 2: "second polarization" } as const;

function perGroup(facts: ArrangementFacts): number {
  return facts.hotStandby ? 2 : facts.transceivers;
}

function radiatingPerGroup(facts: ArrangementFacts): number {
  return facts.hotStandby ? 1 : facts.radiating;
}

function partner(branch: Branch, branches: readonly Branch[], facts: ArrangementFacts): Branch {
  if (facts.construction === "all-indoor") {
    // Channels are taken off in the reverse order, so that each loses the same over the hop.
    return { ...branch, position: branches.length + 1 - branch.position };
  }
  const shared = branches.some(
    (other) =>
      other !== branch && other.coupler === branch.coupler && other.polarization === branch.polarization,
  );
  if (!shared || branch.arm === "none") return branch;
  return { ...branch, arm: branch.arm === "main" ? "standby" : "main" };
}

function pairs(branches: readonly Branch[]): (readonly [Branch, Branch])[] {
  const groups: (readonly [Branch, Branch])[] = [];
  for (let i = 0; i + 1 < branches.length; i += 2) groups.push([branches[i]!, branches[i + 1]!]);
  return groups;
}
