import type { Hop } from "../design/design.js";
import { carriers } from "../radio/arrangements.js";
import type { ModeResult } from "./result.js";

/**
 * The mode that an objective is held against: the lowest that carries the capacity asked for over all working
 * carriers, or without such a demand the lowest of all. Modes come lowest rate first. When none carries it, the
 * highest stands in (a finding of its own tells that).
 */
export function judgedMode(
  { objective, arrangement }: Pick<Hop, "objective" | "arrangement">,
  modes: readonly ModeResult[],
): ModeResult | undefined {
  const capacityBps = objective?.capacityBps;
  if (capacityBps === undefined) return modes[0];
  const count = carriers(arrangement.name);
  const carrying = modes.find(
    (mode) => mode.bitRateBps !== undefined && count * mode.bitRateBps >= capacityBps,
  );
  return carrying ?? modes.at(-1);
}

export function sameMode(a: Pick<ModeResult, "modulation" | "bandwidthHz">, b: typeof a): boolean {
  return a.modulation === b.modulation && a.bandwidthHz === b.bandwidthHz;
}
