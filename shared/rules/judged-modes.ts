import type { Hop } from "../design/design.js";
import { judgedMode } from "../evaluate/judged-mode.js";
import type { DirectionResult, HopResult, ModeResult } from "../evaluate/result.js";

export interface JudgedDirection {
  readonly direction: DirectionResult;
  readonly mode: ModeResult;
}

/** The direction with the smaller margin in the mode that the objective is held against. */
export function weakerDirection(hop: Hop, result: HopResult): JudgedDirection | undefined {
  let weaker: JudgedDirection | undefined;
  for (const direction of result.directions) {
    const mode = judgedMode(hop, direction.modes);
    if (mode === undefined) continue;
    if (weaker === undefined || mode.fadeMarginDb < weaker.mode.fadeMarginDb) weaker = { direction, mode };
  }
  return weaker;
}
