/** The commits that changed a hop's decisions, or what others decide for it, with its figures at each of them. */
import { decisionsOf } from "../../language/compare/decided.js";
import type { DesignModel } from "../../language/model/design-model.js";
import { figureChanges } from "../../shared/compare/consequences.js";
import { type DecisionChange, decisionChanges } from "../../shared/compare/decisions.js";
import { type DecidedHop, type Decisions, EVERYWHERE } from "../../shared/compare/facts.js";
import { findRenames } from "../../shared/compare/renames.js";
import { contentComparison } from "../../shared/compare/same.js";
import { heardBy } from "../../shared/interference/in-touch.js";
import { CommandError } from "../command-error.js";
import { hopRemedy } from "../findings/one-hop.js";
import { shownFrom } from "../findings/paths.js";
import { problemsOfHop } from "../findings/problems-of-hop.js";
import { lastDayOf } from "../findings/stages.js";
import { type LoggedCommit, logOf } from "../git/log.js";
import { indexOf, type Repository, type Revision } from "../git/repository.js";
import { DesignSession } from "../session/design-session.js";
import type { SessionHop } from "../session/hop-judge.js";
import { loadProject } from "../session/load.js";
import { folderBefore } from "./renamed-folder.js";
import { Scratch } from "./scratch.js";
import { commitFiles, type SideFiles, type SourceCache, workTreeFiles } from "./side-files.js";
import { groundOf } from "./side-ground.js";
import { brokenNote } from "./text-findings.js";

export interface HistoryEntry {
  /** Undefined: the work tree, not committed. */
  readonly commit?: LoggedCommit;
  /** Name of the hop then. */
  readonly hop: string;
  readonly status: "added" | "removed" | "renamed" | "changed";
  readonly decisions: readonly DecisionChange[];
  /** What others decide for it: catalogue, defaults, climate, objective, sites. */
  readonly shared: readonly { readonly entry: string; readonly decisions: readonly DecisionChange[] }[];
  readonly terrainChanged: boolean;
  /** By how much interference raises its thresholds changed, and nothing that the hop itself rests on. */
  readonly interferenceChanged: boolean;
  /** Undefined: gone, or not to be evaluated. */
  readonly judged?: SessionHop;
  /** Errors in the text of the hop and of its own judgement, not accepted; undefined: it is gone. */
  readonly errors?: number;
}

export interface HistoryOptions {
  readonly today: string;
  /** Entries at most, newest first. */
  readonly limit: number;
  /** Takes what is left out or cannot be read at a commit, a sentence each, each once. */
  readonly note?: (sentence: string) => void;
}

/** What a hop depends on: its text, and the ground under it. */
const KINDS = ["*.hop", "*.hgt", "*.hgt.gz", "*.zip", "*.tif", "*.tiff", "*.asc", "*.prj", "*.csv"];

/** @throws CommandError when the hop is in none of the commits */
export async function hopHistory(
  repository: Repository,
  folder: string,
  name: string,
  from: Revision,
  { today, limit, note }: HistoryOptions,
): Promise<HistoryEntry[]> {
  const scratch = new Scratch();
  try {
    const log = await logOf(repository, from, KINDS);
    const states = new StatesOfHop(repository, folder, today, scratch, note);
    const names = new Map<string, string>();
    const entries: HistoryEntry[] = [];
    const add = async (child: CommitState | undefined, hop: string, commit: LoggedCommit | undefined) => {
      const parents = commit ? commit.parents : log.slice(0, 1).map((first) => first.commit);
      for (const parent of parents) await states.follow(parent, commit?.commit);
      const before = await Promise.all(parents.map((parent) => states.before(parent, hop, child)));
      for (const [index, parent] of parents.entries()) {
        if (!names.has(parent)) names.set(parent, before[index]?.name ?? hop);
      }
      const entry = entryOf(before, child, hop, commit);
      if (entry) entries.push(entry);
    };
    if (from.name === "HEAD") await add(await states.workTree(name), name, undefined);
    for (const commit of log) {
      if (entries.length >= limit) break;
      const hop = names.get(commit.commit) ?? name;
      await add(await states.at(commit.commit, hop), hop, commit);
      states.forgetAllBut(log, commit);
    }
    if (entries.length === 0)
      throw new CommandError(
        `${name}: no commit up to ${from.name} has a hop of this name${hopRemedy(name, await states.modelsNow())}`,
      );
    return entries;
  } finally {
    scratch.remove();
  }
}

