import type { Hop } from "../../design/design.js";
import { carriers } from "../../radio/arrangements.js";
import type { DirectionResult, ModeResult } from "../account/level-result.js";
import { note, type Trace } from "../account/trace.js";
import type { FadingDirection } from "./availability.js";
import { type ModeFading, outagesAt } from "./outages.js";

/**
 * Adds to each mode of an adaptive range the part of the year in which it is the highest that works, and the mean
 * capacity. A mode above the lowest counts as lost until the level has come back by the hysteresis: the shares are
 * those of the pessimistic side, as the time between leaving and returning is not known.
 */
export function withTimeInUse(
  hop: Hop,
  { direction, modes: fading }: FadingDirection,
  trace: Trace,
): DirectionResult {
  const { modes } = direction;
  if (modes.length < 2) return direction;
  const lost = outagesOf(modes, fading, hop.radio?.hysteresisDb ?? 0);
  if (lost === undefined) return direction;
  if (hop.radio?.hysteresisDb) note(trace, { code: "higher-mode-after-hysteresis" });
  const timed = modes.map((mode, i) => ({
    ...mode,
    timeInUsePercent: Math.max(0, (lost[i + 1]?.percent ?? 100) - lost[i]!.percent),
    timeInUseEstimated: lost[i]!.estimated || lost[i + 1]?.estimated || undefined,
  }));
  return { ...direction, modes: timed, expectedCapacityBps: expected(hop, timed) };
}

interface Lost {
  readonly percent: number;
  readonly estimated: boolean;
}

/** Outage of each mode, never less than that of a lower one: a radio that has lost it has lost what lies above. */
function outagesOf(
  modes: readonly ModeResult[],
  fading: readonly ModeFading[],
  hysteresisDb: number,
): Lost[] | undefined {
  const lost: Lost[] = [];
  for (const [i, mode] of modes.entries()) {
    const own =
      i === 0 || hysteresisDb === 0
        ? outageOfMode(mode)
        : outageAt(fading[i]!, mode.fadeMarginDb - hysteresisDb);
    if (own === undefined) return undefined;
    const below = lost.at(-1);
    lost.push(below !== undefined && below.percent > own.percent ? below : own);
  }
  return lost;
}

function outageOfMode({ availabilityPercent, availabilityAtLeastPercent }: ModeResult): Lost | undefined {
  if (availabilityPercent === undefined) return undefined;
  return { percent: 100 - availabilityPercent, estimated: availabilityAtLeastPercent !== undefined };
}

function outageAt(mode: ModeFading, marginDb: number): Lost | undefined {
  if (!(marginDb > 0)) return { percent: 100, estimated: false };
  const { clearAirPercent, rain } = outagesAt(mode, marginDb, undefined, false);
  if (clearAirPercent === undefined || rain === undefined) return undefined;
  return {
    percent: Math.min(100, clearAirPercent + rain.yearPercent),
    estimated: rain.atMost !== undefined,
  };
}

function expected(hop: Hop, modes: readonly ModeResult[]): number | undefined {
  let sum = 0;
  for (const { bitRateBps, timeInUsePercent } of modes) {
    if (bitRateBps === undefined || timeInUsePercent === undefined) return undefined;
    sum += (timeInUsePercent / 100) * bitRateBps;
  }
  return sum * carriers(hop.arrangement.name);
}
