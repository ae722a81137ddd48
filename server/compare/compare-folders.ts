/** A folder of designs at two revisions, or at one and as it lies in the work tree. */
import { resolve } from "node:path";
import { DesignModel } from "../../language/model/design-model.js";
import type { Project } from "../../language/model/project.js";
import type { ChangeSet } from "../../shared/compare/change-set.js";
import type { TimedChanges } from "../../shared/compare/times.js";
import { Memory } from "../../shared/network/memory.js";
import { CommandError } from "../command-error.js";
import type { UnreadableFile } from "../files/hop-files.js";
import { slashed } from "../files/slashed.js";
import { indexOf, type Repository, type Revision } from "../git/repository.js";
import type { DesignSession, Pace } from "../session/design-session.js";
import { loadProject } from "../session/load.js";
import { stateOf } from "./compare-designs.js";
import { compareInStages } from "./compare-stages.js";
import { folderBefore } from "./renamed-folder.js";
import { Scratch } from "./scratch.js";
import { commitFiles, type SideFiles, type SourceCache, workTreeFiles } from "./side-files.js";
import { groundOf, type SideGround } from "./side-ground.js";
import { brokenNote } from "./text-findings.js";

export interface CompareOptions {
  /** ISO date that acceptances are held against. */
  readonly today: string;
  /** The one day that is looked at; left out: each from today on. */
  readonly on?: string;
  readonly pace?: Pace;
}

export interface ComparedDesign {
  /** Folder of the design on the new side, absolute; of the old one where the new has it no more. */
  readonly root: string;
  /** Folder on the old side, where it is another. */
  readonly movedFrom?: string;
  readonly title?: string;
  readonly changes: ChangeSet;
  /** The same and what passes before, each with its time. */
  readonly times: readonly TimedChanges[];
  /** Days on which something changes and that were not compared. */
  readonly daysLeftOut: number;
  readonly was: DesignSession;
  readonly is: DesignSession;
}

export interface FolderComparison {
  readonly repository: Repository;
  readonly was: Revision;
  /** Undefined: the work tree. */
  readonly is?: Revision;
  /** The one day that was looked at; undefined: each from today on. */
  readonly on?: string;
  readonly designs: readonly ComparedDesign[];
  /** What the comparison leaves out or takes as it is, one sentence each. */
  readonly notes: readonly string[];
  readonly unreadable: readonly UnreadableFile[];
  /** Removes what was written for the comparison; nothing of the ground can be read after that. */
  dispose(): void;
}

/** @throws CommandError when neither side has a design in the folder */
export async function compareFolder(
  repository: Repository,
  folder: string,
  was: Revision,
  is: Revision | undefined,
  options: CompareOptions,
): Promise<FolderComparison> {
  const cache: SourceCache = new Map();
  const before = await commitFiles(repository, was, cache);
  const now = is
    ? await commitFiles(repository, is, cache)
    : workTreeFiles(repository, (await indexOf(repository)).submodules, cache);
  const at = slashed(resolve(folder));
  const oldAt = folderBefore(repository.root, at, before, now);
  const old = sideAt(oldAt, before);
  // The new side goes on from what is resolved of the old one.
  for (const model of old.models) model.design();
  const sides = [old, sideAt(at, now, old.models)] as const;
  if (sides.every(({ models }) => models.length === 0)) {
    throw new CommandError(
      `${folder}: neither side has a .hop file in this folder; name the folder of a design`,
    );
  }
  const scratch = new Scratch();
  const dispose = () => scratch.remove();
  try {
    const designs: ComparedDesign[] = [];
    const notRead: string[] = [];
    for (const pair of pairedModels(sides[0].models, sides[1].models, oldAt, at)) {
      const baseDir = (pair.is ?? pair.was)!.root;
      const ground = (side: SideFiles, model: DesignModel | undefined) =>
        groundOf(repository, side, scratch, { model, hops: model?.names("hop") ?? [], baseDir });
      const grounds = [await ground(before, pair.was), await ground(now, pair.is)] as const;
      const design = await comparedDesign(pair, grounds, options);
      designs.push(design);
      for (const { notes } of grounds) notRead.push(...notes);
      notRead.push(
        ...unusedOnOneSide(
          { session: design.was, ground: grounds[0], name: was.name },
          { session: design.is, ground: grounds[1], name: is?.name ?? "the work tree" },
        ),
      );
    }
    // What lies outside the repository, or is no text on either side, is one file.
    const unreadable = [
      ...new Map(
        sides.flatMap((side) => side.unreadable).map((one) => [`${one.path}\n${one.message}`, one]),
      ).values(),
    ];
    const leftOut = [...before.leftOut(oldAt), ...now.leftOut(at)];
    const notes = [...new Set([...notesOf(designs, was, is), ...leftOut, ...notRead])];
    return { repository, was, is, on: options.on, designs, notes, unreadable, dispose };
  } catch (error) {
    dispose();
    throw error;
  }
}

