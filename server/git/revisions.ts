/** What a design can be compared with: the names of a repository, and the last commits that touched design files. */
import { logOf } from "./log.js";
import { findRevision, type Repository } from "./repository.js";
import { gitText } from "./run.js";

export interface NamedRevision {
  /** As git names it. */
  readonly name: string;
  readonly kind: "branch" | "tag" | "remote branch" | "commit";
  /** Of a commit: its date, who made it, and its title. */
  readonly detail?: string;
}

const MOST_NAMES = 500;
const MOST_COMMITS = 50;

/** Commits newest first, before them branches and tags by name. */
export async function revisionsOf(repository: Repository): Promise<NamedRevision[]> {
  const named = await Promise.all([
    namesOf(repository, "--branches", "branch"),
    namesOf(repository, "--tags", "tag"),
    namesOf(repository, "--remotes", "remote branch"),
  ]);
  const head = await findRevision(repository, "HEAD");
  const commits = head ? await logOf(repository, head, ["*.hop"], MOST_COMMITS) : [];
  return [
    ...named.flat(),
    ...commits.map(
      ({ short, date, author, title }): NamedRevision => ({
        name: short,
        kind: "commit",
        detail: `${date}, ${author}: ${title}`,
      }),
    ),
  ];
}

async function namesOf(
  { root }: Repository,
  option: string,
  kind: NamedRevision["kind"],
): Promise<NamedRevision[]> {
  const names = (await gitText(root, ["rev-parse", "--symbolic", option])).split("\n");
  return names
    .filter((name) => name !== "" && !name.endsWith("/HEAD"))
    .slice(0, MOST_NAMES)
    .map((name) => ({ name, kind }));
}
