/** A chain as rows of cells: stages from indoors to the antenna, and what joins two of them; a column for each branch. */
import { type Address, address } from "../../../../design/address.js";
import type { PartKind } from "../../../../equipment/wiring/wiring.js";
import type { ChainEnd, ChainLine, JointStep, PartStep } from "./chain.js";
import {
  type Around,
  antennaWords,
  armWords,
  branchingWords,
  type ChainWords,
  couplerWords,
  indoorWords,
  jointWords,
  lackWords,
  levelWords,
  portWords,
  radiatedWords,
  unitBoxWords,
} from "./words.js";

/** In the order of the signal. */
const STAGES = ["indoor", "unit", "coupler", "branching", "antenna"] as const;

export type Stage = (typeof STAGES)[number];

interface CellBase {
  /** Columns that it spans, both included. */
  readonly from: number;
  readonly to: number;
}

export interface PartCell extends CellBase {
  readonly kind: "part";
  readonly stage: Stage;
  /** The fact that states it, or in which it lacks. */
  readonly at: Address;
  readonly open: boolean;
  readonly proposed: boolean;
  readonly head: readonly ChainWords[];
  /** By column; on the side of the unit. */
  readonly columns: readonly (readonly ChainWords[])[];
}

export interface JointCell extends CellBase {
  readonly kind: "joint";
  readonly proposed: boolean;
  /** Stages of its two ends. */
  readonly between: readonly [Stage, Stage];
  /** Levels on the side of the radio, and behind it, by column. */
  readonly inner: readonly (readonly ChainWords[])[];
  readonly head: readonly ChainWords[];
  readonly outer: readonly (readonly ChainWords[])[];
}

/** What stands between two stages in one row, or in one stage. */
export type Cell = PartCell | JointCell;

const STAGE_OF: Readonly<Record<PartKind, Stage | undefined>> = {
  service: undefined,
  contact: undefined,
  plant: undefined,
  balun: "indoor",
  chassis: "indoor",
  card: "indoor",
  unit: "unit",
  coupler: "coupler",
  branching: "branching",
  antenna: "antenna",
};

/** Stages that any of the ends has: both show the same, so that they stand mirrored. */
export function stagesOf(ends: readonly ChainEnd[]): readonly Stage[] {
  const there = new Set<Stage>(["unit", "antenna"]);
  for (const { steps, lacks } of ends.flatMap(({ lines }) => lines)) {
    for (const step of steps) {
      const stage = step.kind === "part" && STAGE_OF[step.part.kind];
      if (stage) there.add(stage);
    }
    if (lacks.some(isIndoor)) there.add("indoor");
  }
  return STAGES.filter((stage) => there.has(stage));
}

function isIndoor(lack: ChainLine["lacks"][number]): boolean {
  return lack !== "antenna" && lack !== "arm";
}

/** @param lines of the branches that stand beside each other */
export function cellsOf(lines: readonly ChainLine[], around: Around): readonly Cell[] {
  const cells: Cell[] = [];
  for (const stage of STAGES) {
    const parts = lines.map((line) => partAt(line, stage));
    for (const [from, to] of runs(parts.map((step) => step?.part.id)))
      cells.push(partCell(stage, lines.slice(from, to + 1), parts.slice(from, to + 1), from, around));
    for (const [index, line] of lines.entries()) {
      const open = parts[index] === undefined ? openCell(stage, line, index, around) : undefined;
      if (open) cells.push(open);
    }
    const joints = lines.map((line) => jointAfter(line, stage));
    for (const [from, to] of runs(joints.map((found) => found && idOf(found.step)))) {
      const there = joints.slice(from, to + 1).map((found) => found!);
      cells.push(jointCell(stage, there, from, around));
    }
  }
  return cells;
}

function idOf({ joint: { ends } }: JointStep): string {
  return JSON.stringify(ends);
}

