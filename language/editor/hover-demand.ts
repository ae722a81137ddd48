/** What a demand comes to, and what a hop carries, in a few lines of a hover. */
import type {
  DemandResult,
  DemandsResult,
  ExceededShare,
  FailureResult,
  HopLoad,
} from "../../shared/demands/result.js";
import * as write from "../../shared/format/numbers.js";
import {
  availabilityHeld,
  carriedWhen,
  causesOf,
  clockHeld,
  exceededWords,
  type Held,
  latencyHeld,
  outgrownWords,
  routeWords,
  shareHeldWords,
  wholeAvailabilityHeld,
} from "../../shared/words/demand-figures.js";
import {
  elementsWords,
  elementWords,
  hopShareWords,
  routeProblemWords,
  secondProblemWords,
  someOf,
  takesMost,
} from "../../shared/words/demands.js";
import { escapeMarkdown } from "./markdown.js";
import type { Carried } from "./results.js";

/** @returns undefined as long as it is not known */
export function carriedText(demand: string, carried: Carried): string | undefined {
  const result = carried()?.demands.get(demand);
  return result && bullets(demandResultLines(result));
}

function demandResultLines(result: DemandResult): readonly string[] {
  const { demand, route, problem, second, secondProblem, singlePoints } = result;
  if (route === undefined)
    return problem === undefined ? [] : [`no route: ${routeProblemWords(problem, demand)}`];
  const most = takesMost(result);
  return [
    `route ${routeWords(route)}`,
    second && `second route ${routeWords(second)}`,
    secondProblem &&
      demand.secondRoute &&
      `second route missed: ${secondProblemWords(secondProblem, demand.secondRoute.disjoint)}`,
    ...outageLines(result),
    most && hopShareWords(most),
    heldLine("latency one way", latencyHeld(result)),
    heldLine("clock", clockHeld(result)),
    singlePoints.length === 0 ? "no single point of failure" : `hangs on ${elementsWords(singlePoints, 6)}`,
  ].filter((line) => line !== undefined);
}

function outageLines(result: DemandResult): readonly (string | undefined)[] {
  const { outage, short } = result;
  if (short.length > 0)
    return [`${someOf(short)} ${short.length === 1 ? "carries" : "carry"} too little in every mode`];
  if (outage === undefined) return ["availability not known: a hop on its way has no figures"];
  return [
    heldLine("availability end to end", availabilityHeld(result)),
    heldLine("with equipment", wholeAvailabilityHeld(result)),
    causesOf(outage)
      .map(([cause, share]) => `${cause} ${share}`)
      .join(", "),
  ];
}

function heldLine(what: string, held: Held | undefined): string | undefined {
  if (held === undefined) return undefined;
  const { found, asked, verdict } = held;
  const about = [
    ...(asked === undefined ? [] : [`${asked} asked`]),
    ...(verdict === undefined ? [] : [verdict]),
  ];
  return `${what} ${found}${about.length === 0 ? "" : ` (${about.join(", ")})`}`;
}

/** What a hop carries, the worst that a failure brings to it, and what remains without it. */
export function hopCarriesText(hop: string, carried: Carried): string | undefined {
  const result = carried();
  const load = result?.hops.get(hop);
  if (result === undefined || load === undefined) return undefined;
  return bullets([
    `${carriesWords(load)}${load.demands.length === 0 ? "" : `: ${someOf(load.demands, 6)}`}`,
    ...worstLines(load),
    ...outgrownWords(load),
    ...(load.share === undefined ? [] : [shareHeldWords(load.share)]),
    ...exceededLines(load.share?.exceeded ?? []),
    `without it: ${withoutWords(failureOf(hop, result))}`,
  ]);
}

function exceededLines([most, ...others]: readonly ExceededShare[]): readonly string[] {
  if (most === undefined) return [];
  const more = others.length === 0 ? "" : `; exceeded too: ${someOf(others.map(({ demand }) => demand))}`;
  return [`of what ${most.demand} leaves it: ${exceededWords(most)}${more}`];
}

/** `carries 5 demands, 310 of 420 Mbit/s at 99.99 %` */
export function carriesWords(load: HopLoad): string {
  const { demands, committedBps, carriedBps } = load;
  if (demands.length === 0) return "carries no demand";
  const count = `carries ${demands.length} ${demands.length === 1 ? "demand" : "demands"}`;
  if (carriedBps === undefined) return `${count}, ${write.bitRate(committedBps)} committed`;
  const [committed, most] = write.apart(write.bitRate, committedBps, carriedBps);
  return `${count}, ${committed} committed of ${most} ${carriedWhen(load, "at")}`;
}

function worstLines({ worst, carriedBps }: HopLoad): readonly string[] {
  if (worst === undefined) return [];
  const most = worst.overloaded ? `, more than the ${write.bitRate(carriedBps ?? 0)} that it carries` : "";
  return [
    `most without ${elementWords(worst.element)}: ${write.bitRate(worst.committedBps)} committed${most}; ${someOf(worst.demands)} ${worst.demands.length === 1 ? "comes" : "come"} to it`,
  ];
}

function failureOf(hop: string, { failures }: DemandsResult): FailureResult | undefined {
  return failures.find(({ element }) => element.kind === "hop" && element.name === hop);
}

/** What remains when an element is gone. */
export function withoutWords(failure: FailureResult | undefined): string {
  const { lost = [], moved = [], overloaded = [] } = failure ?? {};
  if (lost.length + moved.length === 0) return "nothing is lost, and nothing moves";
  return [
    lost.length === 0 ? "nothing is lost" : `${someOf(lost)} ${lost.length === 1 ? "is" : "are"} lost`,
    moved.length === 0 ? "" : `${someOf(moved)} ${moved.length === 1 ? "moves" : "move"}`,
    overloaded.length === 0
      ? ""
      : `${someOf(overloaded.map(({ hop }) => hop))} ${overloaded.length === 1 ? "is" : "are"} overloaded`,
  ]
    .filter((part) => part !== "")
    .join(", ");
}

function bullets(lines: readonly string[]): string | undefined {
  return lines.length === 0 ? undefined : lines.map((line) => `- ${escapeMarkdown(line)}`).join("\n");
}
