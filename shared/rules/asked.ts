/**
 * What an objective asks of a hop: each criterion with the rule that tells where it is missed, what the results say of
 * it, and what is missing for a verdict. Judging, the agreements of a design and the tests all read this one table.
 */
import type { Hop, UnformedHop } from "../design/design.js";
import type { Objective } from "../design/objective.js";
import { type FurtherRay, furtherRays } from "../equipment/rays.js";
import { type Lack, LEVEL_STEPS, RAY_STEPS, type Step } from "../evaluate/account/lack.js";
import type { ObjectiveResult, Verdict } from "../evaluate/account/outage-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { askedMode, capacityVerdict, sameMode } from "../evaluate/level/judged-mode.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import { arrangementByName } from "../radio/arrangements.js";
import { judgedDirections, levelVerdict, marginVerdict } from "./judged-modes.js";

/** One thing that is asked of one hop. */
export interface Criterion {
  /** Identifier of the rule that finds it missed. */
  readonly rule: string;
  /** For example `fade margin`. */
  readonly name: string;
  readonly verdict: Verdict;
  /** What an open verdict wants; empty for the others. */
  readonly lacks: readonly Lack[];
}

/** As much of a hop as decides whether a criterion concerns it. */
type Arranged = Pick<Hop, "arrangement" | "ends"> | Pick<UnformedHop, "arrangement">;

interface Row extends Pick<Criterion, "rule" | "name"> {
  /** How many verdicts the objective asks for here; 0: none of this hop. */
  asked(objective: Objective, hop: Arranged): number;
  /** Those that there are. */
  found(hop: Hop, result: HopResult): readonly (Verdict | undefined)[];
  /** The steps that they take. */
  readonly steps: readonly Step[];
  /** Its rule judges hops without an objective too. */
  readonly unasked?: true;
  /** Whether the objective does not state it: then it may be missed, and is never open by itself. */
  implied?(objective: Objective): boolean;
}

const ROWS: readonly Row[] = [
  {
    rule: "clearance",
    name: "clearance",
    asked: ({ clearance }) => clearance.length,
    found: (_hop, { clearance }) =>
      clearance.filter(({ forInformation }) => !forInformation).map(({ verdict }) => verdict),
    steps: RAY_STEPS,
  },
  {
    rule: "diversity-clearance",
    name: "clearance of the diversity antenna",
    asked: ({ diversityClearance, clearance }, hop) =>
      rays(hop, true).length * (diversityClearance ?? clearance).length,
    found: (_hop, result) => overRays(result, true),
    steps: [...RAY_STEPS, "further antennas"],
  },
  {
    rule: "second-antenna-clearance",
    name: "clearance of further antennas",
    asked: ({ clearance }, hop) => rays(hop, false).length * clearance.length,
    found: (_hop, result) => overRays(result, false),
    steps: [...RAY_STEPS, "further antennas"],
  },
  {
    rule: "level-below-threshold",
    name: "level",
    asked: bothWays,
    found: (hop, result) => judgedDirections(hop, result).map(levelVerdict),
    steps: LEVEL_STEPS,
    unasked: true,
    implied: () => true,
  },
  {
    rule: "standby-level",
    name: "level on standby",
    asked: ({ standbyMarginDb }, hop) => (hasStandby(hop) && standbyMarginDb === undefined ? 1 : 0),
    found: (_hop, { standby }) => [standby?.verdict],
    steps: [...LEVEL_STEPS, "standby"],
    unasked: true,
    implied: (objective) => !asksOfLevel(objective),
  },
  {
    rule: "standby-margin",
    name: "margin on standby",
    asked: ({ standbyMarginDb }, hop) => (hasStandby(hop) ? once(standbyMarginDb) : 0),
    found: (_hop, { standby }) => [standby?.verdict],
    steps: [...LEVEL_STEPS, "standby"],
  },
  {
    rule: "capacity",
    name: "capacity",
    asked: ({ capacityBps }) => once(capacityBps),
    found: (hop) => [capacityVerdict(hop)],
    steps: ["capacity"],
  },
  {
    rule: "availability",
    name: "availability",
    asked: ({ availabilityPercent }) => once(availabilityPercent),
    found: (_hop, { availability }) => [availability?.verdict],
    steps: [...LEVEL_STEPS, "rain", "multipath", "cross-polar"],
  },
  {
    rule: "link-availability",
    name: "availability of the link",
    asked: ({ availabilityClass }) => once(availabilityClass),
    found: (_hop, result) => ofLink(result, "link-availability"),
    steps: [...LEVEL_STEPS, "rain", "cross-polar", "link availability"],
  },
  {
    rule: "link-quality",
    name: "severely errored seconds",
    asked: ({ quality }) => once(quality),
    found: (_hop, result) => ofLink(result, "link-quality"),
    steps: [...LEVEL_STEPS, "multipath", "cross-polar", "link quality"],
  },
  {
    rule: "fade-margin",
    name: "fade margin",
    asked: ({ fadeMarginDb }) => bothWays(fadeMarginDb),
    found: (hop, result) => judgedDirections(hop, result).map((one) => marginVerdict(hop, result, one)),
    steps: LEVEL_STEPS,
  },
];

