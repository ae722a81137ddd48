/**
 * The one place that starts a program: git, to read objects and names of a repository that may be a stranger's. Nothing
 * that its configuration names is started, nothing is fetched, nothing is written, and nobody is asked for a password.
 */
import {
  type ChildProcessWithoutNullStreams,
  type SpawnOptionsWithoutStdio,
  spawn,
} from "node:child_process";
import { dirname } from "node:path";
import { CommandError } from "../command-error.js";
import { findProgram, lookUpHere, ownFolders, type UserProgram } from "./program.js";

/** In one line: where, why, and what to do where there is something. */
export class GitError extends CommandError {
  constructor(
    folder: string,
    reason: string,
    /** That git ended with; undefined: it never came to an end of its own. */
    readonly status?: number,
    /** What it could not read on its way; empty: it read all that it looked at. */
    readonly damage = "",
  ) {
    super(`${folder}: ${reason}`);
  }
}

/** What git may know of the user: where his own configuration lies, and what Windows cannot start a program without. */
const FROM_THE_USER = [
  "HOME",
  "XDG_CONFIG_HOME",
  "GIT_CONFIG_GLOBAL",
  "GIT_CONFIG_SYSTEM",
  "GIT_CONFIG_NOSYSTEM",
  "USERPROFILE",
  "HOMEDRIVE",
  "HOMEPATH",
  "PROGRAMDATA",
  "SYSTEMROOT",
  "TEMP",
  "TMP",
  "TMPDIR",
];

/** Everything else that the environment says of git is left out: it may have been set for another repository. */
const OURS = {
  LC_ALL: "C",
  GIT_OPTIONAL_LOCKS: "0",
  GIT_TERMINAL_PROMPT: "0",
  // A partial clone would fetch what it lacks, by a command that its configuration names.
  GIT_NO_LAZY_FETCH: "1",
  // The same for a git that does not know the line above: there is no transport of this name.
  GIT_ALLOW_PROTOCOL: "none",
  // A commit is what its name says, not what the repository would have in its place.
  GIT_NO_REPLACE_OBJECTS: "1",
  GIT_GRAFT_FILE: "/dev/null",
};

/**
 * The most that git may take at once: what a commit, a tree or a file that steers git unpacks to, it holds whole. A
 * listing of 500,000 files takes a quarter; contents of files are let through in one piece up to the size that is read.
 */
const MOST_MEMORY = { names: "256m", contents: "1g" };

/** Stronger than the configuration of the repository. */
const OPTIONS = [
  "--no-pager",
  // A bare repository that lies among the files of another is data.
  ...["-c", "safe.bareRepository=explicit"],
  ...["-c", "core.fsmonitor=false"],
  ...["-c", "core.hooksPath=/dev/null"],
  ...["-c", "core.abbrev=auto"],
  // What it says of a commit is not held against the commit.
  ...["-c", "core.commitGraph=false"],
];

/**
 * What git is asked: names, objects, settings, and the list of files it knows. None of these looks at a file of the work tree, so
 * none starts a filter; `status`, `diff` and `log` do, or start what shows their answers.
 */
export type GitCall = readonly [
  command: "rev-parse" | "rev-list" | "merge-base" | "ls-tree" | "ls-files" | "cat-file" | "config",
  ...args: string[],
];

/** The first whose every option above is known and tried. */
const OLDEST = [2, 39] as const;

/** As much as a listing of some 500,000 files. */
const MOST_BYTES = 64 * 2 ** 20;

/**
 * A repository can hold pipes and folders of machines that never answer. Walking a long history for what touched some
 * files takes its time before the first is found; everything else answers at once.
 */
const LONGEST_SILENCE_MS = { walk: 120_000, else: 20_000 };
const WALKS: ReadonlySet<string> = new Set<GitCall[0]>(["rev-list", "merge-base"]);

export interface GitOptions {
  readonly input?: string;
  /** More output than this is an error. */
  readonly mostBytes?: number;
  /** A pause of this length too. */
  readonly longestSilenceMs?: number;
}

/**
 * @param root top folder of a work tree; git looks in no other
 * @throws GitError when git fails, is not installed, too old, falls silent or has too much to say
 */
export async function git(root: string, call: GitCall, options: GitOptions = {}): Promise<Buffer> {
  const out: Buffer[] = [];
  await gitInPieces(root, call, (piece) => void out.push(piece), options);
  return Buffer.concat(out);
}

export async function gitText(root: string, call: GitCall): Promise<string> {
  return (await git(root, call)).toString("utf8");
}

/** The same for what is too large to be held. */
export async function gitInPieces(
  root: string,
  call: GitCall,
  take: (piece: Buffer) => void,
  options: GitOptions = {},
): Promise<void> {
  const lookUp = lookUpHere([root]);
  const program = findProgram("git", lookUp);
  if (!program) throw new GitError(root, "git is not installed, or not on the path");
  const searchPath = ownFolders(lookUp).join(lookUp.windows ? ";" : ":");
  await refuseOld(program, root, searchPath);
  const environment = {
    GIT_CEILING_DIRECTORIES: dirname(lookUp.real(root)),
    PATH: searchPath,
    GIT_ALLOC_LIMIT: call[0] === "cat-file" ? MOST_MEMORY.contents : MOST_MEMORY.names,
  };
  const ask = (asked: GitCall, to: typeof take, more: GitOptions) => {
    const longestSilenceMs = LONGEST_SILENCE_MS[WALKS.has(asked[0]) ? "walk" : "else"];
    const bounds = { longestSilenceMs, ...more };
    return start(program, [...OPTIONS, "-C", root, ...asked], environment, root, to, bounds);
  };
  try {
    await ask(call, take, options);
  } catch (error) {
    // What git says of an object that isn't here differs from version to version.
    if (!(error instanceof GitError) || error.status === undefined || !READS_OBJECTS.has(call[0]))
      throw error;
    const partial = await ask(["config", "--get-regexp", PARTIAL], () => {}, {}).then(
      () => true,
      () => false,
    );
    throw partial ? new GitError(root, LACKING) : error;
  }
}

