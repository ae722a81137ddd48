/** What a change does to the demands of a network: figures that changed notably, and what changed on their way. */
import { ROUNDING } from "../demands/growth.js";
import type { Latency } from "../demands/latency.js";
import type { DemandResult, DemandsResult, HopLoad, Route } from "../demands/result.js";
import type { Verdict } from "../evaluate/account/outage-result.js";
import { availability, fixed, signed } from "../format/numbers.js";
import { slowerLatency, stricterWords } from "../words/demand-figures.js";
import type { SharedChange } from "./change-set.js";
import { causesOfDemand } from "./demand-causes.js";
import type { DemandChange, DemandFigureChange } from "./demand-change.js";
import { type ChangesBeside, causeContext } from "./demand-context.js";
import { demandNow } from "./demand-side.js";
import { outageDifference } from "./figures.js";
import { isWorse } from "./findings.js";
import { hopNow, type Renames } from "./renames.js";

/** Of outage, and of latency: smaller changes of a demand are not told. Ours. */
const NOTABLE_OUTAGE = 0.05;
const NOTABLE_LATENCY = 0.01;

/** Of demands of both sides; one that came or went is told with what was decided, here only what it asks of hops. */
export function demandChanges(
  was: DemandsResult | undefined,
  is: DemandsResult | undefined,
  renames: Renames,
  beside: ChangesBeside,
): DemandChange[] {
  const context = causeContext(was, is, renames, beside);
  const known = new Map(
    [...(was?.demands ?? [])].map(([name, result]) => [demandNow(name, renames), result] as const),
  );
  const overtaken = overtakenShares(was, is, renames);
  const judged = new Map(context.shared.map(({ entry, findings }) => [entry, findings.filter(isChange)]));
  return [...(is?.demands ?? [])].flatMap(([name, now]): DemandChange[] => {
    const then = known.get(name);
    const figures = [
      ...(then === undefined ? [] : figuresOf(then, now, renames)),
      ...(overtaken.get(name) ?? []),
    ];
    const findings = judged.get(`demand ${name}`) ?? [];
    if (figures.length === 0 && findings.length === 0) return [];
    // Growth and failures bring it to hops that it does not pass as things are.
    const about = findings
      .flatMap(({ was, is }) => [was, is])
      .flatMap((one) => one?.about ?? [])
      .map((hop) => hopNow(hop, renames));
    return [
      {
        demand: name,
        title: now.demand.title,
        figures,
        because: [
          ...causesOfDemand({ demand: name, figures, findings, about }, context),
          ...context.shared.filter((change) => isAround(change, now)).map(({ entry }) => entry),
        ],
        worse: figures.some(({ verdict }) => verdict === "worse") || findings.some(isWorse),
      },
    ];
  });
}

const isChange = ({ status }: SharedChange["findings"][number]) => status !== "still there";

/** Normally, or in its worst failure. */
function comingTo(load: HopLoad | undefined): readonly string[] {
  return load === undefined ? [] : [...load.demands, ...(load.worst?.demands ?? [])];
}

/** Demands that pass a hop as things are, or when something fails. */
export function demandsOver(hop: string | undefined, result: DemandsResult | undefined): readonly string[] {
  if (hop === undefined || result === undefined) return [];
  let seconds = secondRoutes.get(result);
  if (seconds === undefined) secondRoutes.set(result, (seconds = secondRoutesOver(result)));
  return [...comingTo(result.hops.get(hop)), ...(seconds.get(hop) ?? [])];
}

/** Of each result worked out once: every hop that a change touches may ask. */
const secondRoutes = new WeakMap<DemandsResult, ReadonlyMap<string, readonly string[]>>();

function secondRoutesOver({ demands }: DemandsResult): ReadonlyMap<string, readonly string[]> {
  const over = new Map<string, string[]>();
  for (const { demand, second } of demands.values())
    for (const hop of second?.hops ?? []) {
      const names = over.get(hop);
      if (names) names.push(demand.name);
      else over.set(hop, [demand.name]);
    }
  return over;
}

/** Whether a change of all traffic, or of a site where traffic leaves or a clock comes from, may have changed it. */
function isAround({ entry, status, decisions }: SharedChange, { demand }: DemandResult): boolean {
  if (status === "changed" && decisions.length === 0) return false;
  if (entry.startsWith("site ")) {
    const has = (word: string) => decisions.some((one) => one.word === word);
    const clock = demand.clock !== undefined && (has("clock-source") || has("handover"));
    return clock || (demand.to === "handover" && has("handover"));
  }
  return entry === "traffic" || entry === "defaults demand";
}

function figuresOf(was: DemandResult, is: DemandResult, renames: Renames): DemandFigureChange[] {
  return [
    routeChange("route", "Route", was.route, is.route, renames),
    routeChange("second-route", "Second route", was.second, is.second, renames),
    outageChange(
      "availability",
      "Availability end to end",
      was.outage?.propagationPercent,
      is.outage?.propagationPercent,
    ),
    outageChange(
      "availability-with-equipment",
      "Availability with equipment",
      asked(was) || asked(is) ? was.outage?.allPercent : undefined,
      asked(was) || asked(is) ? is.outage?.allPercent : undefined,
    ),
    latencyChange(slowerLatency(was), slowerLatency(is)),
  ].filter((change) => change !== undefined);
}

