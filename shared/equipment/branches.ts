/**
 * Branches and paths of an arrangement. A branch is one transceiver with its way to the antenna; a path is the
 * sender's branch, the hop, the receiver's branch. Common practice.
 */
import type { CouplerKind } from "../design/catalogue.js";
import type { Hop } from "../design/design.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import { halfOf } from "../radio/halves.js";

/** The arm of a coupler that a branch passes; `none` where nothing joins it to another. */
export type Arm = "none" | "main" | "standby";

export interface Branch {
  /** For example `main`, `standby`, `carrier 2`, `first polarization, standby`. */
  readonly name: string;
  readonly arm: Arm;
  /** 1 or 2: of both polarizations of the hop. */
  readonly polarization: 1 | 2;
  /** Antenna it hangs on, from 1, with the coupler that joins it to others there. */
  readonly antenna: number;
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

/** What joins units to one antenna; `none`: the antenna takes one unit as it is; `nothing`: there is no antenna. */
export type Join = CouplerKind | "none" | "nothing";

/**
 * Which end of the hop: where two units share a coupler and both are on, they stand on the same arm at neither end, and
 * an all-indoor terminal takes channels off in the reverse order, so that every carrier loses the same over the hop.
 */
export type Side = 0 | 1;

/**
 * Sides of the two ends of a hop: the one that transmits high is the first, so that neither the order of the text nor a
 * name says anything; where no half is known, by their names.
 */
export function sidesOf({ ends, radio }: Pick<Hop, "ends" | "radio">): readonly [Side, Side] {
  const [one, other] = ends.map((end) => halfOf(end, radio));
  const first = one === other ? ends[0].site.name <= ends[1].site.name : one === "high" || other === "low";
  return first ? [0, 1] : [1, 0];
}

/** What joins the units of an end as the arrangement usually has it, one for each antenna. */
function usualJoins({ antennas, coupler }: ArrangementFacts): readonly Join[] {
  return Array.from({ length: antennas }, () => coupler ?? "none");
}

/**
 * Branches of an end. Units fill the arms of the antennas in turn; those for which there is none are put on an antenna
 * beyond the last.
 * @param joins what joins units to each antenna of the end
 * @param exchanged main and standby units are on each other's arms
 */
export function branchesOf(
  facts: ArrangementFacts,
  joins: readonly Join[] = usualJoins(facts),
  side: Side = 0,
  exchanged = false,
): readonly Branch[] {
  let of = BRANCHES.get(facts);
  if (of === undefined) BRANCHES.set(facts, (of = new Map()));
  const key = `${side} ${exchanged} ${joins.join()}`;
  let known = of.get(key);
  if (known === undefined) {
    known = makeBranches(facts, joins, side);
    if (exchanged) known = known.map((branch) => onOtherArm(branch, joins));
    of.set(key, known);
  }
  return known;
}

/** The table of arrangements does not change, and ends are joined in few ways. */
const BRANCHES = new WeakMap<ArrangementFacts, Map<string, readonly Branch[]>>();

function makeBranches(facts: ArrangementFacts, joins: readonly Join[], side: Side): readonly Branch[] {
  const places = placesOf(facts, joins);
  const isShared = (index: number) =>
    places.some(
      ({ antenna }, other) =>
        other !== index &&
        antenna === places[index]!.antenna &&
        polarizationOf(facts, other) === polarizationOf(facts, index),
    );
  // Two that cancel each other's polarization cross together: they arrive alike.
  const crossing = new Set(
    unitGroups(facts)
      .filter((group) => group.some(isShared))
      .flat(),
  );
  return places.map((place, index): Branch => {
    const polarization = polarizationOf(facts, index);
    const crossed = side === 1 && crossing.has(index) && !facts.hotStandby;
    return {
      arm: crossed ? OTHER_ARM[place.arm] : place.arm,
      antenna: place.antenna,
      polarization,
      name: nameOf(facts, index, polarization),
      position: side === 1 && !facts.hotStandby ? places.length - index : index + 1,
      radiates: index % perGroup(facts) < radiatingPerGroup(facts),
    };
  });
}

/** The arms of an orthomode transducer are told by their polarization alone: there is nothing to exchange. */
function onOtherArm(branch: Branch, joins: readonly Join[]): Branch {
  const join = joins[branch.antenna - 1];
  return join === undefined || join === "omt" ? branch : { ...branch, arm: OTHER_ARM[branch.arm] };
}

const OTHER_ARM: Readonly<Record<Arm, Arm>> = { none: "none", main: "standby", standby: "main" };

/** Places among the branches of an end of what serves one carrier there. */
export interface CarrierUnits {
  /** On in the normal state. */
  readonly unit: number;
  /** The one that waits; undefined: none does. */
  readonly standby?: number;
}

/** The units of an end by carriers, in the order in which both ends have them. */
export function carrierUnits({ hotStandby, transceivers }: ArrangementFacts): readonly CarrierUnits[] {
  if (!hotStandby) return Array.from({ length: transceivers }, (_, unit) => ({ unit }));
  return Array.from({ length: transceivers / 2 }, (_, pair) => ({ unit: 2 * pair, standby: 2 * pair + 1 }));
}

/**
 * Whether another unit may send in place of the working one over a way of its own: the relay of an all-indoor terminal
 * with two antennas puts either transmitter on the main one.
 */
export function hasSecondWayOut({ hotStandby, construction, antennas }: ArrangementFacts): boolean {
  return hotStandby && !(construction === "all-indoor" && antennas > 1);
}

/** An end with its branches. */
export interface EndBranches {
  readonly facts: ArrangementFacts;
  readonly branches: readonly Branch[];
}

/**
 * Every way through the hop from the branches of one end to those of the other; those of the normal state first. Where
 * one end alone has units on standby, so do the ways.
 */
export function pathsBetween(from: EndBranches, to: EndBranches): readonly BranchPath[] {
  const states = [
    ["normal", "unit", "unit"],
    ["receiver on standby", "unit", "standby"],
    ["sender on standby", "standby", "unit"],
    ["both on standby", "standby", "standby"],
  ] as const;
  const out = carrierUnits(from.facts);
  const back = carrierUnits(to.facts);
  const ways = states.filter(([, sends]) => sends === "unit" || hasSecondWayOut(from.facts));
  return ways.flatMap(([state, sends, receives]) =>
    out.flatMap((carrier, index): BranchPath[] => {
      const [sender, receiver] = [carrier[sends], back[index]?.[receives]];
      if (sender === undefined || receiver === undefined) return [];
      return [{ state, from: from.branches[sender]!, to: to.branches[receiver]! }];
    }),
  );
}

type Place = Pick<Branch, "arm" | "antenna">;

function placesOf(facts: ArrangementFacts, joins: readonly Join[]): Place[] {
  if (facts.coupler === undefined) return placesApart(facts, joins);
  let free = joins.flatMap((join, index) => ARMS[join].map((arm) => ({ ...arm, antenna: index + 1 })));
  const places: Place[] = Array.from({ length: facts.transceivers }, () => beyond(joins));
  for (const group of unitGroups(facts)) {
    const taken = armsFor(
      group.map((index) => polarizationOf(facts, index)),
      free,
    );
    if (taken === undefined) continue;
    free = free.filter((arm) => !taken.includes(arm));
    for (const [at, { arm, antenna }] of taken.entries()) places[group[at]!] = { arm, antenna };
  }
  return places;
}

type FreeArm = JoiningArm & Place;

/** An arm for each polarization: of two that cancel each other's polarization, like arms of one antenna. */
function armsFor(polarizations: readonly (1 | 2)[], free: readonly FreeArm[]): FreeArm[] | undefined {
  for (const { arm, antenna } of free) {
    const alike = free.filter((one) => one.arm === arm && one.antenna === antenna);
    const taken: FreeArm[] = [];
    for (const wanted of polarizations) {
      const found = alike.find(
        (one) => !taken.includes(one) && (one.polarization === undefined || one.polarization === wanted),
      );
      if (found) taken.push(found);
    }
    if (taken.length === polarizations.length) return taken;
  }
  return undefined;
}

function beyond(joins: readonly Join[]): Place {
  return { arm: "main", antenna: joins.length + 1 };
}

/** An antenna for each unit; where an end has the first only, a hybrid joins both to it. */
function placesApart({ antennas, transceivers }: ArrangementFacts, joins: readonly Join[]): Place[] {
  const there = [...joins.keys()].filter((index) => joins[index] !== "nothing");
  const together = there.length === 1 && joins[there[0]!] === "hybrid";
  return Array.from({ length: transceivers }, (_, unit): Place => {
    if (antennas === 1) return { arm: "none", antenna: 1 };
    if (together) return { arm: unit === 0 ? "main" : "standby", antenna: there[0]! + 1 };
    return there[unit] === undefined ? beyond(joins) : { arm: "none", antenna: there[unit] + 1 };
  });
}

/**
 * Units by their places among the branches, in the order in which arms are given out: two that cancel each other's
 * polarization together, main units before those that wait.
 */
export function unitGroups({
  transceivers,
  hotStandby,
  xpicPairs,
}: ArrangementFacts): readonly (readonly number[])[] {
  const units = Array.from({ length: transceivers }, (_, index) => index);
  const inTurn = hotStandby
    ? [...units.filter((index) => index % 2 === 0), ...units.filter((index) => index % 2 === 1)]
    : units;
  if (xpicPairs === 0) return inTurn.map((index) => [index]);
  return Array.from({ length: Math.ceil(transceivers / 2) }, (_, pair) =>
    inTurn.slice(2 * pair, 2 * pair + 2),
  );
}

interface JoiningArm {
  readonly arm: Arm;
  /** Undefined: whichever the unit has. */
  readonly polarization?: 1 | 2;
}

/** As arms are called. */
export const ARM_NAMES: Readonly<Record<"main" | "standby", string>> = {
  main: "main arm",
  standby: "standby arm",
};

const ARMS: Readonly<Record<Join, readonly JoiningArm[]>> = {
  nothing: [],
  none: [{ arm: "none" }],
  hybrid: [{ arm: "main" }, { arm: "standby" }],
  splitter: [{ arm: "main" }, { arm: "standby" }],
  omt: [
    { arm: "main", polarization: 1 },
    { arm: "main", polarization: 2 },
  ],
  "dual-polarized": [
    { arm: "main", polarization: 1 },
    { arm: "main", polarization: 2 },
    { arm: "standby", polarization: 1 },
    { arm: "standby", polarization: 2 },
  ],
};

/** Units that it takes. */
export function armCount(join: Join): number {
  return ARMS[join].length;
}

/** Carriers take turns; a hot-standby pair is of one polarization. */
function polarizationOf(facts: ArrangementFacts, index: number): 1 | 2 {
  if (!facts.dualPolarized) return 1;
  const place = facts.hotStandby ? Math.floor(index / 2) : index;
  return place % 2 === 0 ? 1 : 2;
}

function nameOf(facts: ArrangementFacts, index: number, polarization: 1 | 2): string {
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
