import type { RadioMode } from "../../design/catalogue.js";
import type { Hop } from "../../design/design.js";
import { carriers } from "../../radio/arrangements.js";
import type { ModeResult } from "../account/level-result.js";
import type { Verdict } from "../account/outage-result.js";

/**
 * The mode that an objective is held against: the lowest that carries the capacity asked for over all working
 * carriers, or without such a demand the lowest of all. Modes come lowest rate first. When none carries it, the
 * highest stands in (a finding of its own tells that).
 */
export function askedMode({
  objective,
  arrangement,
  modes,
}: Pick<Hop, "objective" | "arrangement" | "modes">): RadioMode | undefined {
  const capacityBps = objective?.capacityBps;
  if (capacityBps === undefined) return modes[0];
  const count = carriers(arrangement.name);
  const carrying = modes.find(
    (mode) => mode.bitRateBps !== undefined && count * mode.bitRateBps >= capacityBps,
  );
  return carrying ?? modes.at(-1);
}

/**
 * Its result. No other mode stands in for one that came to no margin; where nothing is asked, the lowest that did is told.
 */
export function judgedMode(
  hop: Pick<Hop, "objective" | "arrangement" | "modes">,
  results: readonly ModeResult[],
): ModeResult | undefined {
  if (hop.objective === undefined) return results[0];
  const asked = askedMode(hop);
  return asked && results.find((one) => sameMode(one, asked));
}

/** Why the lowest mode is judged where others are in use too; undefined: a capacity is asked, or there is no choice. */
export function lowestJudged({ objective, modes }: Pick<Hop, "objective" | "modes">): string | undefined {
  const [lowest] = modes;
  if (objective === undefined || objective.capacityBps !== undefined || modes.length < 2) return undefined;
  return `${lowest!.modulation} is judged, the lowest mode: objective ${objective.name} asks no \`capacity\`.`;
}

/** Whether a mode in use carries the capacity asked for; undefined: none is asked. A mode of unknown rate may. */
export function capacityVerdict({
  objective,
  arrangement,
  modes,
}: Pick<Hop, "objective" | "arrangement" | "modes">): Verdict | undefined {
  const capacityBps = objective?.capacityBps;
  if (capacityBps === undefined) return undefined;
  const count = carriers(arrangement.name);
  const rates = modes.flatMap(({ bitRateBps }) => bitRateBps ?? []);
  if (rates.some((rate) => count * rate >= capacityBps)) return "met";
  return rates.length === 0 || rates.length < modes.length ? "open" : "missed";
}

export function sameMode(a: Pick<ModeResult, "modulation" | "bandwidthHz">, b: typeof a): boolean {
  return a.modulation === b.modulation && a.bandwidthHz === b.bandwidthHz;
}