interface GroundOfSide {
  readonly session: DesignSession;
  readonly ground: SideGround;
  readonly name: string;
}

/** Terrain and maps that cannot be used, or only with a reservation, on one of the sides: hops change with them. */
function unusedOnOneSide(was: GroundOfSide, is: GroundOfSide): string[] {
  const told = ({ session, ground }: GroundOfSide) =>
    new Set(
      [...(session.terrain()?.problems ?? []), ...(session.maps()?.problems ?? [])]
        .map(({ file, message }) => ({ shown: ground.shown(file), message }))
        // What is not read of a commit is told with the commit.
        .filter(({ shown }) => !ground.notes.some((note) => note.includes(shown)))
        .map(({ shown, message }) => `${shown}: ${message}`),
    );
  const [before, now] = [told(was), told(is)];
  return [
    ...[...before].filter((one) => !now.has(one)).map((one) => `On the side of ${was.name} alone: ${one}.`),
    ...[...now].filter((one) => !before.has(one)).map((one) => `On the side of ${is.name} alone: ${one}.`),
  ];
}

interface LoadedSide {
  readonly project: Project;
  readonly models: readonly DesignModel[];
  readonly unreadable: readonly UnreadableFile[];
}

/** @param like designs of which most is the same on this side */
export function sideAt(folder: string, files: SideFiles, like: readonly DesignModel[] = []): LoadedSide {
  const { project, unreadable } = loadProject(folder, files);
  project.goOnFrom(like);
  const models = project
    .designs()
    .filter((model) => model.allFiles()[Symbol.iterator]().next().done === false);
  return { project, models, unreadable };
}

interface ModelPair {
  readonly was?: DesignModel;
  readonly is?: DesignModel;
}

/** By folder, else by title, else by the hops that both have. */
function pairedModels(
  was: readonly DesignModel[],
  is: readonly DesignModel[],
  oldAt: string,
  at: string,
): ModelPair[] {
  const free = new Set(was);
  const take = (found: DesignModel | undefined) => {
    if (found) free.delete(found);
    return found;
  };
  const byFolder = new Map(
    is.map((model) => [
      model,
      take([...free].find(({ root }) => root.slice(oldAt.length) === model.root.slice(at.length))),
    ]),
  );
  const pairs = is.map((model): ModelPair => {
    const title = model.title();
    const found =
      byFolder.get(model) ??
      take(
        [...free].find((one) => title !== undefined && one.title() === title) ??
          [...free].find((one) => one.names("hop").some((name) => model.names("hop").includes(name))),
      );
    return { was: found, is: model };
  });
  return [...pairs, ...[...free].map((model) => ({ was: model }))];
}

async function comparedDesign(
  pair: ModelPair,
  grounds: readonly [SideGround, SideGround],
  options: CompareOptions,
): Promise<ComparedDesign> {
  const root = (pair.is ?? pair.was)!.root;
  const was = pair.was ?? new DesignModel(root);
  const is = pair.is ?? new DesignModel(root);
  const memory = new Memory();
  const states = [
    stateOf(was, grounds[0], options.today, memory),
    stateOf(is, grounds[1], options.today, memory),
  ] as const;
  const { changes, times, leftOut } = await compareInStages(...states, options);
  return {
    changes,
    times,
    daysLeftOut: leftOut,
    was: states[0].session,
    is: states[1].session,
    root,
    movedFrom: was.root === root ? undefined : was.root,
    title: is.title() ?? was.title(),
  };
}

export function notesOf(
  designs: readonly ComparedDesign[],
  was: Revision,
  is: Revision | undefined,
): string[] {
  const notes: string[] = [];
  for (const { was: before, is: now, daysLeftOut } of designs) {
    if (daysLeftOut > 0)
      notes.push(
        `${daysLeftOut} of the days on which something is built or taken down are not compared; --on names one.`,
      );
    for (const [session, side] of [
      [before, was.name],
      [now, is?.name ?? "the work tree"],
    ] as const) {
      notes.push(...brokenNote(session.model, side));
    }
  }
  return notes;
}
