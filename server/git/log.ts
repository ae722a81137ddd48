/** Commits that touched files of some kinds, newest first, with their parents among them. */
import type { Repository, Revision } from "./repository.js";
import { git } from "./run.js";

export interface LoggedCommit {
  readonly commit: string;
  readonly short: string;
  /** Nearest ancestors that are in the log too. */
  readonly parents: readonly string[];
  /** Of the commit, year-month-day. */
  readonly date: string;
  readonly author: string;
  readonly title: string;
}

/** Behind a line of git's own: `commit`, the commit, its parents. */
const FIELDS = ["%h", "%cs", "%an", "%s"];

/**
 * @param kinds patterns of paths, for example `*.hop`
 * @param most of the newest
 */
export async function logOf(
  { root }: Repository,
  { commit }: Revision,
  kinds: readonly string[],
  most?: number,
): Promise<LoggedCommit[]> {
  const shape = `--format=${FIELDS.map((field) => `${field}%x00`).join("")}`;
  const walk = ["--full-history", "--parents", "--topo-order", "--encoding=UTF-8", shape];
  const limit = most === undefined ? [] : [`--max-count=${most}`];
  const out = await git(root, ["rev-list", ...walk, ...limit, commit, "--", ...kinds]);
  const parts = out.toString("utf8").split("\0");
  const commits: LoggedCommit[] = [];
  for (let i = 0; i + FIELDS.length <= parts.length; i += FIELDS.length) {
    const [head = "", date = "", author = "", title = ""] = parts.slice(i);
    const [line = "", short = ""] = head.trimStart().split("\n");
    const [, hash = "", ...parents] = line.split(" ");
    commits.push({ commit: hash, short, parents, date, author, title });
  }
  return commits;
}