/** Stretches of neighbours that have the same, from first to last. */
function runs(ids: readonly (string | undefined)[]): (readonly [number, number])[] {
  const found: [number, number][] = [];
  for (const [index, id] of ids.entries()) {
    if (id === undefined) continue;
    const last = found.at(-1);
    if (last && last[1] === index - 1 && ids[last[0]] === id) last[1] = index;
    else found.push([index, index]);
  }
  return found;
}

function partAt({ steps }: ChainLine, stage: Stage): PartStep | undefined {
  const found = steps.find((step) => step.kind === "part" && STAGE_OF[step.part.kind] === stage);
  return found?.kind === "part" ? found : undefined;
}

interface FoundJoint {
  readonly step: JointStep;
  readonly inner: PartStep;
  readonly outer: PartStep;
}

function jointAfter({ steps }: ChainLine, stage: Stage): FoundJoint | undefined {
  const at = steps.findIndex((step) => step.kind === "part" && STAGE_OF[step.part.kind] === stage);
  const [inner, step, outer] = at < 0 ? [] : steps.slice(at, at + 3);
  return inner?.kind === "part" && step?.kind === "joint" && outer?.kind === "part"
    ? { inner, step, outer }
    : undefined;
}

function partCell(
  stage: Stage,
  lines: readonly ChainLine[],
  steps: readonly (PartStep | undefined)[],
  from: number,
  around: Around,
): PartCell {
  const [first] = steps as [PartStep];
  const { part } = first;
  return {
    kind: "part",
    stage,
    at: part.at,
    from,
    to: from + steps.length - 1,
    open: false,
    proposed: part.proposed === true,
    head: headOf(stage, lines[0]!, first, around),
    columns: steps.map((step, index) => columnOf(stage, step!, lines[index]!)),
  };
}

function headOf(stage: Stage, line: ChainLine, step: PartStep, around: Around): ChainWords[] {
  switch (stage) {
    case "indoor":
      return indoorWords(step);
    case "unit":
      return unitBoxWords(line, step.part);
    case "coupler":
      return couplerWords(step.part);
    case "branching":
      return branchingWords();
    case "antenna":
      return antennaWords(step, line, around);
  }
}

function columnOf(stage: Stage, step: PartStep, line: ChainLine): ChainWords[] {
  switch (stage) {
    case "indoor":
      return portWords(step);
    case "unit":
      return [];
    case "coupler":
    case "branching":
      return armWords(step, line);
    case "antenna":
      return radiatedWords(step);
  }
}

function openCell(stage: Stage, line: ChainLine, index: number, { hop, end }: Around): PartCell | undefined {
  const lacks =
    stage === "indoor"
      ? line.lacks.filter(isIndoor)
      : stage === "antenna"
        ? line.lacks.filter((lack) => !isIndoor(lack))
        : [];
  if (lacks.length === 0) return undefined;
  return {
    kind: "part",
    stage,
    at: address("hop", hop, end.site.name),
    from: index,
    to: index,
    open: true,
    proposed: false,
    head: lackWords({ ...line, lacks }),
    columns: [],
  };
}

function jointCell(stage: Stage, found: readonly FoundJoint[], from: number, around: Around): JointCell {
  const [{ step, outer }] = found as [FoundJoint];
  const hasRadio = stage !== "indoor";
  const loses = step.send.passed.length + step.receive.passed.length > 0;
  return {
    kind: "joint",
    from,
    to: from + found.length - 1,
    proposed: step.joint.proposed === true,
    between: [stage, STAGE_OF[outer.part.kind] ?? "antenna"],
    inner: found.map((one) =>
      hasRadio ? levelWords(one.inner.send.levelDbm, one.step.receive.levelDbm) : [],
    ),
    head: jointWords(step, around),
    outer: found.map((one) =>
      hasRadio && loses ? levelWords(one.step.send.levelDbm, one.outer.receive.levelDbm) : [],
    ),
  };
}
