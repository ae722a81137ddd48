import { type BranchPath, branchesOf, pathsBetween, type Side } from "../../shared/equipment/branches.js";
import type { ArrangementFacts } from "../../shared/radio/arrangements.js";

/** Every way through the hop in one direction, with the usual joins at both ends; those of the normal state first. */
export function pathsOf(facts: ArrangementFacts, from: Side = 0): readonly BranchPath[] {
  const at = (side: Side) => ({ facts, branches: branchesOf(facts, undefined, side) });
  return pathsBetween(at(from), at(from === 0 ? 1 : 0));
}
