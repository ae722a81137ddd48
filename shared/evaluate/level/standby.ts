import type { Hop } from "../../design/design.js";
import { hasSecondWayOut } from "../../equipment/branches.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import type { DirectionResult, StandbyResult } from "../account/level-result.js";
import { judgedMode } from "./judged-mode.js";

/**
 * The least margin of any state that can occur with a unit on standby (the receiver's, the sender's, both), in both
 * directions and in the judged mode, against the objective's `standby-margin`, else against none at all: the level must
 * reach the threshold.
 * @returns undefined where neither end has a unit on standby
 */
export function standbyResult(hop: Hop, directions: readonly DirectionResult[]): StandbyResult | undefined {
  const ends = hop.ends.map((end) => factsAt(hop, end));
  if (!ends.some((facts) => facts?.hotStandby)) return undefined;
  const askedDb = hop.objective?.standbyMarginDb;
  const each = directions.map((direction) => weakestOf(hop, direction));
  const known = each.filter((one) => one !== undefined);
  const weakest = known.toSorted((a, b) => a.fadeMarginDb - b.fadeMarginDb)[0];
  const missed = weakest !== undefined && weakest.fadeMarginDb < (askedDb ?? 0) - ROUNDING_DB;
  const complete =
    directions.length === 2 &&
    directions.every(
      (direction, index) =>
        !direction.pathsIncomplete && (each[index] !== undefined || !switches(hop, direction)),
    );
  return { askedDb, verdict: missed ? "missed" : complete ? "met" : "open", weakest };
}

/** Whether a direction has another way in any state: the relay of an all-indoor sender alone makes none. */
function switches(hop: Hop, { from, to }: DirectionResult): boolean {
  return hop.ends.some((end) => {
    const facts = factsAt(hop, end);
    if (facts === undefined) return false;
    const { name } = end.site;
    return (name === from && hasSecondWayOut(facts)) || (name === to && facts.hotStandby);
  });
}

/** Sums of decibels that should be equal. */
const ROUNDING_DB = 1e-9;

function weakestOf(hop: Hop, direction: DirectionResult): StandbyResult["weakest"] {
  const mode = judgedMode(hop, direction.modes);
  const path = (direction.paths ?? [])
    .filter(({ state }) => state !== "normal")
    .toSorted((a, b) => a.receivedLevelDbm - b.receivedLevelDbm)[0];
  if (mode === undefined || path === undefined || path.state === "normal") return undefined;
  // Paths are told in the reference mode; the judged mode may have another power.
  const lessDb = direction.receivedLevelDbm - path.receivedLevelDbm;
  return {
    state: path.state,
    from: direction.from,
    to: direction.to,
    modulation: mode.modulation,
    bandwidthHz: mode.bandwidthHz,
    receivedLevelDbm: mode.receivedLevelDbm - lessDb,
    thresholdDbm: mode.thresholdDbm,
    degradationDb: mode.degradationDb,
    fadeMarginDb: mode.fadeMarginDb - lessDb,
    lessThanNormalDb: lessDb,
    diffractionDb: path.diffractionDb,
  };
}
