/** What a change does to the network: two revisions, or a revision and the work tree. */

import { existsSync, statSync } from "node:fs";
import { resolve } from "node:path";
import { CommandError, EXIT } from "../../command-error.js";
import { compareFolder, type FolderComparison } from "../../compare/compare-folders.js";
import { shownFrom } from "../../findings/paths.js";
import {
  findRevision,
  mergeBase,
  type Repository,
  type Revision,
  repositoryOf,
  revisionOf,
} from "../../git/repository.js";
import { FORMATS, formatNamed } from "../formats.js";
import { safe } from "../print/safe.js";
import { progressLine } from "../progress.js";
import { note, paintStderr, print } from "../streams.js";

export interface DiffOptions {
  readonly format: string;
  readonly dir?: string;
  readonly failOn: "worse" | "findings" | "never";
  readonly today: string;
  /** The one day that is looked at; left out: each from today on. */
  readonly on?: string;
}

/** @returns the exit status */
export async function diff(asked: readonly string[], options: DiffOptions): Promise<number> {
  const { folder, repository, was, is } = await sidesOf(asked, options.dir);
  const progress = progressLine();
  const compared = await compareFolder(repository, folder, was, is, {
    today: options.today,
    on: options.on,
    pace: progress.pace,
  });
  progress.end();
  try {
    const status = statusOf(compared, options.failOn);
    process.exitCode = status;
    for (const { path, message } of compared.unreadable)
      note(`${paintStderr("red", "error")}: ${safe(shownFrom(process.cwd(), path))}: ${safe(message)}`);
    await print(await formatNamed(FORMATS.diff, options.format).print(compared));
    return status;
  } finally {
    compared.dispose();
  }
}

function statusOf({ designs, unreadable }: FolderComparison, failOn: DiffOptions["failOn"]): number {
  if (unreadable.length > 0) return EXIT.unreadable;
  if (failOn === "never") return EXIT.clean;
  const worse = designs
    .flatMap(({ times }) => times)
    .some(({ changes }) => (failOn === "worse" ? changes.worse : changes.newFindings));
  return worse ? EXIT.findings : EXIT.clean;
}

interface Sides {
  readonly folder: string;
  readonly repository: Repository;
  readonly was: Revision;
  readonly is?: Revision;
}

/** `REV [REV] [DIR]`; `A..B` is two revisions, `A...B` is B against where it parted from A. */
async function sidesOf(asked: readonly string[], dir: string | undefined): Promise<Sides> {
  const last = asked.at(-1)!;
  const words = [...asked];
  let folder = dir;
  if (folder === undefined && asked.length > 1 && existsSync(last)) {
    const repository = await repositoryOf(resolve(last, isFolder(last) ? "." : ".."));
    if (asked.length < 3 && (await findRevision(repository, last))) {
      throw new CommandError(
        `${last}: a revision and a folder have this name; write --dir ${last} or ${last}~0`,
      );
    }
    folder = words.pop();
  }
  folder ??= ".";
  if (words.length > 2) {
    const far = words[2]!;
    throw new CommandError(
      `${far}: there is no such folder; after two revisions the folder of a design is named`,
    );
  }
  const repository = await repositoryOf(nearestFolder(folder));
  const [first, second] = words as [string, string?];
  const range = /^(.*?)(\.\.\.?)(.*)$/.exec(first);
  if (!range || second !== undefined) {
    return {
      folder,
      repository,
      was: await revisionOf(repository, first),
      is: second === undefined ? undefined : await revisionOf(repository, second),
    };
  }
  const was = await revisionOf(repository, range[1] || "HEAD");
  const is = await revisionOf(repository, range[3] || "HEAD");
  return { folder, repository, was: range[2] === "..." ? await mergeBase(repository, was, is) : was, is };
}

function isFolder(path: string): boolean {
  return statSync(path).isDirectory();
}

/** A folder that only an old revision has lies in the same repository as the one above it. */
function nearestFolder(folder: string): string {
  let at = resolve(folder);
  while (!existsSync(at)) at = resolve(at, "..");
  return at;
}
