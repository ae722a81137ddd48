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

const FIELDS = ["%H", "%h", "%P", "%cs", "%an", "%s"];

/** @param kinds patterns of paths, for example `*.hop` */
export async function logOf(
  { root }: Repository,
  { commit }: Revision,
  kinds: readonly string[],
): Promise<LoggedCommit[]> {
  const format = `--format=${FIELDS.join("%x00")}`;
  const walk = ["log", "-z", "--no-show-signature", "--full-history", "--parents", "--topo-order", format];
  const out = await git(root, [...walk, commit, "--", ...kinds]);
  const parts = out.toString("utf8").split("\0");
  const commits: LoggedCommit[] = [];
  for (let i = 0; i + FIELDS.length <= parts.length; i += FIELDS.length) {
    const [hash = "", short = "", parents = "", date = "", author = "", title = ""] = parts.slice(i);
    commits.push({ commit: hash, short, parents: parents.split(" ").filter(Boolean), date, author, title });
  }
  return commits;
}