/** Hops on which the share of a demand has become stricter than their own objective, or the other way; by the demand. */
function overtakenShares(
  was: DemandsResult | undefined,
  is: DemandsResult | undefined,
  renames: Renames,
): ReadonlyMap<string, readonly DemandFigureChange[]> {
  const before = new Map(
    [...(was?.hops.values() ?? [])].map(({ hop, share }) => [hopNow(hop, renames), share] as const),
  );
  const by = new Map<string, DemandFigureChange[]>();
  for (const { hop, share: now } of is?.hops.values() ?? []) {
    const then = before.get(hop);
    // Of two demands the stricter is a share all the same; with no demand at all its own objective holds alone.
    const own = then?.ownPercent ?? now?.ownPercent;
    if (own === undefined || (then?.stricter ?? "objective") === (now?.stricter ?? "objective")) continue;
    const relaxed = then && demandNow(then.demand, renames);
    const owner =
      relaxed !== undefined && now?.stricter !== "demand" && is!.demands.has(relaxed) ? relaxed : now?.demand;
    if (owner === undefined) continue;
    const change: DemandFigureChange = {
      kind: "stricter",
      label: `Holds on ${hop}`,
      was: stricterWords(then ?? { ...now!, stricter: "objective" }),
      is: stricterWords(now ?? { ...then!, stricter: "objective" }),
      verdict: "changed",
    };
    by.set(owner, [...(by.get(owner) ?? []), change]);
  }
  return by;
}

function asked({ demand }: DemandResult): boolean {
  return demand.availabilityWithEquipmentPercent !== undefined;
}

function routeChange(
  kind: "route" | "second-route",
  label: string,
  was: Route | undefined,
  is: Route | undefined,
  renames: Renames,
): DemandFigureChange | undefined {
  const then = was?.hops.map((hop) => hopNow(hop, renames)).join(", ");
  const now = is?.hops.join(", ");
  if (then === now) return undefined;
  const verdict = now === undefined ? "worse" : then === undefined ? "better" : "changed";
  return { kind, label, was: then, is: now, verdict };
}

function outageChange(
  kind: "availability" | "availability-with-equipment",
  label: string,
  wasPercent: number | undefined,
  isPercent: number | undefined,
): DemandFigureChange | undefined {
  const change = numberChange(wasPercent, isPercent, NOTABLE_OUTAGE);
  if (change === undefined) return undefined;
  const [was, is] = [wasPercent, isPercent].map((out) => (out === undefined ? out : availability(100 - out)));
  const by = change.by === undefined ? undefined : -change.by;
  const difference = by === undefined ? undefined : outageDifference(by);
  return { kind, label, was, is, by, difference, verdict: change.verdict };
}

function latencyChange(
  wasLatency: Latency | undefined,
  isLatency: Latency | undefined,
): DemandFigureChange | undefined {
  const change = numberChange(wasLatency?.totalS, isLatency?.totalS, NOTABLE_LATENCY);
  const isOpen = wasLatency?.isLeast || isLatency?.isLeast;
  if (change === undefined && wasLatency?.isLeast === isLatency?.isLeast) return undefined;
  const ms = (seconds: number) => `${fixed(1000 * seconds, 3)} ms`;
  const words = (one: Latency | undefined) => one && `${one.isLeast ? "at least " : ""}${ms(one.totalS)}`;
  const sides = {
    kind: "latency",
    label: "Latency one way",
    was: words(wasLatency),
    is: words(isLatency),
  } as const;
  // What is only known to be so much or more is neither better nor worse.
  if (isOpen || change === undefined) return { ...sides, verdict: "changed" };
  const { by, verdict } = change;
  const difference = by === undefined ? undefined : signed(ms, by);
  return { ...sides, by, difference, verdict };
}

/** Of figures of which less is better; undefined: no notable change. */
function numberChange(
  was: number | undefined,
  is: number | undefined,
  notable: number,
): { readonly by?: number; readonly verdict: DemandFigureChange["verdict"] } | undefined {
  if (was === undefined && is === undefined) return undefined;
  if (was === undefined) return { verdict: "changed" };
  if (is === undefined) return { verdict: "worse" };
  const by = is - was;
  if (by === 0 || Math.abs(by) < notable * Math.max(was, is)) return undefined;
  return { by, verdict: by > 0 ? "worse" : "better" };
}

/** Whether a rule has no verdict on a demand, so that nobody knows whether what it found is mended. */
export function isOpenOn(rule: string, { problem, short, verdicts, open }: DemandResult): boolean {
  if (rule === "demand-route") return false;
  if (problem !== undefined) return true;
  switch (rule) {
    case "demand-availability":
      return short.length > 0 || !isDecided(verdicts.availability, verdicts.availabilityWithEquipment);
    case "demand-latency":
      return !isDecided(verdicts.latency);
    case "demand-capacity":
      return open.some(({ lacks }) => lacks.includes("capacity"));
    default:
      return false;
  }
}

/** It is asked still, and known. */
function isDecided(...verdicts: readonly (Verdict | undefined)[]): boolean {
  return !verdicts.includes("open") && verdicts.some((verdict) => verdict !== undefined);
}

/** Whether such a rule says nothing of a hop since it carries too much already, today or in a failure. */
export function isBehindGraver(rule: string, load: HopLoad): boolean {
  if (load.carriedBps === undefined) return false;
  return isOpenOnLoad(rule, load);
}

/** The same of what a rule finds of a hop in failures and years to come: what is too much today is told in its place. */
export function isOpenOnLoad(rule: string, { carriedBps, committedBps, worst, outgrown }: HopLoad): boolean {
  const isOver = carriedBps === undefined || committedBps > carriedBps * ROUNDING;
  switch (rule) {
    case "failure-overloads":
    case "demand-growth":
      return isOver;
    case "failure-growth":
      // Outgrown before that as the network is, which is told in its place.
      return isOver || worst?.overloaded === true || outgrown !== undefined;
    default:
      return false;
  }
}
