/** What the branching of an arrangement loses over the hop, with the usual losses of its couplers. */
import type { Coupler, CouplerKind } from "../../design/catalogue.js";
import { armLossDb, branchingLossDb } from "../../equipment/branch-loss.js";
import {
  type Branch,
  branchesOf,
  type Join,
  type PathState,
  pathsBetween,
  type Side,
} from "../../equipment/branches.js";
import type { ArrangementFacts } from "../../radio/arrangements.js";

/** Whether both arms of a coupler lose alike. */
export type Split = "equal" | "unequal";

/** Usual losses, dB. Common practice, from memory, unconfirmed; that no arm of an equal hybrid is below 3.01 dB is physics. */
const USUAL_LOSS_DB = {
  equal: 3.5,
  main: 1.6,
  standby: 6.4,
  omt: 0.4,
  relay: 0.5,
  filter: 0.7,
  pass: 0.15,
} as const;

/** The usual coupler of a kind, as the catalogue would have it. */
function usualCoupler(kind: CouplerKind, split: Split): Coupler {
  const { equal, main, standby, omt, relay } = USUAL_LOSS_DB;
  const name = `usual ${kind}`;
  if (kind === "omt") return { name, kind, mainLossDb: omt };
  const before = kind === "dual-polarized" ? omt : 0;
  const transmitLossDb = kind === "splitter" ? relay : undefined;
  return split === "equal"
    ? { name, kind, mainLossDb: before + equal, transmitLossDb }
    : { name, kind, mainLossDb: before + main, standbyLossDb: before + standby, transmitLossDb };
}

/** What joins units to each antenna: the arrangement's coupler, and nothing where one unit hangs alone. */
function joinsOf(facts: ArrangementFacts): readonly Join[] {
  const branches = branchesOf(facts);
  return Array.from({ length: facts.antennas }, (_, index) => {
    const units = branches.filter(({ antenna }) => antenna === index + 1).length;
    return facts.coupler !== undefined && units > 1 ? facts.coupler : "none";
  });
}

export interface BranchingCost {
  readonly state: PathState;
  /** In the symbols of `SYMBOLS`, `Ce+Ce`; empty: nothing is lost. */
  readonly formula: string;
  readonly lossDb: number;
  /** Paths that lose it. */
  readonly paths: number;
}

/**
 * Costs of every state, those that are alike told once; waveguides and feeders are not in them.
 * @param far what the receiving end is built as
 */
export function branchingCosts(
  facts: ArrangementFacts,
  split: Split,
  far: ArrangementFacts = facts,
): readonly BranchingCost[] {
  const endOf = (built: ArrangementFacts, side: Side) => {
    const joins = joinsOf(built);
    return { facts: built, joins, branches: branchesOf(built, joins, side) };
  };
  const [one, other] = [endOf(facts, 0), endOf(far, 1)];
  const costs = new Map<string, BranchingCost>();
  for (const { state, from, to } of pathsBetween(one, other)) {
    const ends = [lossAt(one, split, from, "transmit"), lossAt(other, split, to, "receive")] as const;
    const formula = ends.flatMap(({ symbols }) => symbols).join("+");
    const lossDb = ends[0].lossDb + ends[1].lossDb;
    const key = `${state} ${formula}`;
    costs.set(key, { state, formula, lossDb, paths: (costs.get(key)?.paths ?? 0) + 1 });
  }
  return [...costs.values()];
}

function lossAt(
  { facts, joins }: { readonly facts: ArrangementFacts; readonly joins: readonly Join[] },
  split: Split,
  branch: Branch,
  direction: "transmit" | "receive",
): { readonly symbols: readonly string[]; readonly lossDb: number } {
  const join = joins[branch.antenna - 1];
  const isCoupler = join !== undefined && join !== "none" && join !== "nothing";
  const arm = isCoupler ? armLossDb(usualCoupler(join, split), branch, direction)! : 0;
  const network = facts.construction === "all-indoor";
  const { filter, pass } = USUAL_LOSS_DB;
  return {
    symbols: [
      ...(isCoupler ? symbolsOf(join, branch, split, direction) : []),
      ...(network ? [`B${branch.position}`] : []),
    ],
    lossDb: arm + (network ? branchingLossDb({ filterDb: filter, passDb: pass }, branch.position) : 0),
  };
}

function symbolsOf(
  kind: CouplerKind,
  { arm }: Branch,
  split: Split,
  direction: "transmit" | "receive",
): readonly string[] {
  if (kind === "splitter" && direction === "transmit") return ["S"];
  const ofArm = split === "equal" ? "Ce" : arm === "standby" ? "Cs" : "Cm";
  if (kind === "omt") return ["O"];
  return kind === "dual-polarized" ? ["O", ofArm] : [ofArm];
}

/** What a symbol of a formula stands for. */
export function symbolWords(symbol: string): string {
  const { equal, main, standby, omt, relay, filter, pass } = USUAL_LOSS_DB;
  switch (symbol) {
    case "Ce":
      return `arm of an equal hybrid, ${equal} dB (usual 3.3 to 3.8 dB; never below 3.01 dB, half of the power)`;
    case "Cm":
      return `main arm of an unequal hybrid, ${main} dB (usual 1.2 to 1.8 dB beside a standby arm of 6 to 7 dB)`;
    case "Cs":
      return `standby arm of an unequal hybrid, ${standby} dB (usual 6 to 7 dB)`;
    case "O":
      return `arm of an orthomode transducer, ${omt} dB (usual 0.2 to 0.5 dB)`;
    case "S":
      return `transmit relay, ${relay} dB`;
    default: {
      const place = Number(symbol.slice(1));
      return `branching network at place ${place}: a filter of ${filter} dB and ${place} ${place === 1 ? "pass" : "passes"} of ${pass} dB`;
    }
  }
}
