/** Holds two judged designs against each other. Pure: the host reads, evaluates and hands in both sides. */
import type { Finding } from "../design/finding.js";
import { licencesFor } from "../licence/held.js";
import type { EditedHop } from "./causes.js";
import {
  type ChangeCounts,
  type ChangeSet,
  type ComparedSide,
  findingsIn,
  type HopChange,
  type SharedChange,
  type SiteChange,
} from "./change-set.js";
import { decisionChanges } from "./decisions.js";
import { offersOf } from "./demand-context.js";
import { loadChanges } from "./demand-loads.js";
import { demandChanges } from "./demands.js";
import { EVERYWHERE, isLicence, isOthersList } from "./facts.js";
import { type FindingChange, findingChanges, isMended, isOpened, isRemarkGone, isWorse } from "./findings.js";
import { type CompareOptions, decisionsOf, editedAt, hopChange, type Pair, sameWords } from "./hop-change.js";
import { type LicenceChange, licenceChanges } from "./licences.js";
import { mattersFirst } from "./matters-first.js";
import { orderChanges } from "./orders.js";
import type { ListChange } from "./other-lists.js";
import { portMoves } from "./ports.js";
import { leftOn, remainingOn } from "./remaining.js";
import { aboutNow, addressNow, findRenames, hopNow, type Renames, siteNow } from "./renames.js";

export function compareDesigns(was: ComparedSide, is: ComparedSide, options: CompareOptions): ChangeSet {
  const renames = findRenames(was.decisions, is.decisions);
  const findings = findingsByOwner(was, is, renames, options);
  const shared = [...sharedChanges(was, is, renames, findings), ...(options.lists ?? []).map(listChanged)];
  const entries = new Map(shared.map((change) => [change.entry, change]));
  const changes: HopChange[] = [];
  const licences: LicenceChange[] = [];
  const pairs = pairedHops(was, is, renames);
  const edited = editedHops(pairs, was, is, renames);
  const movers = new Map([...judgedOnOneSide(pairs, was, is), ...edited]);
  for (const pair of pairs) {
    const change = hopChange(pair, { was, is, renames, findings, entries, edited, movers, options });
    if (change) changes.push(change);
    const sides = [was.hops.get(pair.was ?? ""), is.hops.get(pair.is ?? "")] as const;
    if (isOneSided(pair, sides)) continue;
    const stated = {
      was: licencesFor(was.design, pair.was ?? ""),
      is: licencesFor(is.design, pair.is ?? ""),
      day: options.today,
    };
    licences.push(...licenceChanges(sides[0], sides[1], (site) => siteNow(site, renames), stated));
  }
  const told = new Set(changes.map(({ hop }) => `hop ${hop}`));
  const sites = siteChanges(shared, (site) => editedAt(site, movers, was, is, renames));
  for (const { entry } of shared) told.add(entry);
  const rest = [...findings].flatMap(([owner, list]) => (told.has(owner) ? [] : list));
  const hops = changes.toSorted(mattersFirst);
  const beside = { hops, shared, offers: offersOf(was, is, renames) };
  const found = {
    hops,
    sites,
    shared: shared
      .filter(({ entry }) => !entry.startsWith("site "))
      .map((change) => ({ ...change, ...reach(change.entry, is, hops) }))
      .filter((change) => !isBeside(change, was)),
    findings: rest.filter(({ status }) => status !== "still there"),
    demands: demandChanges(was.demands, is.demands, renames, beside),
    loads: loadChanges(was.demands, is.demands, renames, beside),
  };
  return {
    ...found,
    orders: orderChanges(
      ordered(was, "was", pairs, is),
      ordered(is, "is", pairs, was),
      renames,
      touchedSites(was, is, sites, renames),
    ),
    ports: portMoves(was.design, is.design, renames),
    licences,
    ...summed(found),
  };
}

/** What the lists come to: they alone are counted, so that nothing is counted that is not told, and nothing twice. */
export function summed(
  told: Pick<ChangeSet, "hops" | "sites" | "shared" | "findings" | "demands" | "loads">,
): Pick<ChangeSet, "counts" | "worse" | "newFindings"> {
  const { hops, demands, loads } = told;
  const all = findingsIn(told);
  return {
    counts: countsOf(hops, demands, all),
    worse: [...hops, ...demands, ...loads].some(({ worse }) => worse) || all.some(isWorse),
    newFindings: all.some(isWorse),
  };
}

