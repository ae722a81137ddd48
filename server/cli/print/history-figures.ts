import { worstClearance } from "../../../shared/report/pages/figures.js";
import { weakerDirection } from "../../../shared/rules/judged-modes.js";
import type { HistoryEntry } from "../../compare/hop-history.js";

/** What a hop came to at a commit, as far as it could be judged then. */
export function figures({ judged, errors }: HistoryEntry) {
  if (!judged) return { errors };
  const { availability: found } = judged.result;
  const weaker = weakerDirection(judged.hop, judged.result)?.mode;
  return {
    errors,
    clearance: worstClearance(judged.result),
    fadeMarginDb: weaker?.fadeMarginDb,
    modulation: weaker?.modulation,
    availabilityPercent: found?.availabilityPercent,
    availabilityBound: found?.bound,
    availabilityAtLeastPercent: found?.atLeastPercent,
  };
}
