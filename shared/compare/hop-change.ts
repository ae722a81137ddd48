/** What became of one hop: decided, computed, found, and by whom. */
import { metres } from "../format/numbers.js";
import { RULES } from "../rules/index.js";
import { type CauseInput, causesOf, type EditedHop } from "./causes.js";
import type { ComparedHop, ComparedSide, HopChange, SharedChange } from "./change-set.js";
import { type FigureChange, figureChanges, figuresAlone } from "./consequences.js";
import { type DecisionChange, decisionChanges } from "./decisions.js";
import { demandNow } from "./demand-side.js";
import { demandsOver } from "./demands.js";
import { type DecidedHop, EVERYWHERE, isLicence } from "./facts.js";
import { type FindingChange, isWorse } from "./findings.js";
import type { ListChange } from "./other-lists.js";
import type { RemainingOptions } from "./remaining.js";
import { hopNow, type Renames, siteNow } from "./renames.js";

export interface CompareOptions extends RemainingOptions {
  /** Whether the ground under a hop differs between the sides (names of the old and the new side). */
  ground?(was: string, is: string): "terrain" | "survey" | undefined;
  /** Lists of others whose rows differ. */
  readonly lists?: readonly ListChange[];
}

/** A hop by its names on both sides. */
export interface Pair {
  readonly was?: string;
  readonly is?: string;
}

/** What all hops of a comparison are told from. */
export interface CompareContext {
  readonly was: ComparedSide;
  readonly is: ComparedSide;
  readonly renames: Renames;
  readonly findings: ReadonlyMap<string, readonly FindingChange[]>;
  readonly entries: ReadonlyMap<string, SharedChange>;
  readonly edited: ReadonlyMap<string, EditedHop>;
  /** Those, and what can be judged on one side only: hops that may have changed something for others. */
  readonly movers: ReadonlyMap<string, EditedHop>;
  readonly options: CompareOptions;
}

/** @returns undefined when nothing about the hop is worth telling */
export function hopChange(pair: Pair, context: CompareContext): HopChange | undefined {
  const { was, is, renames, entries, edited, movers, options } = context;
  const name = (pair.is ?? pair.was)!;
  const before = pair.was === undefined ? undefined : was.hops.get(pair.was);
  const now = pair.is === undefined ? undefined : is.hops.get(pair.is);
  const lost = pair.is !== undefined && before !== undefined && now === undefined;
  const findings = (context.findings.get(`hop ${name}`) ?? []).filter((change) => told(change, pair, lost));
  const decisions = edited.get(name)?.decisions ?? decisionsOf(pair, was, is, renames);
  const figures = figuresOf(pair, before, now, renames);
  const ground =
    pair.was === undefined || pair.is === undefined ? undefined : options.ground?.(pair.was, pair.is);
  const status =
    pair.was === undefined ? "added" : pair.is === undefined ? "removed" : lost ? "not judged" : "changed";
  const moved = findings.filter((change) => change.status !== "still there");
  if (!edited.has(name) && figures.length === 0 && moved.length === 0 && !lost) return undefined;
  const degraded =
    figures.some(({ kind }) => kind === "degradation") || moved.some(({ rule }) => OF_INTERFERENCE.has(rule));
  // Facts are put together only here: of a large network most hops never come so far.
  const causes = causesOf({
    name,
    decisions,
    findings,
    sharedChanges: [
      ...[...namedEntries(pair, was, is, renames)].flatMap(([entry, named]) => {
        const change = entries.get(entry);
        return change && isDecided(change, named) ? [change] : [];
      }),
      ...carriedNow(pair, moved, context),
      ...(degraded || moved.some(isOfNetwork) ? listsTouching(pair, context) : []),
    ],
    hops: before && now && [before.hop, now.hop],
    ground: ground && groundChange(ground, before, now),
    movers,
    degraded,
    heard: degraded ? heardHops(before, now, renames) : [],
    beside: () =>
      (is.decisions.hop(name)?.ends ?? []).flatMap((site) => editedAt(site, movers, was, is, renames)),
  });
  const goesOn = status === "changed" || status === "not judged";
  // A slip in its own text decides nothing and is an edit all the same.
  const slipped = causes.length === 0 && moved.some(({ rule }) => !RULES.has(rule));
  return {
    hop: name,
    title: (now ?? before)?.hop.title,
    status,
    byState: !goesOn && isWrittenTwice(pair, was, is) ? true : undefined,
    renamedFrom: pair.is !== undefined && pair.was !== pair.is ? pair.was : undefined,
    edited: edited.has(name) || slipped,
    decisions: goesOn ? decisions : stateChange(pair, was, is, renames),
    figures,
    causes: goesOn ? causes : [],
    findings,
    worse: lost || findings.some(isWorse) || figures.some(({ verdict }) => verdict === "worse"),
  };
}