function pairedHops(was: ComparedSide, is: ComparedSide, renames: Renames): Pair[] {
  const before = new Map(was.decisions.hops.map((name) => [hopNow(name, renames), name]));
  const pairs: Pair[] = is.decisions.hops.map((name) => ({ was: before.get(name), is: name }));
  const after = new Set(is.decisions.hops);
  for (const [now, name] of before) if (!after.has(now)) pairs.push({ was: name });
  return pairs;
}

/** Whether a hop that is on both sides can be evaluated on one of them only: what it is made of is then not known. */
function isOneSided(pair: Pair, [before, now]: readonly [unknown, unknown]): boolean {
  return pair.was !== undefined && pair.is !== undefined && (before === undefined) !== (now === undefined);
}

/** The design of a side as its parts are held against the other's: without the hops that the other cannot resolve. */
function ordered(
  side: ComparedSide,
  which: "was" | "is",
  pairs: readonly Pair[],
  other: ComparedSide,
): ComparedSide["design"] {
  const there = which === "was" ? "is" : "was";
  const unknown = pairs.flatMap((pair) => {
    const [name, elsewhere] = [pair[which], pair[there]];
    return name !== undefined && elsewhere !== undefined && !other.design.hops.has(elsewhere) ? [name] : [];
  });
  if (unknown.length === 0) return side.design;
  const hops = new Map(side.design.hops);
  for (const name of unknown) hops.delete(name);
  return { ...side.design, hops };
}

/** Hops of both sides that only one of them can resolve, by the names of both. */
function judgedOnOneSide(
  pairs: readonly Pair[],
  was: ComparedSide,
  is: ComparedSide,
): (readonly [string, EditedHop])[] {
  return pairs.flatMap((pair): (readonly [string, EditedHop])[] => {
    if (pair.was === undefined || pair.is === undefined) return [];
    const [before, now] = [was.design.hops.has(pair.was), is.design.hops.has(pair.is)];
    const hop: EditedHop = { status: before ? "not judged" : "judged again", decisions: [] };
    return before === now ? [] : [pair.was, pair.is].map((name) => [name, hop]);
  });
}

/** Hops added, removed, renamed or decided anew, by the names of both sides. */
function editedHops(
  pairs: readonly Pair[],
  was: ComparedSide,
  is: ComparedSide,
  renames: Renames,
): Map<string, EditedHop> {
  const edited = new Map<string, EditedHop>();
  for (const pair of pairs) {
    const decisions = decisionsOf(pair, was, is, renames);
    if (pair.was === pair.is && decisions.every(({ from }) => from !== undefined)) continue;
    const status = pair.was === undefined ? "added" : pair.is === undefined ? "removed" : "changed";
    // Of a hop that came or went all would be told: what it is made of stands in the text.
    const hop = { status, decisions: status === "changed" ? decisions : [] } as const;
    for (const name of [pair.was, pair.is]) if (name !== undefined) edited.set(name, hop);
  }
  return edited;
}

/** Finding changes by the declaration that they stand at, named as on the new side. */
function findingsByOwner(
  was: ComparedSide,
  is: ComparedSide,
  renames: Renames,
  options: CompareOptions,
): Map<string, readonly FindingChange[]> {
  const all = (side: ComparedSide): Finding[] => [
    ...[...side.hops.values()].flatMap(({ findings }) => findings),
    ...side.findings,
  ];
  const now = (at: string) => addressNow(at, renames);
  const remaining = remainingOn(was, is, renames, options);
  const changes = findingChanges(all(was), all(is), {
    addressNow: now,
    aboutNow: (about) => aboutNow(about, renames),
    remaining,
    isLeft: leftOn(was, renames),
  });
  return Map.groupBy(changes, ({ is: after, was: before }) => {
    const at = after ? after.at : now(before!.at);
    return at.split(" / ")[0]!;
  });
}

function sharedChanges(
  was: ComparedSide,
  is: ComparedSide,
  renames: Renames,
  findings: ReadonlyMap<string, readonly FindingChange[]>,
): SharedChange[] {
  const before = new Map(was.decisions.entries.map((key) => [renames.entries.get(key) ?? key, key]));
  const after = new Set(is.decisions.entries);
  const keys = [...is.decisions.entries, ...[...before.keys()].filter((key) => !after.has(key))];
  return keys.flatMap((entry): SharedChange[] => {
    const old = before.get(entry);
    const unchanged = old === entry && sameWords(was, is, entry);
    if (unchanged && !findings.has(entry)) return [];
    const decisions = decisionChanges(
      old === undefined ? [] : (was.decisions.entry(old) ?? []),
      is.decisions.entry(entry) ?? [],
      renames,
    );
    const renamed = old !== undefined && after.has(entry) && old !== entry && !isLicence(entry);
    const status =
      old === undefined ? "added" : !after.has(entry) ? "removed" : renamed ? "renamed" : "changed";
    // What a removed entry had wrong is gone with it.
    const own = (findings.get(entry) ?? []).filter(
      (change) => change.status !== "still there" && (status !== "removed" || change.is !== undefined),
    );
    if (status === "changed" && decisions.length === 0 && own.length === 0) return [];
    // Of what came or went all would be told: when it stands is worth it.
    const told =
      status === "changed" || status === "renamed"
        ? decisions
        : decisions.filter(({ word }) => word === "state");
    const renamedFrom = renamed ? old.slice(old.indexOf(" ") + 1) : undefined;
    return [{ entry, status, renamedFrom, decisions: told, usedBy: 0, affects: 0, findings: own }];
  });
}

