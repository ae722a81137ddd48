/** What each hop carries, normally, in the worst failure and as demands grow; and each failure with what it overloads. */
import { carriedAt, clearAirBps } from "./capacity.js";
import type { Flows } from "./flows.js";
import { outgrownBy, ROUNDING } from "./growth.js";
import { hopShare } from "./hop-share.js";
import type { DemandResult, DemandsResult, FailureResult, HopLoad } from "./result.js";
import type { HopOfNetwork, Traffic } from "./traffic.js";

interface KnownLoad {
  readonly hop: HopOfNetwork;
  /** Of the demands whose first or second route passes it. */
  readonly results: readonly DemandResult[];
  readonly load: HopLoad;
}

type Worst = ReadonlyMap<number, Pick<HopLoad, "worst" | "outgrownWithout">>;

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
      const results = flows.over[number]!.map((name) => demands.get(name)!);
      const known = isSame ? this.loads[number] : undefined;
      if (known?.hop === hop && known.results.every((one, index) => one === results[index])) return known;
      return { hop, results, load: loadOf(hop, number, results, flows) };
    });
    const carriedBps = this.loads.map(({ load }) => load.carriedBps);
    const known = isSame ? this.failures : undefined;
    this.failures = known?.carriedBps.every((bps, index) => bps === carriedBps[index])
      ? known
      : {
          carriedBps,
          ...failuresOf(
            flows,
            this.loads.map(({ load }) => load),
          ),
        };
    const { failures, worst } = this.failures;
    return {
      failures,
      hops: new Map(
        this.loads.map(({ load }, number) => {
          const inFailure = worst.get(number);
          return [load.hop, inFailure === undefined ? load : { ...load, ...inFailure }];
        }),
      ),
    };
  }
}

function loadOf(hop: HopOfNetwork, number: number, results: readonly DemandResult[], flows: Flows): HopLoad {
  const { name, capacity } = hop;
  const normal = new Set(flows.on[number]!);
  const passing = results
    .filter(({ demand }) => normal.has(demand.name))
    .map(({ hops, verdicts }) => ({ hop: hops.find((one) => one.hop === name)!, verdicts }));
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
  const atShare = percent === undefined ? undefined : (carriedAt(capacity, percent)?.bps ?? 0);
  const held = atShare === undefined ? clear : Math.max(atShare, inUse);
  const share = hopShare(hop, results);
  const load: HopLoad = {
    hop: name,
    demands: flows.on[number]!,
    committedBps: flows.normal.committedBps[number]!,
    peakBps: flows.normal.peakBps[number]!,
    ...(clear !== undefined && { clearAirBps: clear }),
    ...(percent !== undefined && { percent }),
    ...(held !== undefined &&
      capacity.length > 0 && {
        carriedBps: held,
        carriedAs: atShare === undefined ? "clear air" : inUse > atShare ? "needed" : "share",
      }),
    ...(share && { share }),
  };
  const outgrown =
    load.carriedBps === undefined
      ? undefined
      : outgrownBy(load.demands, load.carriedBps, (one) => flows.ranked.get(one)!.demand, flows.carried);
  return outgrown === undefined ? load : { ...load, outgrown };
}

function failuresOf(
  flows: Flows,
  loads: readonly HopLoad[],
): { readonly failures: readonly FailureResult[]; readonly worst: Worst } {
  const {
    ways: { graph, failures },
    more,
  } = flows;
  const worst = new Map<number, Pick<HopLoad, "worst" | "outgrownWithout">>();
  const told = failures.map(({ element, lost, moved }, index): FailureResult => {
    const overloaded: { hop: string; committedBps: number; carriedBps: number }[] = [];
    for (const { hop, committedBps, grownBps, names, left } of more[index]!) {
      const { carriedBps: carried } = loads[hop]!;
      const isOver = carried !== undefined && committedBps > carried * ROUNDING;
      if (isOver) overloaded.push({ hop: graph.hops[hop]!, committedBps, carriedBps: carried });
      const known = worst.get(hop);
      const isWorse = known?.worst === undefined || committedBps > known.worst.committedBps;
      // Years are counted only where the end of the horizon is too much.
      const outgrown =
        carried !== undefined && !isOver && grownBps > carried * ROUNDING
          ? outgrownIn(loads[hop]!, names, left, flows)
          : undefined;
      const isEarlier =
        outgrown !== undefined &&
        outgrown.year <
          (known?.outgrownWithout?.year ?? loads[hop]!.outgrown?.year ?? Number.POSITIVE_INFINITY);
      if (isWorse || isEarlier)
        worst.set(hop, {
          ...known,
          ...(isWorse && { worst: { element, committedBps, demands: names, overloaded: isOver } }),
          ...(isEarlier && { outgrownWithout: { ...outgrown, element } }),
        });
    }
    return { element, lost, moved: [...moved.keys()].sort(), overloaded };
  });
  return { failures: told, worst };
}

/** Of a hop with what comes to it and without what leaves it. */
function outgrownIn(
  { demands, carriedBps }: HopLoad,
  come: readonly string[],
  left: readonly string[],
  { ranked, carried }: Flows,
): HopLoad["outgrown"] {
  const gone = new Set(left);
  const then = [...demands.filter((name) => !gone.has(name)), ...come];
  return outgrownBy(then, carriedBps!, (name) => ranked.get(name)!.demand, carried);
}
