import type { Hop } from "../design/design.js";
import { carriers } from "../radio/arrangements.js";
import type { FadingDirection } from "./availability.js";
import { type ModeFading, outagesAt } from "./outages.js";
import type { DirectionResult, ModeResult } from "./result.js";
import { note, type Trace } from "./trace.js";

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
  const lostPercent = outagesOf(modes, fading, hop.radio?.hysteresisDb ?? 0);
  if (lostPercent === undefined) return direction;
  if (hop.radio?.hysteresisDb)
    note(
      trace,
      "Adaptive modulation: a higher mode counts as lost until the level has come back by the hysteresis.",
    );
  const timed = modes.map((mode, i) => ({
    ...mode,
    timeInUsePercent: Math.max(0, (lostPercent[i + 1] ?? 100) - lostPercent[i]!),
  }));
  return { ...direction, modes: timed, expectedCapacityBps: expected(hop, timed) };
}

/** Outage of each mode, never less than that of a lower one: a radio that has lost it has lost what lies above. */
function outagesOf(
  modes: readonly ModeResult[],
  fading: readonly ModeFading[],
  hysteresisDb: number,
): number[] | undefined {
  const lost: number[] = [];
  for (const [i, mode] of modes.entries()) {
    const percent =
      i === 0 || hysteresisDb === 0
        ? mode.availabilityPercent === undefined
          ? undefined
          : 100 - mode.availabilityPercent
        : outagePercent(fading[i]!, mode.fadeMarginDb - hysteresisDb);
    if (percent === undefined) return undefined;
    lost.push(Math.max(percent, lost[i - 1] ?? 0));
  }
  return lost;
}

function outagePercent(mode: ModeFading, marginDb: number): number | undefined {
  if (!(marginDb > 0)) return 100;
  const { clearAirPercent, rain } = outagesAt(mode, marginDb, undefined, false);
  return clearAirPercent === undefined || rain === undefined
    ? undefined
    : Math.min(100, clearAirPercent + rain.yearPercent);
}

function expected(hop: Hop, modes: readonly ModeResult[]): number | undefined {
  let sum = 0;
  for (const { bitRateBps, timeInUsePercent } of modes) {
    if (bitRateBps === undefined || timeInUsePercent === undefined) return undefined;
    sum += (timeInUsePercent / 100) * bitRateBps;
  }
  return sum * carriers(hop.arrangement.name);
}
