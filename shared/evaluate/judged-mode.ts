import type { Objective } from "../design/design.js";
import type { ModeResult } from "./result.js";

/**
 * The mode that an objective is held against: the lowest that carries the capacity asked for, or without such a
 * demand the lowest of all. Modes come lowest rate first. When none carries it, the highest stands in (a finding
 * of its own tells that).
 */
export function judgedMode(
  objective: Objective | undefined,
  modes: readonly ModeResult[],
): ModeResult | undefined {
  const capacityBps = objective?.capacityBps;
  if (capacityBps === undefined) return modes[0];
  return (
    modes.find((mode) => mode.bitRateBps !== undefined && mode.bitRateBps >= capacityBps) ?? modes.at(-1)
  );
}

export function sameMode(a: Pick<ModeResult, "modulation" | "bandwidthHz">, b: typeof a): boolean {
  return a.modulation === b.modulation && a.bandwidthHz === b.bandwidthHz;
}