/** A hop as one commit has it; a commit without it has no state. */
interface CommitState {
  readonly name: string;
  readonly decisions: Decisions;
  readonly decided: DecidedHop;
  readonly judged?: SessionHop;
  /** What hops share is not judged here: it would take the results of all of them, at each commit. */
  readonly errors: number;
  /** Changes with the terrain under the path. */
  readonly stamp: string;
}

class StatesOfHop {
  private readonly cache: SourceCache = new Map();
  private readonly sides = new Map<string, Promise<readonly DesignModel[]>>();
  private readonly files = new Map<string, Promise<SideFiles>>();
  /** Folder of the design at each commit: it may have had another name. */
  private readonly folders = new Map<string, string>();
  private readonly known = new Map<string, Promise<CommitState | undefined>>();
  private last: readonly DesignModel[] = [];

  constructor(
    private readonly repository: Repository,
    private readonly folder: string,
    private readonly today: string,
    private readonly scratch: Scratch,
    private readonly note: HistoryOptions["note"],
  ) {}

  private readonly noted = new Set<string>();

  /** What holds of many commits is told of the newest. */
  private tell(sentences: readonly string[], side: string): void {
    for (const sentence of sentences) {
      const kind = sentence.replaceAll(side, "");
      if (this.noted.has(kind)) continue;
      this.noted.add(kind);
      this.note?.(sentence);
    }
  }

  async workTree(name: string): Promise<CommitState | undefined> {
    const files = await this.filesNow();
    return this.stateIn(this.modelsIn(files, this.folder), files, this.folder, name);
  }

  /** Finds the folder of the design in a parent. @param child undefined: the work tree */
  async follow(parent: string, child: string | undefined): Promise<void> {
    if (this.folders.has(parent)) return;
    const at = this.folderAt(child);
    const now = child === undefined ? await this.filesNow() : await this.filesAt(child);
    this.folders.set(parent, folderBefore(this.repository.root, at, await this.filesAt(parent), now));
  }

  private folderAt(commit: string | undefined): string {
    return (commit === undefined ? undefined : this.folders.get(commit)) ?? this.folder;
  }

  async modelsNow(): Promise<readonly DesignModel[]> {
    return this.modelsIn(await this.filesNow(), this.folder);
  }

  private async filesNow(): Promise<SideFiles> {
    const { submodules } = await indexOf(this.repository);
    return workTreeFiles(this.repository, submodules, this.cache);
  }

  at(commit: string, name: string): Promise<CommitState | undefined> {
    const key = `${commit} ${name}`;
    let state = this.known.get(key);
    if (!state) {
      state = this.models(commit).then(async (models) =>
        this.stateIn(models, await this.filesAt(commit), this.folderAt(commit), name),
      );
      this.known.set(key, state);
    }
    return state;
  }

  /** The hop in a parent: of the same name, or of the name that it had there. */
  async before(
    parent: string,
    name: string,
    child: CommitState | undefined,
  ): Promise<CommitState | undefined> {
    const same = await this.at(parent, name);
    if (same || !child) return same;
    for (const model of await this.models(parent)) {
      const { hops } = findRenames(decisionsOf(model), child.decisions);
      const old = [...hops].find(([, now]) => now === name)?.[0];
      if (old !== undefined) return this.at(parent, old);
    }
    return undefined;
  }

  /** Designs of commits that no later step asks for. */
  forgetAllBut(log: readonly LoggedCommit[], done: LoggedCommit): void {
    this.sides.delete(done.commit);
    this.files.delete(done.commit);
    if (this.known.size > 4 * log.length) this.known.clear();
  }

  private models(commit: string): Promise<readonly DesignModel[]> {
    let models = this.sides.get(commit);
    if (!models) {
      models = this.filesAt(commit).then((files) => this.modelsIn(files, this.folderAt(commit)));
      this.sides.set(commit, models);
    }
    return models;
  }

  private filesAt(commit: string): Promise<SideFiles> {
    let files = this.files.get(commit);
    if (!files) {
      const short = commit.slice(0, 10);
      const revision = { name: short, commit, short };
      files = commitFiles(this.repository, revision, this.cache);
      this.files.set(commit, files);
    }
    return files;
  }

  private modelsIn(files: SideFiles, folder: string): readonly DesignModel[] {
    const { project, unreadable } = loadProject(folder, files);
    // A commit differs little from the one that was looked at before.
    project.goOnFrom(this.last);
    const side = nameOf(files);
    const designs = project.designs();
    this.last = designs;
    const lost = unreadable.map(
      ({ path, message }) => `${shownFrom(this.folder, path)} in ${side}: ${message}.`,
    );
    const broken = designs.flatMap((model) => brokenNote(model, side));
    this.tell([...lost, ...broken, ...files.leftOut(folder)], side);
    return designs;
  }

