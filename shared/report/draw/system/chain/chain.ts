/**
 * The chain of a hop: at both ends every branch from its port indoors to its antenna, with what each part and joint
 * takes or gives in both directions and the level behind it. A value: drawings and tests read it.
 */
import type { Branch } from "../../../../equipment/branches.js";
import type { UnitSetting } from "../../../../equipment/units.js";
import type { Joint, LooseEnd, WiredPart } from "../../../../equipment/wiring/wiring.js";
import type { LevelElement, PathLevel } from "../../../../evaluate/account/level-result.js";

export interface HopChain {
  readonly hop: string;
  /** In the order of the hop's ends. */
  readonly ends: readonly [ChainEnd, ChainEnd];
  /** What lies between the antennas, of each direction whose level is known, in the order of the result. */
  readonly air: readonly Air[];
  readonly lacks: readonly ChainLack[];
}

export interface ChainEnd {
  readonly site: string;
  /** One for each branch, in the order of the units of what the end is built as. */
  readonly lines: readonly ChainLine[];
}

export interface ChainLine {
  readonly branch: Branch;
  readonly unit: UnitSetting;
  /** Number of the pair whose receivers cancel each other's polarization. */
  readonly xpicPair?: number;
  /** From indoors to the antenna: parts and joints in turn. */
  readonly steps: readonly ChainStep[];
  /** What the branch sends, and what arrives over it; undefined: not known, or it never does. */
  readonly send?: LineLevels;
  readonly receive?: LineLevels;
  readonly lacks: readonly LooseEnd["lacks"][];
  /** What brings direct current to its unit over a pair of its own. */
  readonly feed?: Joint;
}

export interface LineLevels {
  /** In which they hold: the normal one, or with a unit of this end on standby. */
  readonly state: PathLevel["state"];
  /** The branch at the far end. */
  readonly far: string;
  /** Of the level diagram: at its unit's output, or input. */
  readonly unitDbm: number;
}

interface StepFigures {
  readonly send: Way;
  readonly receive: Way;
}

/** One direction through a step. */
interface Way {
  /** Elements of the level diagram, in the order of the signal. */
  readonly passed: readonly Passed[];
  /** Level behind the step; undefined: not known, or nothing is ever sent this way. */
  readonly levelDbm?: number;
}

export interface Passed {
  readonly passes: LevelElement;
  readonly changeDb: number;
}

export interface PartStep extends StepFigures {
  readonly kind: "part";
  readonly part: WiredPart;
  /** Names of its ports. */
  readonly inner?: string;
  readonly outer?: string;
}

export interface JointStep extends StepFigures {
  readonly kind: "joint";
  readonly joint: Joint;
}

export type ChainStep = PartStep | JointStep;

export interface Air {
  readonly from: string;
  readonly to: string;
  readonly frequencyHz: number;
  readonly losses: readonly Passed[];
}

/** Why the chain is not whole: nothing names the arrangement, no radio, no level. */
export type ChainLack = "arrangement" | "radio" | "level";