/**
 * Whether an entry came with a design that is new, and is nothing to it: of a catalogue that stands for many designs it uses
 * little, and none of that is a change.
 */
function isBeside({ entry, status, usedBy, findings }: SharedChange, was: ComparedSide): boolean {
  const isNew = was.decisions.hops.length === 0 && was.decisions.entries.length === 0;
  return isNew && status === "added" && usedBy === 0 && findings.length === 0 && OF_CATALOGUE.test(entry);
}

const OF_CATALOGUE = /^(antenna|radio|coupler|feeder|cable|chassis|card|plan|objective) /;

function listChanged({ entry, decision }: ListChange): SharedChange {
  return { entry, status: "changed", decisions: [decision], usedBy: 0, affects: 0, findings: [] };
}

function siteChanges(
  shared: readonly SharedChange[],
  because: (site: string) => readonly string[],
): SiteChange[] {
  return shared
    .filter(({ entry }) => entry.startsWith("site "))
    .map(({ entry, status, renamedFrom, decisions, findings }) => {
      const site = entry.slice("site ".length);
      return {
        site,
        status,
        renamedFrom,
        decisions,
        findings,
        because: findings.length > 0 ? because(site) : [],
      };
    });
}

/** Sites, by their new names, with a hop that may differ or with a change of their own. */
function touchedSites(
  was: ComparedSide,
  is: ComparedSide,
  changed: readonly SiteChange[],
  renames: Renames,
): Set<string> {
  const sitesOf = (side: ComparedSide) =>
    [...side.hops.values()].flatMap(({ hop }) => hop.ends.map(({ site }) => site.name));
  return new Set([
    ...sitesOf(was).map((site) => siteNow(site, renames)),
    ...sitesOf(is),
    ...changed.map(({ site }) => site),
  ]);
}

function reach(entry: string, is: ComparedSide, hops: readonly HopChange[]) {
  const uses = (name: string) =>
    EVERYWHERE.includes(entry) ||
    isOthersList(entry) ||
    (is.decisions.hop(name)?.uses.includes(entry) ?? false);
  const affected = hops.filter(
    ({ hop, causes, figures, findings }) =>
      causes.some(({ text }) => text === entry) &&
      figures.length + findings.length > 0 &&
      // One that is gone was of its hop all the same.
      (uses(hop) || isLicence(entry)),
  );
  const usedBy = is.decisions.hops.filter(uses).length;
  return { usedBy: Math.max(usedBy, affected.length), affects: affected.length };
}

function countsOf(
  hops: readonly HopChange[],
  demands: ChangeSet["demands"],
  findings: readonly FindingChange[],
): ChangeCounts {
  const hopsWith = (has: (change: HopChange) => boolean) => hops.filter(has).length;
  const findingsWith = (has: (change: FindingChange) => boolean) => findings.filter(has).length;
  return {
    added: hopsWith(({ status }) => status === "added"),
    removed: hopsWith(({ status }) => status === "removed"),
    renamed: hopsWith(({ renamedFrom }) => renamedFrom !== undefined),
    // A new name alone is told as such.
    edited: hopsWith(
      ({ status, edited, decisions, renamedFrom }) =>
        status === "changed" && edited && (decisions.length > 0 || renamedFrom === undefined),
    ),
    affected: hopsWith(({ status, edited }) => (status === "changed" || status === "not judged") && !edited),
    worse: hopsWith(({ worse }) => worse),
    demandsWorse: demands.filter(({ worse }) => worse).length,
    newFindings: findingsWith(isWorse),
    fixedFindings: findingsWith(isMended),
    newlyAccepted: findingsWith(({ status }) => status === "newly accepted"),
    newRemarks: findingsWith((change) => isOpened(change) && change.severity === "info"),
    fixedRemarks: findingsWith(isRemarkGone),
  };
}