/** Rules that tell a criterion as missed. */
export const CRITERION_RULES: ReadonlySet<string> = new Set(ROWS.map(({ rule }) => rule));

/** Those of them that find something only where an objective asks for it. */
export const ONLY_ASKED_RULES: ReadonlySet<string> = new Set(
  ROWS.filter(({ unasked }) => !unasked).map(({ rule }) => rule),
);

/**
 * Empty without an objective, or with one that asks nothing.
 * @param stated the hop as it is written: what cannot be believed of its objective is asked all the same
 * @param hop the hop as it was evaluated
 */
export function criteriaOf(stated: Hop, hop: Hop, result: HopResult): readonly Criterion[] {
  const { objective } = stated;
  if (objective === undefined) return [];
  return ROWS.flatMap((row): Criterion[] => {
    const asked = row.asked(objective, hop);
    if (asked === 0) return [];
    const believed = hop === stated ? asked : row.asked(hop.objective!, hop);
    const found = believed === 0 ? [] : row.found(hop, result);
    const { rule, name, steps } = row;
    if (found.includes("missed")) return [{ rule, name, verdict: "missed", lacks: [] }];
    if (row.implied?.(objective)) return [];
    const isMet = found.length >= asked && found.every((verdict) => verdict === "met");
    return [
      isMet
        ? { rule, name, verdict: "met", lacks: [] }
        : { rule, name, verdict: "open", lacks: lacksFor(hop, result, steps) },
    ];
  });
}

export function asksAnything({ name, title, clearance, ...asked }: Objective): boolean {
  return clearance.length > 0 || Object.values(asked).some((one) => one !== undefined);
}

/** What is asked of a hop that nothing can be computed of yet. */
export function askedOf(hop: UnformedHop): readonly Pick<Criterion, "rule" | "name">[] {
  const { objective } = hop;
  return ROWS.filter((row) => row.asked(objective, hop) > 0 && !row.implied?.(objective));
}

/** What keeps any of them open. */
export function openLacks(criteria: readonly Criterion[]): ReadonlySet<Lack> {
  return new Set(criteria.flatMap(({ lacks }) => lacks));
}

function lacksFor(hop: Hop, { missing }: HopResult, steps: readonly Step[]): readonly Lack[] {
  const asked = askedMode(hop);
  return missing.filter(
    ({ of, mode }) =>
      of.some((step) => steps.includes(step)) &&
      (mode === undefined || asked === undefined || sameMode(mode, asked)),
  );
}

function once(figure: unknown): number {
  return figure === undefined ? 0 : 1;
}

function bothWays(figure: unknown): number {
  return 2 * once(figure);
}

function ofLink({ objectives = [] }: HopResult, wanted: ObjectiveResult["method"]): readonly Verdict[] {
  return objectives.flatMap(({ method, verdict }) => (method === wanted ? verdict : []));
}

function asksOfLevel({ availabilityPercent, fadeMarginDb, availabilityClass, quality }: Objective): boolean {
  return [availabilityPercent, fadeMarginDb, availabilityClass, quality].some((one) => one !== undefined);
}

/** Rays beside the first antennas', of space diversity or the others. */
function rays(hop: Arranged, diversity: boolean): readonly FurtherRay[] {
  return "ends" in hop ? furtherRays(hop).filter(({ of }) => (of === "diversity") === diversity) : [];
}

function overRays({ furtherPaths = [] }: HopResult, diversity: boolean): readonly Verdict[] {
  return furtherPaths
    .filter(({ of }) => (of === "diversity") === diversity)
    .flatMap(({ clearance }) => clearance.map(({ verdict }) => verdict));
}

function hasStandby(hop: Arranged): boolean {
  if (!("ends" in hop)) return arrangementByName(hop.arrangement.name)?.hotStandby ?? false;
  return hop.ends.some((end) => factsAt(hop, end)?.hotStandby);
}
