/** How routes, elements and problems of demands are told. */

import type { Element } from "../demands/failures.js";
import type { DemandResult, HopOfRoute } from "../demands/result.js";
import type { RouteProblem, SecondProblem } from "../demands/routes.js";
import type { Demand } from "../design/demand.js";
import { bitRate, outage } from "../format/numbers.js";
import { listed } from "./lists.js";

export function elementWords({ kind, name }: Element): string {
  return kind === "hop" ? `hop ${name}` : kind === "site" ? `site ${name}` : `card ${name}`;
}

/** So many by name, the others by their count. */
export function elementsWords(elements: readonly Element[], most = 4): string {
  return someOf(elements.map(elementWords), most);
}

export function someOf(words: readonly string[], most = 4): string {
  return words.length <= most + 1
    ? listed(words)
    : `${words.slice(0, most).join(", ")} and ${words.length - most} more`;
}

export function routeProblemWords(problem: RouteProblem, { from, to }: Pick<Demand, "from" | "to">): string {
  switch (problem.code) {
    case "off-network":
      return `no hop that stands and is evaluated ends at ${problem.site}`;
    case "no-handover":
      return problem.stated === undefined
        ? "no site with a hop states `handover`"
        : `no hop that stands and is evaluated ends at ${problem.stated}, where traffic leaves`;
    case "no-route":
      return `no hops that stand lead from ${from} to ${typeof to === "object" ? to.site : "a handover"}`;
    case "unreached":
      return `no hops lead over ${problem.point}`;
    case "passed-twice":
      return `as \`via\` states it, it leads twice over ${problem.site}`;
  }
}

export function secondProblemWords(problem: SecondProblem, disjoint: "hop" | "site" | "structure"): string {
  switch (problem.code) {
    case "out":
      return `${problem.hop} of it is out all the time`;
    case "none-apart":
      return `there is no second route that shares no ${disjoint} with the first`;
    case "unreached":
      return `no hops lead over ${problem.point}`;
    case "passed-twice":
      return `as \`via\` states it, it leads twice over ${problem.site}`;
    case "shares":
      return `as stated it shares ${problem.hop === undefined ? `site ${problem.site}` : `hop ${problem.hop}`} with the first`;
  }
}

/** The hop of its route that takes most, and what that is; undefined: none is known. */
export function takesMost({ hops }: Pick<DemandResult, "hops">): HopOfRoute | undefined {
  return hops.reduce<HopOfRoute | undefined>(
    (most, one) => ((one.outagePercent ?? 0) > (most?.outagePercent ?? 0) ? one : most),
    undefined,
  );
}

export function hopShareWords({
  hop,
  modulation,
  outagePercent,
  sharePercent,
  neededBps,
}: HopOfRoute): string {
  if (modulation === undefined) return `${hop} has no mode for the ${bitRate(neededBps)} committed up to it`;
  const share = sharePercent === undefined ? "" : `, its share by length is ${outage(sharePercent)}`;
  return `${hop} takes ${outage(outagePercent ?? 0)} with ${modulation}, which carries the ${bitRate(neededBps)} committed up to it${share}`;
}