const READS_OBJECTS: ReadonlySet<GitCall[0]> = new Set(["rev-list", "ls-tree", "cat-file"]);
const PARTIAL = "^(extensions\\.partialclone|remote\\..*\\.promisor)$";

const versions = new Map<UserProgram, Promise<string>>();

async function refuseOld(program: UserProgram, root: string, searchPath: string): Promise<void> {
  let version = versions.get(program);
  if (!version) {
    let out = "";
    version = start(
      program,
      ["--version"],
      { PATH: searchPath },
      root,
      (piece) => void (out += piece),
      {},
    ).then(() => out.replace(/^git version /, "").trim());
    versions.set(program, version);
    version.catch(() => versions.delete(program));
  }
  const [major = 0, minor = 0] = (await version).split(".").map(Number);
  if (major > OLDEST[0] || (major === OLDEST[0] && minor >= OLDEST[1])) return;
  const oldest = OLDEST.join(".");
  throw new GitError(
    root,
    `git ${oldest} or later is needed to read it safely; ${program} is ${await version}`,
  );
}

function start(
  program: UserProgram,
  args: readonly string[],
  environment: Readonly<Record<string, string>>,
  root: string,
  take: (piece: Buffer) => void,
  { input = "", mostBytes = MOST_BYTES, longestSilenceMs = LONGEST_SILENCE_MS.else }: GitOptions,
): Promise<void> {
  return new Promise((resolve, reject) => {
    const child = started(root, program, args, {
      // Where the program lies: libraries are looked for in the working folder too.
      cwd: dirname(program),
      env: { ...fromTheUser(), ...OURS, ...environment },
      stdio: ["pipe", "pipe", "pipe"],
      windowsHide: true,
    });
    let [bytes, reason] = [0, ""];
    const giveUp = (why: string) => {
      reject(new GitError(root, why));
      child.kill("SIGKILL");
    };
    const silence = setTimeout(
      () => giveUp(`git did not answer for ${longestSilenceMs / 1000} s`),
      longestSilenceMs,
    );
    child.stdout.on("data", (piece: Buffer) => {
      silence.refresh();
      bytes += piece.length;
      if (bytes > mostBytes)
        return giveUp(`git has more than ${mostBytes / 2 ** 20} MB to say, too much to be read`);
      try {
        take(piece);
      } catch (error) {
        reject(error);
        child.kill("SIGKILL");
      }
    });
    child.stderr.setEncoding("utf8").on("data", (piece: string) => {
      if (reason.length < 10_000) reason += piece;
    });
    child.on("error", (error) => reject(new GitError(root, error.message)));
    child.on("close", (status) => {
      clearTimeout(silence);
      if (status === 0) resolve();
      else {
        const complaint = toldBy(reason);
        const damage = DAMAGE.test(reason) ? complaint : "";
        reject(
          new GitError(root, complaint || `git ended with status ${status}`, status ?? undefined, damage),
        );
      }
    });
    // A git that ends early closes its input; its status tells why.
    child.stdin.on("error", () => {});
    child.stdin.end(input);
  });
}

/** @throws GitError where no program may be started */
function started(
  root: string,
  program: UserProgram,
  args: readonly string[],
  options: SpawnOptionsWithoutStdio,
): ChildProcessWithoutNullStreams {
  try {
    return spawn(program, args, options);
  } catch (error) {
    throw new GitError(root, error instanceof Error ? error.message : String(error));
  }
}

/** That a name stands for another kind of object is no damage. */
const DAMAGE = /^error: (?!.*(expected \w+ type|not a commit))|attempting to allocate/m;

function fromTheUser(): Record<string, string> {
  return Object.fromEntries(
    FROM_THE_USER.flatMap((name) => {
      const value = process.env[name];
      return value === undefined ? [] : [[name, value]];
    }),
  );
}

/** A partial clone has what it was asked for once. */
export const LACKING =
  "this clone is partial, lacks what was asked for, and nothing is fetched unasked; git fetch --refetch --no-filter brings all of it";

/** The first line of what git complained of, or what it means here. */
function toldBy(complaint: string): string {
  const [, others] = /dubious ownership in repository at '(.*)'/.exec(complaint) ?? [];
  if (others !== undefined)
    return `it belongs to another user, and git reads it only after git config --global --add safe.directory ${quoted(others)}`;
  const [, bytes] = /attempting to allocate (\d+) over limit/.exec(complaint) ?? [];
  if (bytes !== undefined)
    return `it has something of ${(Number(bytes) / 2 ** 20).toFixed(0)} MB that git would hold in memory, too much to be read`;
  // What a colon announces stands on lines of its own.
  const lines = complaint
    .replace(/:\n\s*/g, ": ")
    .split("\n")
    .filter((line) => line.trim() !== "");
  const fatal = lines.find((line) => /^(fatal|error): /.test(line)) ?? lines[0] ?? "";
  return fatal
    .replace(/^(fatal|error): /, "")
    .replace(/\p{Cc}/gu, "·")
    .slice(0, 300)
    .trim();
}

/** For the user's shell. */
function quoted(path: string): string {
  if (process.platform === "win32") return `"${path}"`;
  return /^[\w./-]+$/.test(path) ? path : `'${path.replaceAll("'", "'\\''")}'`;
}
