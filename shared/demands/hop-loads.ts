/** What each hop carries, normally, in the worst failure and as demands grow; and each failure with what it overloads. */
import { carriedAt, clearAirBps } from "./capacity.js";
import { loadsWithout } from "./load.js";
import type { DemandResult, DemandsResult, FailureResult, HopLoad } from "./result.js";
import type { Traffic } from "./traffic.js";

/** A bit in a million is rounding of what was summed. */
const ROUNDING = 1 + 1e-6;

export function hopLoadsOf(
  traffic: Traffic,
  demands: ReadonlyMap<string, DemandResult>,
): Pick<DemandsResult, "hops" | "failures"> {
  const { ways, hops: network, normal, carried } = traffic;
  const on = new Map<number, string[]>();
  for (const { name, way } of carried.values())
    for (const hop of way.hops) {
      const known = on.get(hop);
      if (known === undefined) on.set(hop, [name]);
      else known.push(name);
    }
  const loads = network.map(({ name, capacity }, number): HopLoad & { carriedBps?: number } => {
    const names = (on.get(number) ?? []).sort();
    const onIt = names.map((demand) => demands.get(demand)!);
    const shares = onIt.flatMap(({ hops }) => hops.find(({ hop }) => hop === name)?.sharePercent ?? []);
    const percent = shares.length === 0 ? undefined : 100 - Math.min(...shares);
    const inUse = onIt.flatMap(({ hops, verdicts }) =>
      verdicts.availability === "missed" ? [] : (hops.find(({ hop }) => hop === name)?.bps ?? []),
    );
    const clear = clearAirBps(capacity);
    // Where all that is asked is met by a mode that falls short of the hop's share, the others make up for it.
    const held = percent === undefined ? clear : Math.max(carriedAt(capacity, percent)?.bps ?? 0, ...inUse);
    return {
      hop: name,
      demands: names,
      committedBps: normal.committedBps[number]!,
      peakBps: normal.peakBps[number]!,
      ...(clear !== undefined && { clearAirBps: clear }),
      ...(percent !== undefined && { percent }),
      ...(held !== undefined && capacity.length > 0 && { carriedBps: held }),
    };
  });
  const worst = new Map<number, NonNullable<HopLoad["worst"]>>();
  const failures = ways.failures.map((failure): FailureResult => {
    const { element, lost, moved } = failure;
    const more = loadsWithout(failure, normal, carried);
    const overloaded: { hop: string; committedBps: number; carriedBps: number }[] = [];
    for (const { hop, committedBps, names } of more) {
      const { carriedBps } = loads[hop]!;
      const isOver = carriedBps !== undefined && committedBps > carriedBps * ROUNDING;
      if (isOver) overloaded.push({ hop: network[hop]!.name, committedBps, carriedBps });
      const known = worst.get(hop);
      if (known === undefined || committedBps > known.committedBps)
        worst.set(hop, { element, committedBps, demands: [...names].sort(), overloaded: isOver });
    }
    return { element, lost, moved: [...moved.keys()].sort(), overloaded };
  });
  const hops = new Map(
    loads.map((load, number) => {
      const heaviest = worst.get(number);
      const outgrown = outgrownOf(load, traffic);
      return [load.hop, { ...load, ...(heaviest && { worst: heaviest }), ...(outgrown && { outgrown }) }];
    }),
  );
  return { hops, failures };
}

/** The first year in which what is committed on the hop has outgrown what it carries today. */
function outgrownOf(
  { demands, committedBps, carriedBps }: HopLoad,
  { ranked, carried }: Traffic,
): HopLoad["outgrown"] {
  if (carriedBps === undefined || committedBps > carriedBps * ROUNDING) return undefined;
  const growing = demands.map((name) => {
    const { growthPercent = 0, growthYears = 0 } = ranked.get(name)!.demand;
    return { growthPercent, growthYears, bps: carried.get(name)!.committedBps };
  });
  const horizon = Math.max(0, ...growing.map(({ growthYears }) => growthYears));
  for (let year = 1; year <= horizon; year++) {
    const then = growing.reduce(
      (sum, { growthPercent, growthYears, bps }) =>
        sum + bps * (1 + growthPercent / 100) ** Math.min(year, growthYears),
      0,
    );
    if (then > carriedBps * ROUNDING) return { year, committedBps: then, carriedBps };
  }
  return undefined;
}
