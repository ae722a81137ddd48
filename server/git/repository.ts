/** The repository around a folder, and the names that its revisions go by. */
import { resolve } from "node:path";
import { CommandError } from "../command-error.js";
import { slashed } from "../files/slashed.js";
import { GitError, git, gitSucceeds, gitText } from "./run.js";

export interface Repository {
  /** Top folder of the work tree, absolute, parted by `/`. */
  readonly root: string;
}

export interface Revision {
  /** As it was asked for. */
  readonly name: string;
  readonly commit: string;
  /** First characters of the commit, as many as tell it apart. */
  readonly short: string;
}

/** @throws CommandError when the folder is in no work tree of git */
export async function repositoryOf(folder: string): Promise<Repository> {
  try {
    const inside = (await gitText(folder, ["rev-parse", "--is-inside-work-tree"])).trim();
    if (inside !== "true") throw new GitError("it is inside the repository's own folder");
    // From the folder upwards, not git's own path: that has symbolic links resolved, which the design's paths have not.
    const up = (await gitText(folder, ["rev-parse", "--show-cdup"])).trim();
    return { root: slashed(resolve(folder, up)) };
  } catch (error) {
    if (!(error instanceof GitError)) throw error;
    throw new CommandError(`${folder}: no git work tree (${error.message}); name a folder in a repository`);
  }
}

/** @throws CommandError when there is no such commit here */
export async function revisionOf({ root }: Repository, name: string): Promise<Revision> {
  const found = await findRevision({ root }, name);
  if (found) return found;
  const shallow = (await gitText(root, ["rev-parse", "--is-shallow-repository"])).trim() === "true";
  const remedy = shallow
    ? "this clone is shallow: fetch more of its history (git fetch --deepen 100, or --unshallow)"
    : "git log and git branch --all show what there is";
  throw new CommandError(`${name}: there is no such revision; ${remedy}`);
}

/** @returns undefined when there is no such commit */
export async function findRevision({ root }: Repository, name: string): Promise<Revision | undefined> {
  // A name that begins with a minus would be read as an option.
  if (name.startsWith("-") || name === "") return undefined;
  try {
    const asked = ["rev-parse", "--verify", "--quiet", "--end-of-options", `${name}^{commit}`];
    const commit = (await gitText(root, asked)).trim();
    const short = (await gitText(root, ["rev-parse", "--short", commit])).trim();
    return { name, commit, short };
  } catch (error) {
    if (error instanceof GitError) return undefined;
    throw error;
  }
}

/** Where two histories part: what a merge request is compared with. @throws CommandError when they have nothing in common here */
export async function mergeBase(repository: Repository, a: Revision, b: Revision): Promise<Revision> {
  const { root } = repository;
  if (!(await gitSucceeds(root, ["merge-base", a.commit, b.commit]))) {
    throw new CommandError(
      `${a.name}...${b.name}: no common commit is here; fetch more of the history (git fetch --deepen 100)`,
    );
  }
  const commit = (await gitText(root, ["merge-base", a.commit, b.commit])).trim();
  const short = (await gitText(root, ["rev-parse", "--short", commit])).trim();
  return { name: `${a.name}...${b.name}`, commit, short };
}

/** Paths from the root that differ between a commit and the work tree, as git sees them (line endings and filters applied). */
export async function changedInWorkTree({ root }: Repository, commit: string): Promise<ReadonlySet<string>> {
  const out = await git(root, ["diff", "--no-ext-diff", "--no-renames", "--name-only", "-z", commit, "--"]);
  return new Set(names(out));
}

export interface Index {
  /** Paths from the root that git knows of in the work tree; others are untracked. */
  readonly tracked: ReadonlySet<string>;
  readonly submodules: readonly string[];
}

export async function indexOf({ root }: Repository): Promise<Index> {
  const tracked = new Set<string>();
  const submodules: string[] = [];
  for (const line of names(await git(root, ["ls-files", "--stage", "-z"]))) {
    const path = line.slice(line.indexOf("\t") + 1);
    tracked.add(path);
    if (line.startsWith(SUBMODULE)) submodules.push(path);
  }
  return { tracked, submodules };
}

/** Mode of an entry that is a repository of its own. */
export const SUBMODULE = "160000";

/** New path to old path, of files that moved from one commit to another (or to the work tree). */
export async function renamedFiles(
  { root }: Repository,
  from: string,
  to: string | undefined,
): Promise<ReadonlyMap<string, string>> {
  const range = to === undefined ? [from] : [from, to];
  const out = await git(root, [
    ...["diff", "--no-ext-diff", "-M", "--diff-filter=R", "--name-status", "-z"],
    ...range,
    "--",
  ]);
  const parts = names(out);
  const renames = new Map<string, string>();
  for (let i = 0; i + 2 < parts.length; i += 3) renames.set(parts[i + 2]!, parts[i + 1]!);
  return renames;
}

function names(out: Buffer): string[] {
  return out
    .toString("utf8")
    .split("\0")
    .filter((name) => name !== "");
}
