/** What each hop carries, normally, in the worst failure and as demands grow; and each failure with what it overloads. */
import { carriedAt, clearAirBps } from "./capacity.js";
import type { Flows } from "./flows.js";
import type { DemandResult, DemandsResult, FailureResult, HopLoad } from "./result.js";
import type { HopOfNetwork, Traffic } from "./traffic.js";

/** A bit in a million is rounding of what was summed. */
const ROUNDING = 1 + 1e-6;

interface KnownLoad {
  readonly hop: HopOfNetwork;
  /** Of the demands on it. */
  readonly results: readonly DemandResult[];
  readonly load: HopLoad;
}

type Worst = ReadonlyMap<number, NonNullable<HopLoad["worst"]>>;

interface KnownFailures {
  readonly carriedBps: readonly (number | undefined)[];
  readonly failures: readonly FailureResult[];
  readonly worst: Worst;
}

export class HopLoads {
  private flows: Pick<Flows, "ways" | "key"> | undefined;
  private loads: readonly KnownLoad[] = [];
  private failures: KnownFailures | undefined;

  of(
    { flows, hops }: Traffic,
    demands: ReadonlyMap<string, DemandResult>,
  ): Pick<DemandsResult, "hops" | "failures"> {
    const isSame = this.flows?.ways === flows.ways && this.flows.key === flows.key;
    this.flows = flows;
    this.loads = hops.map((hop, number) => {
      const results = flows.on[number]!.map((name) => demands.get(name)!);
      const known = isSame ? this.loads[number] : undefined;
      if (known?.hop === hop && known.results.every((one, index) => one === results[index])) return known;
      return { hop, results, load: loadOf(hop, number, results, flows) };
    });
    const carriedBps = this.loads.map(({ load }) => load.carriedBps);
    const known = isSame ? this.failures : undefined;
    this.failures = known?.carriedBps.every((bps, index) => bps === carriedBps[index])
      ? known
      : { carriedBps, ...failuresOf(flows, carriedBps) };
    const { failures, worst } = this.failures;
    return {
      failures,
      hops: new Map(
        this.loads.map(({ load }, number) => {
          const heaviest = worst.get(number);
          return [load.hop, heaviest === undefined ? load : { ...load, worst: heaviest }];
        }),
      ),
    };
  }
}

function loadOf(
  { name, capacity }: HopOfNetwork,
  number: number,
  results: readonly DemandResult[],
  flows: Flows,
): HopLoad {
  const passing = results.map(({ hops, verdicts }) => ({
    hop: hops.find(({ hop }) => hop === name)!,
    verdicts,
  }));
  const percent = passing.reduce<number | undefined>(
    (most, { hop: { sharePercent } }) =>
      sharePercent === undefined ? most : Math.max(most ?? 0, 100 - sharePercent),
    undefined,
  );
  const clear = clearAirBps(capacity);
  // Where all that is asked is met by a mode that falls short of the hop's share, the others make up for it.
  const inUse = passing.reduce(
    (most, { hop: { bps = 0 }, verdicts }) =>
      verdicts.availability === "missed" ? most : Math.max(most, bps),
    0,
  );
  const held = percent === undefined ? clear : Math.max(carriedAt(capacity, percent)?.bps ?? 0, inUse);
  const load = {
    hop: name,
    demands: flows.on[number]!,
    committedBps: flows.normal.committedBps[number]!,
    peakBps: flows.normal.peakBps[number]!,
    ...(clear !== undefined && { clearAirBps: clear }),
    ...(percent !== undefined && { percent }),
    ...(held !== undefined && capacity.length > 0 && { carriedBps: held }),
  };
  const outgrown = outgrownOf(load, flows);
  return outgrown === undefined ? load : { ...load, outgrown };
}

function failuresOf(
  { ways: { graph, failures }, more }: Flows,
  carriedBps: readonly (number | undefined)[],
): { readonly failures: readonly FailureResult[]; readonly worst: Worst } {
  const worst = new Map<number, NonNullable<HopLoad["worst"]>>();
  const told = failures.map(({ element, lost, moved }, index): FailureResult => {
    const overloaded: { hop: string; committedBps: number; carriedBps: number }[] = [];
    for (const { hop, committedBps, names } of more[index]!) {
      const carried = carriedBps[hop];
      const isOver = carried !== undefined && committedBps > carried * ROUNDING;
      if (isOver) overloaded.push({ hop: graph.hops[hop]!, committedBps, carriedBps: carried });
      const known = worst.get(hop);
      if (known === undefined || committedBps > known.committedBps)
        worst.set(hop, { element, committedBps, demands: names, overloaded: isOver });
    }
    return { element, lost, moved: [...moved.keys()].sort(), overloaded };
  });
  return { failures: told, worst };
}

/** The first year in which what is committed on the hop has outgrown what it carries today. */
function outgrownOf(
  { demands, committedBps, carriedBps }: HopLoad,
  { ranked, carried }: Flows,
): HopLoad["outgrown"] {
  if (carriedBps === undefined || committedBps > carriedBps * ROUNDING) return undefined;
  const growing = demands.map((name) => {
    const { growthPercent = 0, growthYears = 0 } = ranked.get(name)!.demand;
    return { growthPercent, growthYears, bps: carried.get(name)!.committedBps };
  });
  const horizon = growing.reduce((most, { growthYears }) => Math.max(most, growthYears), 0);
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
