/**
 * A design judged on each day from which on something of it is other than before: what stands then is looked at, and
 * what it all comes to is told once, with its time where it does not hold all along.
 */
import type { Fact } from "../../language/facts/fact.js";
import { stateOf } from "../../language/facts/states.js";
import { declarationAt } from "../../language/model/declaration-at.js";
import type { DesignModel } from "../../language/model/design-model.js";
import { dayAfter } from "../../shared/design/day.js";
import type { Site } from "../../shared/design/design.js";
import { ALL_BUILT, spanWords, stagesFrom } from "../../shared/design/state.js";
import { RULES } from "../../shared/rules/index.js";
import type { DesignSession, Pace } from "../session/design-session.js";
import type { SessionHop } from "../session/hop-judge.js";
import { type PlacedFinding, Placer } from "./placed.js";

/** Which times of a design are judged. */
export interface Times {
  /** One day alone. */
  readonly on?: string;
  /** `built`: what stands by now; `all`: the past too; else from today to the day on which all that is planned stands. */
  readonly state?: "built" | "planned" | "all";
}

interface Stage {
  /** First day of it, ISO. */
  readonly from: string;
  readonly findings: readonly PlacedFinding[];
  /** Hops that stand then. */
  readonly hops: ReadonlySet<string>;
}

/** A hop that stands at a time that was judged and not at the last, as it was judged last. */
export interface LeftHop extends SessionHop {
  /** A day on which it still stands. */
  readonly on: string;
  /** First judged day on which it does no more. */
  readonly until: string;
}

/** The same of a site. */
export interface LeftSite {
  readonly site: Site;
  readonly until: string;
}

export interface Staged {
  readonly findings: readonly PlacedFinding[];
  readonly gone: ReadonlyMap<string, LeftHop>;
  readonly goneSites: ReadonlyMap<string, LeftSite>;
  /** The days that were judged, in order. */
  readonly days: readonly string[];
  /** The hops that are told of; undefined: all. */
  readonly about?: ReadonlySet<string>;
}

/** More stages than these are not judged: each is a judgement of the network. */
export const MOST_STAGES = 100;

/** The days that are judged, in order. One alone: what stands then. */
export function stagesOf(model: DesignModel, today: string, times: Times): readonly string[] {
  return withinMost(allStages(model, today, times));
}

/** The first of many days, and the last. */
export function withinMost(days: readonly string[]): readonly string[] {
  return days.length > MOST_STAGES ? [...days.slice(0, MOST_STAGES - 1), days.at(-1)!] : days;
}

function allStages(model: DesignModel, today: string, { on, state }: Times): readonly string[] {
  if (on !== undefined) return [on];
  if (state === "built") return [today];
  return daysOf([model], state === "all" ? "0000-01-01" : today);
}

/**
 * Days on which something comes or goes, and between them those on which an acceptance has ended. What has no date
 * comes last.
 */
export function daysOf(models: readonly DesignModel[], first: string): readonly string[] {
  const days = stagesFrom(
    first,
    models.flatMap((model) => [...model.spans()]),
  );
  // Nothing has a state, or what has stands already: one look at all of it.
  if (days.length === 1) return [ALL_BUILT];
  const last = days.findLast((day) => day !== ALL_BUILT)!;
  const ends = models.flatMap((model) => [...model.acceptancesEnd()].map(dayAfter));
  return [...new Set([...days, ...ends.filter((day) => first < day && day < last)])].sort();
}

/** How many days change something and are not judged. */
function stagesLeftOut(model: DesignModel, today: string, times: Times): number {
  return Math.max(0, allStages(model, today, times).length - MOST_STAGES);
}

/** The day that acceptances are held against: the stage's own; what has no date comes with the one before. */
export function acceptanceDay(day: string, before: string | undefined, today: string): string {
  return day === ALL_BUILT ? (before ?? today) : day;
}

/** The last of the stages from today on in which a hop stands. Afterwards the model looks at it. */
export function lastDayOf(model: DesignModel, hop: string, today: string): string {
  const last = stagesOf(model, today, {}).findLast((on) => {
    model.setView({ on });
    return model.standsHop(hop);
  });
  return last ?? ALL_BUILT;
}

/** Judges each stage; at the end the session holds the last. @param findingsNow what the session has to say */
export async function judgeStages(
  session: DesignSession,
  times: Times,
  pace: Pace | undefined,
  findingsNow: () => readonly PlacedFinding[],
): Promise<Staged> {
  const { model, today } = session;
  const days = stagesOf(model, today, times);
  const stages: Stage[] = [];
  const gone = new Map<string, LeftHop>();
  const goneSites = new Map<string, LeftSite>();
  let standing: ReadonlyMap<string, Site> = new Map();
  for (const [index, on] of days.entries()) {
    const previous = days[index - 1];
    const before = new Map(session.results());
    model.setView({ on, builtOnly: times.state === "built" ? true : undefined });
    session.holdAcceptancesOn(acceptanceDay(on, previous, today));
    await session.update(pace);
    session.updateNetwork();
    const hops = new Set(session.results().keys());
    if (previous !== undefined)
      for (const [name, judged] of before)
        if (!hops.has(name)) gone.set(name, { ...judged, on: previous, until: on });
    for (const name of hops) gone.delete(name);
    const { sites } = model.design();
    for (const [name, site] of standing) if (!sites.has(name)) goneSites.set(name, { site, until: on });
    for (const name of sites.keys()) goneSites.delete(name);
    standing = sites;
    stages.push({ from: on, findings: findingsNow(), hops });
  }
  const findings = stages.length === 1 ? stages[0]!.findings : together(stages);
  const told = [...findings, ...leftOut(model, stagesLeftOut(model, today, times))];
  return { findings: told, gone, goneSites, days };
}

