/**
 * A design judged on each day from which on something of it is other than before: what stands then is looked at, and
 * what it all comes to is told once, with its time where it does not hold all along.
 */
import type { Fact } from "../../language/facts/fact.js";
import { stateOf } from "../../language/facts/states.js";
import { declarationAt } from "../../language/model/declaration-at.js";
import type { DesignModel } from "../../language/model/design-model.js";
import { ALL_BUILT, type Span, spanWords, stagesFrom } from "../../shared/design/state.js";
import { RULES } from "../../shared/rules/index.js";
import type { DesignSession, JudgedHop, Pace } from "../session/design-session.js";
import type { PlacedFinding } from "./placed.js";

/** Which times of a design are judged. */
export interface Times {
  /** One day alone. */
  readonly on?: string;
  /** `built`: what stands by now; `all`: the past too; else from today to the day on which all that is planned stands. */
  readonly state?: "built" | "planned" | "all";
}

export interface Stage {
  /** First day of it, ISO. */
  readonly from: string;
  readonly findings: readonly PlacedFinding[];
  /** Hops that stand then. */
  readonly hops: ReadonlySet<string>;
}

export interface Staged {
  readonly findings: readonly PlacedFinding[];
  /** Hops that stand at a time that was judged and not at the last, as they were judged last. */
  readonly gone: ReadonlyMap<string, JudgedHop>;
}

/** The days that are judged, in order. One alone: what stands then. */
export function stagesOf(model: DesignModel, today: string, { on, state }: Times): readonly string[] {
  if (on !== undefined) return [on];
  if (state === "built") return [today];
  const days = stagesFrom(state === "all" ? "0000-01-01" : today, model.spans());
  // Nothing has a state, or what has stands already: one look at all of it.
  return days.length === 1 ? [ALL_BUILT] : days;
}

/** Judges each stage; at the end the session holds the last. @param findingsNow what the session has to say */
export async function judgeStages(
  session: DesignSession,
  times: Times,
  pace: Pace | undefined,
  findingsNow: () => readonly PlacedFinding[],
): Promise<Staged> {
  const { model } = session;
  const days = stagesOf(model, session.today, times);
  const stages: Stage[] = [];
  const gone = new Map<string, JudgedHop>();
  for (const on of days) {
    const before = new Map(session.results());
    model.setView({ on, builtOnly: times.state === "built" ? true : undefined });
    await session.update(pace);
    session.updateNetwork();
    const hops = new Set(session.results().keys());
    for (const [name, judged] of before) if (!hops.has(name)) gone.set(name, judged);
    for (const name of hops) gone.delete(name);
    stages.push({ from: on, findings: findingsNow(), hops });
  }
  return { findings: stages.length === 1 ? stages[0]!.findings : together(stages), gone };
}

/** A finding that holds in several stages is told once for each unbroken run of them. */
export function together(stages: readonly Stage[]): readonly PlacedFinding[] {
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
    const words = timeWords(stages, finding, first, last);
    return words === "" || isRemark(finding)
      ? finding
      : { ...finding, key: `${finding.key} (${words})`, message: `${finding.message} (${words})` };
  });
}

/** When a finding holds; empty: as long as what it is told of is judged. */
function timeWords(stages: readonly Stage[], { hop }: PlacedFinding, first: number, last: number): string {
  const stands = (index: number) =>
    index >= 0 && index < stages.length && (hop === undefined || stages[index]!.hops.has(hop));
  const span: Span = {
    from: stands(first - 1) ? stages[first]!.from : "",
    until: stands(last + 1) ? stages[last + 1]!.from : "~",
  };
  return spanWords(span);
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

/** Of the network as a whole; a remark on a hop is told with it. */
function isRemark({ rule, hop, severity }: PlacedFinding): boolean {
  return severity === "info" && hop === undefined && RULES.get(rule)?.remarksOn !== undefined;
}

function identity({ rule, message, place, hop, accepted }: PlacedFinding): string {
  return JSON.stringify([rule, place?.file, place?.start, message, hop, accepted !== undefined]);
}

/** Of all that was judged, what is said of hops and sites of which something is planned. */
export function plannedOnly(model: DesignModel, { findings, gone }: Staged): Staged {
  const isPlanned = (key: string) => model.declarations(key).some(({ fact }) => hasPlanned(fact));
  const planned = new Set(
    model.names("hop").filter((name) => {
      const ends = model.hop(name)?.hop?.ends ?? gone.get(name)?.hop.ends ?? [];
      return isPlanned(`hop ${name}`) || ends.some(({ site }) => site.state?.word === "planned");
    }),
  );
  const isAbout = ({ hop, place }: PlacedFinding) => {
    if (hop !== undefined) return planned.has(hop);
    const file = place && model.file(place.file);
    const entry = file && declarationAt(file, place.start);
    return entry !== undefined && isPlanned(entry.key);
  };
  return { findings: findings.filter(isAbout), gone };
}

function hasPlanned(fact: Fact): boolean {
  return stateOf(fact)?.word === "planned" || fact.facts.some(hasPlanned);
}
