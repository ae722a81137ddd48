/** The repository around a folder, and the names that its revisions go by. */
import { resolve } from "node:path";
import { isBelow } from "../../language/model/path.js";
import { CommandError } from "../command-error.js";
import { endlessIn } from "./endless.js";
import { GitError, git, gitText } from "./run.js";
import { samePlace, shareLedTo, workTreeAround } from "./work-tree.js";

export interface Repository {
  /** Top folder of the work tree, absolute, parted by `/`. */
  readonly root: string;
  readonly shallow: boolean;
}

export interface Revision {
  /** As it was asked for. */
  readonly name: string;
  readonly commit: string;
  /** First characters of the commit, as many as tell it apart. */
  readonly short: string;
}

/** @throws CommandError when the folder is in no work tree of git, or in one that is not to be read */
export async function repositoryOf(folder: string): Promise<Repository> {
  const root = workTreeAround(folder);
  if (root === undefined)
    throw new CommandError(`${folder}: no git work tree; name a folder in a repository`);
  if (!isBelow(resolve(folder).replaceAll("\\", "/"), root))
    throw new CommandError(`${folder}: a link into the repository ${root}; name the folder there`);
  const share = process.platform === "win32" ? shareLedTo(root) : undefined;
  if (share !== undefined)
    throw new CommandError(`${root}: its repository leads to ${share} on the network, where nothing is read`);
  const endless = endlessIn(root);
  if (endless !== undefined)
    throw new CommandError(`${endless}: a device or a pipe where git keeps its files; remove it`);
  const told = await gitText(root, ["rev-parse", "--is-shallow-repository", "--show-toplevel"]);
  const [shallow, ...top] = told.trimEnd().split("\n");
  if (!samePlace(top.join("\n"), root))
    throw new CommandError(`${root}: its repository has its work tree elsewhere, in ${top} (core.worktree)`);
  return { root, shallow: shallow === "true" };
}

/** Folder of git's own that all work trees of a repository share. */
export async function gitFolderOf({ root }: Repository): Promise<string> {
  const asked = ["--path-format=absolute", "--git-common-dir"];
  return (await gitText(root, ["rev-parse", ...asked])).replace(/\n$/, "");
}

/** @throws CommandError when there is no such commit here */
export async function revisionOf(repository: Repository, name: string): Promise<Revision> {
  const asked = await askedRevision(repository, name);
  if (typeof asked === "object") return asked;
  const kind = await kindOf(repository, name);
  if (kind)
    throw new CommandError(`${oneLine(name)}: this is a ${kind}, no commit; name a branch, tag or commit`);
  if (asked !== "") throw new CommandError(`${oneLine(name)}: it cannot be read: ${asked}`);
  const remedy = repository.shallow
    ? "this clone is shallow: fetch more of its history (git fetch --deepen 100, or --unshallow)"
    : "git log and git branch --all show what there is";
  throw new CommandError(`${oneLine(name)}: there is no such revision; ${remedy}`);
}

/** @returns undefined when there is no such commit */
export async function findRevision(repository: Repository, name: string): Promise<Revision | undefined> {
  const asked = await askedRevision(repository, name);
  return typeof asked === "object" ? asked : undefined;
}

/** @returns what git could not read where it finds no commit; nothing when it merely has none of that name */
async function askedRevision({ root }: Repository, name: string): Promise<Revision | string> {
  if (!canBeName(name)) return "";
  try {
    const asked = ["--verify", "--quiet", "--end-of-options", `${name}^{commit}`];
    const commit = (await gitText(root, ["rev-parse", ...asked])).trim();
    // `^main` is all that is not in it.
    if (!/^[0-9a-f]+$/.test(commit)) return "";
    const short = (await gitText(root, ["rev-parse", "--short", commit])).trim();
    return { name, commit, short };
  } catch (error) {
    if (error instanceof GitError && error.status !== undefined) return error.damage;
    throw error;
  }
}

/** What a name stands for that is no commit. */
async function kindOf({ root }: Repository, name: string): Promise<string | undefined> {
  if (!canBeName(name)) return undefined;
  return gitText(root, ["cat-file", "-t", name]).then(
    (kind) => kind.trim(),
    () => undefined,
  );
}

/** No name of git's holds control characters, and one that begins with a minus would be read as an option. */
function canBeName(name: string): boolean {
  return name !== "" && !name.startsWith("-") && !/\p{Cc}/u.test(name) && name.length <= LONGEST_NAME;
}

const LONGEST_NAME = 1000;

function oneLine(name: string): string {
  const text = name.replace(/\p{Cc}/gu, "·");
  return text.length > 100 ? `${text.slice(0, 100)}...` : text;
}

/** Where two histories part: what a merge request is compared with. @throws CommandError when they have nothing in common here */
export async function mergeBase({ root }: Repository, a: Revision, b: Revision): Promise<Revision> {
  try {
    const commit = (await gitText(root, ["merge-base", a.commit, b.commit])).trim();
    const short = (await gitText(root, ["rev-parse", "--short", commit])).trim();
    return { name: `${a.name}...${b.name}`, commit, short };
  } catch (error) {
    if (!(error instanceof GitError) || error.status !== 1) throw error;
    throw new CommandError(
      `${a.name}...${b.name}: no common commit is here; fetch more of the history (git fetch --deepen 100)`,
    );
  }
}

export interface Index {
  /** Paths from the root that git knows of in the work tree; others are untracked. */
  readonly tracked: ReadonlySet<string>;
  readonly submodules: readonly string[];
}

export async function indexOf({ root }: Repository): Promise<Index> {
  const tracked = new Set<string>();
  const submodules: string[] = [];
  for (const line of (await git(root, ["ls-files", "--stage", "-z"])).toString("utf8").split("\0")) {
    if (line === "") continue;
    const path = line.slice(line.indexOf("\t") + 1);
    tracked.add(path);
    if (line.startsWith(SUBMODULE)) submodules.push(path);
  }
  return { tracked, submodules };
}

/** Mode of an entry that is a repository of its own. */
export const SUBMODULE = "160000";