function leftOut(model: DesignModel, days: number): PlacedFinding[] {
  if (days === 0) return [];
  return [
    {
      rule: "days-not-judged",
      key: "days-not-judged network",
      severity: "warning",
      message: `something changes on ${days + MOST_STAGES} days; the first ${MOST_STAGES - 1} and the last are judged`,
      help: "let what is built together have one date, or judge the others one by one: hopwright check --on DATE",
      place: networkPlace(model),
      related: [],
    },
  ];
}

function networkPlace(model: DesignModel): PlacedFinding["place"] {
  const network = model.declarations("network")[0];
  return (
    network &&
    new Placer(model).place(
      network.file,
      network.fact.statement.start,
      network.fact.statement.start + "network".length,
    )
  );
}

/** A finding that holds in several stages is told once for each unbroken run of them. */
function together(stages: readonly Stage[]): readonly PlacedFinding[] {
  const open = new Map<string, { finding: PlacedFinding; first: number; last: number }>();
  const runs: { finding: PlacedFinding; first: number; last: number }[] = [];
  const last = stages.length - 1;
  for (const [index, { findings }] of stages.entries()) {
    for (const finding of findings) {
      // What figures rest on is told of the network that is to be.
      if (index < last && isRemark(finding)) continue;
      if (finding.rule === UNUSED && !holdsThroughout(stages, finding)) continue;
      const key = identity(finding);
      const run = open.get(key);
      if (run && run.last >= index - 1) {
        run.last = index;
        continue;
      }
      const next = { finding, first: index, last: index };
      open.set(key, next);
      runs.push(next);
    }
  }
  return runs.map(({ finding, first, last }) => {
    if (isRemark(finding) || (first === 0 && last === stages.length - 1)) return finding;
    const time = { from: stages[first]!.from, until: stages[last + 1]?.from };
    const { hop } = finding;
    // That a hop is told nothing of before it stands goes without saying.
    const stoodBefore = first > 0 && (hop === undefined || stages[first - 1]!.hops.has(hop));
    const words = spanWords({ from: stoodBefore ? time.from : "", until: time.until ?? "~" });
    return {
      ...finding,
      time: { from: first > 0 ? time.from : undefined, until: time.until },
      message: words === "" ? finding.message : `${finding.message} (${words})`,
    };
  });
}

const UNUSED = "acceptance-unused";

/** An acceptance that one time needs is needed. */
function holdsThroughout(stages: readonly Stage[], { hop, place }: PlacedFinding): boolean {
  return stages
    .filter(({ hops }) => hop === undefined || hops.has(hop))
    .every(({ findings }) =>
      findings.some(
        (one) => one.rule === UNUSED && one.place?.file === place?.file && one.place?.start === place?.start,
      ),
    );
}

/** On what many hops have in common; which they are differs from stage to stage, and says nothing. */
function isRemark({ rule: id, hop, severity, accepted }: PlacedFinding): boolean {
  const rule = RULES.get(id);
  const gathered = rule?.scope === "network" && rule.each === "hop";
  return severity === "info" && hop === undefined && !accepted && gathered;
}

/** Whether a finding holds on a day. */
export function holdsOn({ time }: PlacedFinding, day: string): boolean {
  return (time?.from ?? "") <= day && (time?.until === undefined || day < time.until);
}

function identity({ rule, message, place, hop, accepted }: PlacedFinding): string {
  return JSON.stringify([rule, place?.file, place?.start, message, hop, accepted !== undefined]);
}

/** Of all that was judged, what is said of hops and sites of which something is planned. */
export function plannedOnly(model: DesignModel, staged: Staged): Staged {
  const { findings, gone } = staged;
  const isPlanned = (key: string) => model.declarations(key).some(({ fact }) => hasPlanned(fact));
  const planned = new Set(
    model.names("hop").filter((name) => {
      const ends = model.hop(name)?.hop?.ends ?? gone.get(name)?.hop.ends ?? [];
      return isPlanned(`hop ${name}`) || ends.some(({ site }) => site.state?.word === "planned");
    }),
  );
  const isAbout = ({ rule, hop, place }: PlacedFinding) => {
    if (rule === "days-not-judged") return true;
    if (hop !== undefined) return planned.has(hop);
    const file = place && model.file(place.file);
    const entry = file && declarationAt(file, place.start);
    return entry !== undefined && isPlanned(entry.key);
  };
  return { ...staged, findings: findings.filter(isAbout), about: planned };
}

function hasPlanned(fact: Fact): boolean {
  return stateOf(fact)?.word === "planned" || fact.facts.some(hasPlanned);
}
