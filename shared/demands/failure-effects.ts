/** Failures sorted by what they do: to all demands together, and the worst of them to each. */
import type { Element } from "./failures.js";
import type { DemandResult, DemandsResult, FailureResult } from "./result.js";

/** What the failures of one element at a time come to for a demand, elements at its ends left out. */
export type WorstFailure =
  | { readonly effect: "lost"; readonly elements: readonly Element[] }
  /** It moves, and some hop has more committed then than it carries. */
  | { readonly effect: "overloads"; readonly element: Element; readonly hops: readonly string[] }
  /** It moves, and no hop is known to carry less than what is committed. */
  | { readonly effect: "moves"; readonly failures: number };

/** @returns by name of the demand; those without a route have none */
export function worstFailures({ demands, failures }: DemandsResult): ReadonlyMap<string, WorstFailure> {
  const worst = new Map<string, WorstFailure>();
  for (const { demand, singlePoints } of demands.values())
    if (singlePoints.length > 0) worst.set(demand.name, { effect: "lost", elements: singlePoints });
  for (const { element, moved, overloaded } of failures)
    for (const name of moved) {
      const known = worst.get(name);
      if (known?.effect === "lost") continue;
      const hops = overloaded.map(({ hop }) => hop);
      if (hops.length > (known?.effect === "overloads" ? known.hops.length : 0))
        worst.set(name, { effect: "overloads", element, hops });
      else if (known?.effect !== "overloads")
        worst.set(name, { effect: "moves", failures: (known?.failures ?? 0) + 1 });
    }
  return worst;
}

export interface SortedFailures {
  /** They cost a demand that does not come from there its route, or overload a hop; most committed lost first. */
  readonly grave: readonly FailureResult[];
  /** Sites of which nothing is lost but what comes from there. */
  readonly ownOnly: number;
  /** Traffic moves, and fits. */
  readonly movedOnly: number;
}

/** Each failure counts once. */
export function sortedFailures({ demands, failures }: DemandsResult): SortedFailures {
  const grave: FailureResult[] = [];
  let [ownOnly, movedOnly] = [0, 0];
  for (const failure of failures) {
    const { element, lost, overloaded } = failure;
    const comesFromThere = (name: string) =>
      element.kind === "site" && demands.get(name)!.demand.from === element.name;
    if (overloaded.length > 0 || !lost.every(comesFromThere)) grave.push(failure);
    else if (lost.length > 0) ownOnly++;
    else movedOnly++;
  }
  const lostBps = ({ lost }: FailureResult) => committedBps(lost.map((name) => demands.get(name)!));
  const known = new Map(grave.map((failure) => [failure, lostBps(failure)]));
  grave.sort((a, b) => known.get(b)! - known.get(a)! || b.overloaded.length - a.overloaded.length);
  return { grave, ownOnly, movedOnly };
}

/** Hops that no demand passes, on a second route or after any failure either. */
export function idleHops({ demands, hops }: Pick<DemandsResult, "demands" | "hops">): ReadonlySet<string> {
  const seconds = new Set([...demands.values()].flatMap(({ second }) => second?.hops ?? []));
  const idle = [...hops.values()].filter(
    ({ hop, demands: on, worst }) => on.length === 0 && worst === undefined && !seconds.has(hop),
  );
  return new Set(idle.map(({ hop }) => hop));
}

/** Of demands together. */
export function committedBps(demands: readonly DemandResult[]): number {
  return demands.reduce((sum, { taken }) => sum + taken.committedBps, 0);
}

/** Whether it is known of every hop that has something to carry, normally or in a failure, what it carries. */
export function areLoadsKnown({ hops }: Pick<DemandsResult, "hops">): boolean {
  return [...hops.values()].every(
    ({ carriedBps, demands, worst }) =>
      carriedBps !== undefined || (demands.length === 0 && worst === undefined),
  );
}
