/** What a hop carries for how much of the year: a distribution, of one step where the mode is fixed. */
import type { Hop } from "../design/design.js";
import type { Bound } from "../evaluate/account/outage-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { sameMode } from "../evaluate/level/judged-mode.js";
import { carriers } from "../radio/arrangements.js";

/** A mode that both directions keep, and for how long they do not. */
export interface CapacityStep {
  readonly modulation: string;
  /** Over all carriers, each direction. */
  readonly bps: number;
  /** Of the direction with less. */
  readonly fadeMarginDb: number;
  /** Shares of the average year; undefined: not known. Multipath of both directions, rain of the worse. */
  readonly multipathFraction?: number;
  readonly rainFraction?: number;
  /** Where rain is only bounded. */
  readonly rainBound?: Bound;
}

/** Of a hop; the lowest rate first. Empty: no mode has both a rate and a level. */
export type Capacity = readonly CapacityStep[];

export function capacityOf(hop: Hop, { directions }: HopResult): Capacity {
  const [there, back] = directions;
  if (there === undefined || back === undefined) return [];
  const count = carriers(hop.arrangement.name);
  const steps = there.modes.flatMap((mode): CapacityStep[] => {
    const other = back.modes.find((one) => sameMode(one, mode));
    if (other === undefined || mode.bitRateBps === undefined) return [];
    const fadeMarginDb = Math.min(mode.fadeMarginDb, other.fadeMarginDb);
    const common = { modulation: mode.modulation, bps: count * mode.bitRateBps, fadeMarginDb };
    // Without a margin it never works.
    if (!(fadeMarginDb > 0)) return [{ ...common, multipathFraction: 1, rainFraction: 0 }];
    const multipath = both(mode.multipath?.timePercent, other.multipath?.timePercent, (a, b) => a + b);
    const rain = both(mode.rain?.timePercent, other.rain?.timePercent, Math.max);
    const worse = (mode.rain?.timePercent ?? 0) >= (other.rain?.timePercent ?? 0) ? mode.rain : other.rain;
    return [
      {
        ...common,
        ...(multipath !== undefined && { multipathFraction: Math.min(1, multipath / 100) }),
        ...(rain !== undefined && { rainFraction: Math.min(1, rain / 100) }),
        ...(worse?.bound !== undefined && { rainBound: worse.bound }),
      },
    ];
  });
  return steps.sort((a, b) => a.bps - b.bps);
}

function both(
  one: number | undefined,
  other: number | undefined,
  together: (a: number, b: number) => number,
): number | undefined {
  return one === undefined || other === undefined ? undefined : together(one, other);
}

/** The lowest mode that carries a rate; undefined: none does. */
export function stepCarrying(capacity: Capacity, bps: number): CapacityStep | undefined {
  // A bit in a million is rounding of what was summed.
  return capacity.find((step) => step.bps * (1 + 1e-6) >= bps);
}

/** Most that is carried for a share of the year; undefined: it is not known of any mode that is high enough. */
export function carriedAt(capacity: Capacity, percent: number): CapacityStep | undefined {
  return capacity.findLast(
    ({ multipathFraction, rainFraction }) =>
      multipathFraction !== undefined &&
      rainFraction !== undefined &&
      100 * (multipathFraction + rainFraction) <= 100 - percent + 1e-12,
  );
}

/** Most in clear air. */
export function clearAirBps(capacity: Capacity): number | undefined {
  return capacity.findLast(({ fadeMarginDb }) => fadeMarginDb > 0)?.bps;
}