  private async stateIn(
    models: readonly DesignModel[],
    files: SideFiles,
    folder: string,
    name: string,
  ): Promise<CommitState | undefined> {
    const holding = models.filter((model) => model.declarations(`hop ${name}`).length > 0);
    if (holding.length > 1) {
      throw new CommandError(
        `${name}: ${holding.length} designs have a hop of this name; name the folder of one behind it`,
      );
    }
    const [model] = holding;
    if (!model) return undefined;
    const decisions = decisionsOf(model);
    const ground = await groundOf(this.repository, files, this.scratch, {
      model,
      hops: [name],
      baseDir: folder,
    });
    this.tell(ground.notes, nameOf(files));
    const session = new DesignSession(model, {
      today: this.today,
      openTerrain: ground.openTerrain,
      fileFor: ground.fileFor,
    });
    // What goes before the end has its figures as long as it stands.
    model.setView({ on: lastDayOf(model, name, this.today) });
    const own = new Set([name]);
    // What others send is part of what this one can bear.
    await session.updateAmong({}, own, heardBy(model.design(), own));
    const judged = session.result(name);
    const [a, b] = judged?.hop.ends ?? [];
    const stamp =
      a?.site.position && b?.site.position
        ? (session.terrain()?.stampFor(a.site.position, b.site.position) ?? "")
        : "";
    const survey = judged?.hop.surveyFile;
    return {
      name,
      decisions,
      decided: decisions.hop(name)!,
      judged,
      errors: [
        ...problemsOfHop(model, name).map(({ problem }) => problem),
        ...(judged?.findings ?? []).filter(({ accepted }) => accepted === undefined),
      ].filter(({ severity }) => severity === "error").length,
      stamp: survey === undefined ? stamp : ground.fileFor(survey),
    };
  }
}

function nameOf({ revision }: SideFiles): string {
  return revision?.name ?? "the work tree";
}

const same = contentComparison();

/** @returns undefined when the commit changes nothing for the hop against one of its parents */
function entryOf(
  parents: readonly (CommitState | undefined)[],
  child: CommitState | undefined,
  hop: string,
  commit: LoggedCommit | undefined,
): HistoryEntry | undefined {
  if (parents.some((parent) => unchanged(parent, child))) return undefined;
  const [parent] = parents;
  if (!child && !parent) return undefined;
  const common = { commit, hop: child?.name ?? hop, judged: child?.judged, errors: child?.errors };
  if (!child || !parent) {
    const status = child ? "added" : "removed";
    return {
      ...common,
      status,
      decisions: [],
      shared: [],
      terrainChanged: false,
      interferenceChanged: false,
    };
  }
  const renames = findRenames(parent.decisions, child.decisions);
  const shared = [...new Set([...child.decided.uses, ...EVERYWHERE])].flatMap((entry) => {
    // What holds of the defaults is told as a decision of the hop.
    if (entry.startsWith("defaults ")) return [];
    if (parent.decisions.words(entry) === child.decisions.words(entry)) return [];
    const before = parent.decisions.entry(entry);
    const now = child.decisions.entry(entry);
    const both = (before && now) || EVERYWHERE.includes(entry);
    const decisions = both ? decisionChanges(before ?? [], now ?? [], renames) : [];
    return decisions.length > 0 ? [{ entry, decisions }] : [];
  });
  return {
    ...common,
    status: parent.name === child.name ? "changed" : "renamed",
    decisions: decisionChanges(parent.decided.facts, child.decided.facts, renames),
    shared,
    // Of a hop that cannot be evaluated nobody knows what lies under it.
    terrainChanged: parent.judged !== undefined && child.judged !== undefined && parent.stamp !== child.stamp,
    interferenceChanged: degraded(parent.judged, child.judged),
  };
}

function unchanged(parent: CommitState | undefined, child: CommitState | undefined): boolean {
  if (!parent || !child) return parent === child;
  if (parent.name !== child.name) return false;
  if (parent.judged && child.judged) {
    if (!same(parent.judged.hop, child.judged.hop)) return false;
    // A raster may change where the path does not cross it, and another hop where it is not heard.
    return figureChanges(parent.judged, child.judged, (site) => site).length === 0;
  }
  const nothing = { hops: new Map(), entries: new Map() };
  return decisionChanges(parent.decided.facts, child.decided.facts, nothing).length === 0;
}

function degraded(parent: SessionHop | undefined, child: SessionHop | undefined): boolean {
  if (!parent || !child) return false;
  return figureChanges(parent, child, (site) => site).some(({ kind }) => kind === "degradation");
}