/** What of a demand decides which hops it passes. */
const OF_WAYS: ReadonlySet<string> = new Set(["from", "route", "second-route", "state"]);

/** And what decides how much each may lose. */
const OF_SHARES: ReadonlySet<string> = new Set([...OF_WAYS, "availability", "availability-with-equipment"]);

/** What a demand says that a finding on a hop rests on. */
const OF_DEMANDS: ReadonlyMap<string, ReadonlySet<string>> = new Map([
  ["hop-carries-nothing", OF_WAYS],
  ["objective-share", OF_SHARES],
]);

/**
 * Demands that came, went or go another way, where a hop carries something that carried nothing, or the other way; that
 * ask for something else, where what they leave the hop is told.
 */
function carriedNow(
  pair: Pair,
  moved: readonly FindingChange[],
  { was, is, renames, entries }: CompareContext,
): readonly SharedChange[] {
  const words = new Set(moved.flatMap(({ rule }) => [...(OF_DEMANDS.get(rule) ?? [])]));
  if (words.size === 0) return [];
  const over = new Set([
    ...demandsOver(pair.was, was.demands).map((name) => demandNow(name, renames)),
    ...demandsOver(pair.is, is.demands),
  ]);
  return [...over].flatMap((name) => {
    const change = entries.get(`demand ${name}`);
    const { status, decisions = [] } = change ?? {};
    const came = status === "added" || status === "removed";
    return change && (came || decisions.some(({ word }) => words.has(word))) ? [change] : [];
  });
}

function isOfNetwork({ rule }: FindingChange): boolean {
  return RULES.get(rule)?.scope === "network" && !rule.startsWith("licence-");
}

/** Lists of others of which a row that is not as it was is heard by the hop, or hears it. */
function listsTouching({ was, is }: Pair, { entries, options }: CompareContext): readonly SharedChange[] {
  const touching = (options.lists ?? []).filter((list) => list.touches(was, is));
  return touching.flatMap(({ entry }) => entries.get(entry) ?? []);
}

const OF_INTERFERENCE: ReadonlySet<string> = new Set([
  "interference-degradation",
  "interference-understated",
]);

/** Whose transmissions come in on either side, under their names on both. */
function heardHops(
  before: ComparedHop | undefined,
  now: ComparedHop | undefined,
  renames: Renames,
): readonly string[] {
  const was = (before?.hears ?? []).map((name) => hopNow(name, renames));
  return [...new Set([...(now?.hears ?? []), ...was])];
}

/** Of a hop that stands on one side only, since or until when: the state that it has, or had. */
function stateChange(
  { was: before, is: now }: Pair,
  was: ComparedSide,
  is: ComparedSide,
  renames: Renames,
): readonly DecisionChange[] {
  const both = isWrittenTwice({ was: before, is: now }, was, is);
  const pair = both ? { was: before ?? now, is: now ?? before } : { was: before, is: now };
  return decisionsOf(pair, was, is, renames).filter(({ word, site }) => word === "state" && !site);
}

function isWrittenTwice({ was: before, is: now }: Pair, was: ComparedSide, is: ComparedSide): boolean {
  const name = now ?? before!;
  return was.decisions.hop(before ?? name) !== undefined && is.decisions.hop(name) !== undefined;
}

function figuresOf(
  pair: Pair,
  before: ComparedHop | undefined,
  now: ComparedHop | undefined,
  renames: Renames,
): FigureChange[] {
  if (pair.was === undefined) return now ? figuresAlone(now, "is") : [];
  if (pair.is === undefined) return before ? figuresAlone(before, "was") : [];
  if (now && !before) return figuresAlone(now, "is");
  return before && now ? figureChanges(before, now, (site) => siteNow(site, renames)) : [];
}

