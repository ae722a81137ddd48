import type { Hop } from "../design/design.js";
import { LEVEL_STEPS } from "../evaluate/account/lack.js";
import type { DirectionResult, ModeResult } from "../evaluate/account/level-result.js";
import type { Verdict } from "../evaluate/account/outage-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { judgedMode, lowestJudged } from "../evaluate/level/judged-mode.js";
import { isWhole, judgedOver } from "../evaluate/path/known-ground.js";

export interface JudgedDirection {
  readonly direction: DirectionResult;
  readonly mode: ModeResult;
}

/** Each direction that has a margin in the mode that the objective is held against. */
export function judgedDirections(hop: Hop, { directions }: HopResult): readonly JudgedDirection[] {
  return directions.flatMap((direction) => {
    const mode = judgedMode(hop, direction.modes);
    return mode === undefined ? [] : [{ direction, mode }];
  });
}

/** The direction with the smaller margin in that mode. */
export function weakerDirection(hop: Hop, result: HopResult): JudgedDirection | undefined {
  return judgedDirections(hop, result).reduce<JudgedDirection | undefined>(
    (weaker, one) =>
      weaker === undefined || one.mode.fadeMarginDb < weaker.mode.fadeMarginDb ? one : weaker,
    undefined,
  );
}

/** Whether the level of a mode reaches its threshold. */
export function levelVerdict({ mode }: JudgedDirection): Verdict {
  return verdictOf(mode, (marginDb) => marginDb > 0);
}

/** Missed with the worst channel alone, where it is still to be chosen, is open. */
function verdictOf(
  { fadeMarginDb, bestFadeMarginDb }: ModeResult,
  isMet: (marginDb: number) => boolean,
): Verdict {
  if (isMet(fadeMarginDb)) return "met";
  return bestFadeMarginDb !== undefined && isMet(bestFadeMarginDb) ? "open" : "missed";
}

/** Whether its margin is what the objective asks: over known ground alone it is not known to be. Undefined: none is asked. */
export function marginVerdict(hop: Hop, result: HopResult, { mode }: JudgedDirection): Verdict | undefined {
  const askedDb = hop.objective?.fadeMarginDb;
  if (askedDb === undefined) return undefined;
  const verdict = verdictOf(mode, (marginDb) => marginDb >= askedDb);
  return judgedOver(isWhole(result, LEVEL_STEPS), { verdict })!.verdict;
}

/** Advice, with the word that the lowest mode is judged where the reader could take the figure for that of another. */
export function toldOfMode<Advice extends { readonly help?: string }>(hop: Hop, advice: Advice): Advice {
  const why = lowestJudged(hop);
  return why === undefined ? advice : { ...advice, help: advice.help ? `${advice.help} ${why}` : why };
}
