/** What each hop carries, normally, in the worst failure and as demands grow; and each failure with what it overloads. */
import { carriedAt, clearAirBps } from "./capacity.js";
import type { Flows } from "./flows.js";
import { mostGrown, outgrownBy, ROUNDING } from "./growth.js";
import { hopShare } from "./hop-share.js";
import type { DemandResult, DemandsResult, FailureResult, HopLoad } from "./result.js";
import type { HopOfNetwork, Traffic } from "./traffic.js";

interface KnownLoad {
  readonly hop: HopOfNetwork;
  /** Of the demands whose first or second route passes it. */
  readonly results: readonly DemandResult[];
  readonly load: HopLoad;
}

type InFailure = Pick<HopLoad, "worst" | "outgrownWithout">;

interface KnownFailures {
  readonly loads: readonly KnownLoad[];
  readonly failures: readonly FailureResult[];
  /** By the number of the hop; undefined: none brings more to it. */
  readonly inFailure: readonly (InFailure | undefined)[];
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
    this.failures = failuresOf(flows, this.loads, isSame ? this.failures : undefined);
    const { failures, inFailure } = this.failures;
    return {
      failures,
      hops: new Map(
        this.loads.map(({ load }, number) => {
          const then = inFailure[number];
          return [load.hop, then === undefined ? load : { ...load, ...then }];
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
        carriedAs: atShare === undefined ? "clear air" : inUse > atShare ? "in use" : "share",
      }),
    ...(share && { share }),
  };
  const demandOf = (one: string) => flows.ranked.get(one)!.demand;
  const grown = mostGrown(load.demands, demandOf, flows.carried);
  if (grown === undefined) return load;
  const outgrown =
    load.carriedBps === undefined
      ? undefined
      : outgrownBy(load.demands, load.carriedBps, demandOf, flows.carried);
  return { ...load, grown, ...(outgrown && { outgrown }) };
}

/** @param known of the same flows: what comes to hops that carry what they carried is left as it is */
function failuresOf(
  flows: Flows,
  loads: readonly KnownLoad[],
  known: KnownFailures | undefined,
): KnownFailures {
  const changed = loads.flatMap(({ load }, hop) => {
    const before = known?.loads[hop]?.load;
    return before !== undefined && before.carriedBps === load.carriedBps ? [] : [hop];
  });
  if (known !== undefined && changed.length === 0) return { ...known, loads };
  const inFailure = known?.inFailure.slice() ?? [];
  for (const hop of changed) inFailure[hop] = inFailureOf(hop, loads[hop]!.load, flows);
  if (known === undefined)
    return {
      loads,
      inFailure,
      failures: flows.ways.failures.map(({ element, lost, moved }, index) => ({
        element,
        lost,
        moved: [...moved.keys()].sort(),
        overloaded: overloadedIn(index, loads, flows),
      })),
    };
  const failures = known.failures.slice();
  for (const index of new Set(changed.flatMap((hop) => flows.comingTo[hop]!.map(({ failure }) => failure))))
    failures[index] = { ...failures[index]!, overloaded: overloadedIn(index, loads, flows) };
  return { loads, failures, inFailure };
}

function overloadedIn(
  failure: number,
  loads: readonly KnownLoad[],
  { more }: Flows,
): FailureResult["overloaded"] {
  return more[failure]!.flatMap(({ hop, committedBps }) => {
    const { hop: name, carriedBps } = loads[hop]!.load;
    return isOver(committedBps, carriedBps) ? [{ hop: name, committedBps, carriedBps: carriedBps! }] : [];
  });
}

function isOver(committedBps: number, carriedBps: number | undefined): boolean {
  return carriedBps !== undefined && committedBps > carriedBps * ROUNDING;
}

/** The most that any failure brings to a hop, and the earliest year in which growth outgrows it in one. */
function inFailureOf(hop: number, load: HopLoad, flows: Flows): InFailure | undefined {
  const { carriedBps } = load;
  let worst: HopLoad["worst"];
  let outgrownWithout: HopLoad["outgrownWithout"];
  for (const { failure, moved } of flows.comingTo[hop]!) {
    const { element } = flows.ways.failures[failure]!;
    const { committedBps, grownBps, names, left } = moved;
    const overloaded = isOver(committedBps, carriedBps);
    if (worst === undefined || committedBps > worst.committedBps)
      worst = { element, committedBps, demands: names, overloaded };
    // Years are counted only where the end of the horizon is too much.
    if (overloaded || !isOver(grownBps, carriedBps)) continue;
    const outgrown = outgrownIn(load, names, left, flows);
    const earliest = outgrownWithout?.year ?? load.outgrown?.year ?? Number.POSITIVE_INFINITY;
    if (outgrown !== undefined && outgrown.year < earliest) outgrownWithout = { ...outgrown, element };
  }
  // What is too much today in some failure is told by that, and need not be told of later years.
  return worst && { worst, ...(outgrownWithout && !worst.overloaded && { outgrownWithout }) };
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