/** What became of the ground; undefined: a raster that changed is the same under the path. */
function groundChange(
  kind: "terrain" | "survey",
  was: ComparedHop | undefined,
  is: ComparedHop | undefined,
): CauseInput["ground"] {
  if (was === undefined || is === undefined) return { kind };
  const [before, now] = [was, is].map(({ result }) => groundFigures(result.profile));
  const ground = [...now!].flatMap(([label, text]) => {
    const then = before!.get(label);
    return then === text ? [] : [{ label, was: then, is: text }];
  });
  return ground.length === 0 && kind === "terrain" ? undefined : { kind, ground };
}

function groundFigures(profile: ComparedHop["result"]["profile"]): Map<string, string | undefined> {
  const height = (heightM: number | undefined) => (heightM === undefined ? undefined : metres(heightM));
  const unknown = profile?.gaps.length;
  return new Map([
    ["highest ground", height(profile?.highestM)],
    ["mean ground", height(profile?.meanM)],
    ["unknown stretches", unknown === undefined ? undefined : String(unknown)],
  ]);
}

/** What a removed hop had wrong is gone with it, and of one that is not judged any more nobody knows. */
function told(change: FindingChange, { is }: Pair, lost: boolean): boolean {
  return (is !== undefined && !lost) || change.is !== undefined;
}

/** `forgotten`: it has another name now, and the hop still uses the old one. */
type NamedOn = "both" | "new side" | "old side" | "forgotten";

/** Declarations that count for a hop, by name or for every hop, under their new names; on which sides it names them. */
function namedEntries(
  pair: Pair,
  was: ComparedSide,
  is: ComparedSide,
  renames: Renames,
): Map<string, NamedOn> {
  const named = new Map<string, NamedOn>(EVERYWHERE.map((entry) => [entry, "both"]));
  if (pair.is === undefined) return named;
  const now = is.decisions.hop(pair.is);
  const before = pair.was === undefined ? undefined : was.decisions.hop(pair.was);
  // A licence names the hop, not the hop the licence.
  for (const entry of [...(now?.uses ?? []), ...(now?.names ?? [])])
    if (!named.has(entry)) named.set(entry, isLicence(entry) ? "both" : "new side");
  for (const old of [...(before?.uses ?? []), ...(before?.names ?? [])]) {
    const entry = renames.entries.get(old) ?? old;
    const known = named.get(entry);
    if (isLicence(entry)) named.set(entry, "both");
    else if (known === undefined)
      named.set(entry, entry !== old && now?.names.includes(old) ? "forgotten" : "old side");
    else if (known === "new side") named.set(entry, "both");
  }
  return named;
}

/**
 * A finding on a shared declaration changes nothing for those that use it; one that came or went while the hop named
 * it all along is a cause, else the hop's own decision tells.
 */
function isDecided(change: SharedChange, named: NamedOn): boolean {
  if (change.status === "changed") return change.decisions.length > 0 && named !== "old side";
  return named === (change.status === "renamed" ? "forgotten" : "both");
}

export function decisionsOf(
  { was: before, is: now }: Pair,
  was: ComparedSide,
  is: ComparedSide,
  renames: Renames,
): DecisionChange[] {
  const facts = (hop: DecidedHop | undefined) => hop?.facts ?? [];
  if (before === now && sameWords(was, is, `hop ${now}`)) return [];
  return decisionChanges(
    facts(before === undefined ? undefined : was.decisions.hop(before)),
    facts(now === undefined ? undefined : is.decisions.hop(now)),
    renames,
  );
}

export function sameWords(was: ComparedSide, is: ComparedSide, key: string): boolean {
  return was.decisions.words(key) === is.decisions.words(key);
}

/** Hops that end at a site, on either side, among those that were added, removed or decided anew. */
export function editedAt(
  site: string,
  edited: ReadonlyMap<string, unknown>,
  was: ComparedSide,
  is: ComparedSide,
  renames: Renames,
): string[] {
  return [...edited.keys()].filter(
    (name) =>
      is.decisions.hop(name)?.ends.includes(site) ||
      was.decisions.hop(name)?.ends.some((end) => siteNow(end, renames) === site),
  );
}
