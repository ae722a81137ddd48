/** Growth of demands year by year, against what a hop carries today: as the network is, and when an element fails. */
import type { Demand } from "../design/demand.js";
import type { Carried } from "./load.js";
import type { Taken } from "./rates.js";

/** A bit in a million is rounding of what was summed. */
export const ROUNDING = 1 + 1e-6;

type Growing = Pick<Demand, "growthPercent" | "growthYears">;

/** By how much the Ethernet rates of a demand have grown in a year from now, as it states; behind its horizon they stay. */
function growthFactor({ growthPercent = 0, growthYears = 0 }: Growing, year: number): number {
  return (1 + growthPercent / 100) ** Math.min(year, growthYears);
}

/** The most that is committed for a demand within its horizon: what shrinks is largest today. TDM does not grow. */
export function mostGrownBps(demand: Growing, { committedBps, tdmBps }: Taken): number {
  return tdmBps + (committedBps - tdmBps) * Math.max(1, growthFactor(demand, demand.growthYears ?? 0));
}

export interface Grown {
  /** From today's figures, those of year 0. */
  readonly year: number;
  readonly committedBps: number;
}

export interface Outgrown {
  /** From today's figures, those of year 0. */
  readonly year: number;
  readonly committedBps: number;
  readonly carriedBps: number;
  /** The demand whose growth until then adds most. */
  readonly mostBy: string;
}

/**
 * The first year in which what is committed on a hop is more than it carries today; undefined: within all horizons
 * none, or it is more already.
 * @param names demands on it
 */
export function outgrownBy(
  names: readonly string[],
  carriedBps: number,
  demandOf: (name: string) => Growing,
  carried: ReadonlyMap<string, Pick<Carried, "committedBps" | "tdmBps">>,
): Outgrown | undefined {
  const growing = growingOn(names, demandOf, carried);
  for (const { year, committedBps } of yearsOf(growing)) {
    if (committedBps <= carriedBps * ROUNDING) continue;
    if (year === 0) return undefined;
    const addedBps = ({ demand, ethernetBps }: GrowingPart) => ethernetBps * (growthFactor(demand, year) - 1);
    const most = growing.reduce((most, one) => (addedBps(one) > addedBps(most) ? one : most));
    return { year, committedBps, carriedBps, mostBy: most.name };
  }
  return undefined;
}

/**
 * The year in which most is committed on a hop, the first of several; undefined: within all horizons it is never more than
 * today.
 * @param names demands on it
 */
export function mostGrown(
  names: readonly string[],
  demandOf: (name: string) => Growing,
  carried: ReadonlyMap<string, Pick<Carried, "committedBps" | "tdmBps">>,
): Grown | undefined {
  let most: Grown | undefined;
  for (const grown of yearsOf(growingOn(names, demandOf, carried)))
    if (most === undefined || grown.committedBps > most.committedBps * ROUNDING) most = grown;
  return most === undefined || most.year === 0 ? undefined : most;
}

interface GrowingPart {
  readonly name: string;
  readonly demand: Growing;
  readonly tdmBps: number;
  readonly ethernetBps: number;
}

function growingOn(
  names: readonly string[],
  demandOf: (name: string) => Growing,
  carried: ReadonlyMap<string, Pick<Carried, "committedBps" | "tdmBps">>,
): readonly GrowingPart[] {
  return names.map((name) => {
    const { committedBps, tdmBps } = carried.get(name)!;
    return { name, demand: demandOf(name), tdmBps, ethernetBps: committedBps - tdmBps };
  });
}

/** What is committed in all of them together, from today to the last horizon. */
function* yearsOf(growing: readonly GrowingPart[]): Generator<Grown> {
  const horizon = growing.reduce((most, { demand: { growthYears = 0 } }) => Math.max(most, growthYears), 0);
  for (let year = 0; year <= horizon; year++) {
    const committedBps = growing.reduce(
      (sum, { demand, tdmBps, ethernetBps }) => sum + tdmBps + ethernetBps * growthFactor(demand, year),
      0,
    );
    yield { year, committedBps };
  }
}
