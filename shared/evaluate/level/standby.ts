import type { Hop } from "../../design/design.js";
import { arrangementByName } from "../../radio/arrangements.js";
import type { DirectionResult, StandbyResult } from "../account/level-result.js";
import { judgedMode } from "./judged-mode.js";

/**
 * The least margin of any state that can occur with a unit on standby (the receiver's, the sender's, both), in both
 * directions and in the judged mode, against the objective's `standby-margin`, else against none at all: the level must
 * reach the threshold.
 * @returns undefined for an arrangement without hot standby
 */
export function standbyResult(hop: Hop, directions: readonly DirectionResult[]): StandbyResult | undefined {
  if (!arrangementByName(hop.arrangement.name)?.hotStandby) return undefined;
  const askedDb = hop.objective?.standbyMarginDb;
  const each = directions.map((direction) => weakestOf(hop, direction));
  const known = each.filter((one) => one !== undefined);
  const weakest = known.toSorted((a, b) => a.fadeMarginDb - b.fadeMarginDb)[0];
  const missed = weakest !== undefined && weakest.fadeMarginDb < (askedDb ?? 0) - ROUNDING_DB;
  const complete = known.length === 2 && directions.every(({ pathsIncomplete }) => !pathsIncomplete);
  return { askedDb, verdict: missed ? "missed" : complete ? "met" : "open", weakest };
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
