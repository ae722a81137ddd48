/**
 * Which commit files lie at, and whether they are as it has them: found by reading the files. Git's own `status` would
 * start the filters that a repository names.
 */
import { createHash } from "node:crypto";
import { lstatSync, readlinkSync, realpathSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { isDay } from "../../shared/design/day.js";
import type { DesignRevision } from "../../shared/design/revision.js";
import { CommandError } from "../command-error.js";
import { slashed } from "../files/slashed.js";
import { readObjects, sizesOf, type Tree, treeOf } from "./objects.js";
import { findRevision, type Repository, repositoryOf } from "./repository.js";
import { gitText } from "./run.js";
import { LARGEST_TEXT_BYTES, WorkFiles } from "./work-files.js";
import { workTreeAround } from "./work-tree.js";

/** What was read, absolute paths parted by `/`. */
export interface FilesRead {
  /** The text of the design: it belongs into the commit. */
  readonly texts: readonly string[];
  /** Whether a text lies in the design's own folder: a catalogue beside it may be in a commit without the design. */
  isOwn(path: string): boolean;
  /** What the text names: it may be too large to be kept in git. */
  readonly beside: readonly string[];
  /** Whether a file that the commit has, and that is not there any more, would have been read. */
  isWanted(path: string): boolean;
  /** Whether a folder would have been looked through. */
  isWithin(path: string): boolean;
}

/** Git writes as many as tell a commit apart in the one clone; a paper is the same from every clone. */
const COMMIT_LETTERS = 12;

/** @param folder of the design */
export async function committedState(folder: string, read: FilesRead): Promise<DesignRevision> {
  try {
    if (workTreeAround(folder) === undefined) return { state: "not in git" };
    const repository = await repositoryOf(workTreeAround(folder)!);
    const head = await findRevision(repository, "HEAD");
    if (head === undefined) return { state: "not in git" };
    const { known, changed, filesBeside } = await heldAgainst(repository, head.commit, read);
    if (!known) return { state: "not in git" };
    const day = await dayOf(repository, head.commit);
    const commit = head.commit.slice(0, COMMIT_LETTERS);
    return { state: "committed", commit, ...(day !== undefined && { day }), changed, filesBeside };
  } catch (error) {
    if (error instanceof CommandError) return { state: "not read", why: error.message };
    throw error;
  }
}

/** In the time zone of whoever committed, so that it is the same everywhere. */
async function dayOf({ root }: Repository, commit: string): Promise<string | undefined> {
  const told = await gitText(root, ["rev-list", "--max-count=1", "--format=%cs", commit]);
  const day = told.trim().split("\n").at(-1)!;
  return isDay(day) ? day : undefined;
}

interface Held {
  /** Whether the commit has any of the texts of the design's own folder. */
  readonly known: boolean;
  readonly changed: boolean;
  readonly filesBeside: boolean;
}

async function heldAgainst(repository: Repository, commit: string, read: FilesRead): Promise<Held> {
  const tree = await treeOf(repository, commit);
  const top = slashed(realpathSync.native(repository.root));
  const places = [
    ...read.texts.map((path) => ({ ...placeOf(path, true, top, tree), path, isText: true })),
    ...read.beside.map((path) => ({ ...placeOf(path, false, top, tree), path, isText: false })),
  ];
  const inside = await insideSubmodules(repository, tree, places, read);
  const kept = places.filter(({ object }) => object !== undefined);
  const sizes = await sizesOf(
    repository,
    kept.map(({ object }) => object!),
  );
  const workFiles = new WorkFiles();
  const same = async ({ path, object }: (typeof kept)[number]) =>
    workFiles.isAs(path, {
      object: object!,
      bytes: sizes.get(object!) ?? 0,
      content: async () =>
        (await readObjects(repository, [object!], LARGEST_TEXT_BYTES)).get(object!) ?? Buffer.alloc(0),
    });
  let changed = inside.changed || places.some(({ turned }) => turned);
  for (const one of kept) {
    if (changed) break;
    changed = !(await same(one));
  }
  const lost = places.filter(({ object, submodule }) => object === undefined && submodule === undefined);
  const isAdded = ({ isText, outside }: (typeof lost)[number]) => isText && !outside;
  return {
    known: inside.known || kept.some(({ isText, path }) => isText && read.isOwn(path)),
    changed: changed || lost.some(isAdded) || isGone(repository, top, tree, read),
    filesBeside: inside.filesBeside || lost.some((one) => !isAdded(one)),
  };
}

interface Place {
  /** In the commit; undefined: it does not have the file. */
  readonly object?: string;
  /** Path of the submodule that it lies in. */
  readonly submodule?: string;
  /** In no folder of the work tree. */
  readonly outside: boolean;
  /** A link on the way to it leads elsewhere than in the commit. */
  readonly turned: boolean;
}

/** Where a file lies in the tree, through the links that lead to it. @param top real path of the work tree */
function placeOf(path: string, isText: boolean, top: string, tree: Tree): Place {
  const real = realOf(path);
  const within = real === undefined ? undefined : below(real, top);
  const links = real === path ? [] : linksOn(path, top);
  const known = links.filter(([link]) => tree.pointing.has(link));
  const turned =
    known.some(([link, text]) => !isLink(tree.pointing.get(link)!, text)) ||
    (isText && known.length < links.length);
  if (within === undefined) return { outside: true, turned };
  const submodule = tree.submodules.find((folder) => within.startsWith(`${folder}/`));
  if (submodule !== undefined) return { submodule, outside: false, turned };
  // Terrain behind a link of one's own is not the terrain of the commit.
  const object = known.length < links.length ? undefined : tree.files.get(within);
  return { ...(object !== undefined && { object }), outside: false, turned };
}

function realOf(path: string): string | undefined {
  try {
    return slashed(realpathSync.native(path));
  } catch {
    return undefined;
  }
}

/** @returns the way from the top, parted by `/`; undefined for what lies elsewhere */
function below(real: string, top: string): string | undefined {
  const way = slashed(relative(top, real));
  return way === "" || /^\.\.(\/|$)|^([A-Za-z]:)?\//.test(way) ? undefined : way;
}

/** Links within the work tree on the way to a file, each with what it says. */
function linksOn(path: string, top: string): [link: string, text: string][] {
  const links: [string, string][] = [];
  for (let at = path; dirname(at) !== at; at = dirname(at)) {
    const text = linkAt(at);
    if (text === undefined) continue;
    const folder = realOf(dirname(at));
    const within =
      folder === undefined ? undefined : below(`${folder}/${slashed(at).split("/").at(-1)}`, top);
    if (within !== undefined) links.push([within, text]);
  }
  return links;
}

function linkAt(path: string): string | undefined {
  const isOne = lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() === true;
  return isOne ? readlinkSync(path) : undefined;
}

function isLink(object: string, text: string | undefined): boolean {
  if (text === undefined) return false;
  const bytes = Buffer.from(slashed(text));
  const hash = createHash(object.length === 64 ? "sha256" : "sha1").update(`blob ${bytes.length}\0`);
  return hash.update(bytes).digest("hex") === object;
}

/** Files of repositories within the repository: as the commit has them where theirs is the one that it names. */
async function insideSubmodules(
  { root }: Repository,
  tree: Tree,
  places: readonly (Place & { readonly path: string; readonly isText: boolean })[],
  { isOwn }: FilesRead,
): Promise<Held> {
  const held: Held[] = [];
  for (const [folder, those] of Map.groupBy(places, ({ submodule }) => submodule)) {
    if (folder === undefined) continue;
    const at = join(root, folder);
    const texts = those.filter(({ isText }) => isText).map(({ path }) => path);
    const beside = those.filter(({ isText }) => !isText).map(({ path }) => path);
    const repository = await repositoryOf(at);
    const head = (await findRevision(repository, "HEAD"))?.commit;
    if (head === undefined) held.push({ known: false, changed: true, filesBeside: beside.length > 0 });
    else {
      const inner = await heldAgainst(repository, head, {
        texts,
        beside,
        isOwn,
        isWanted: () => false,
        isWithin: () => false,
      });
      held.push({ ...inner, changed: inner.changed || head !== tree.pointing.get(folder) });
    }
  }
  return {
    known: held.some(({ known }) => known),
    changed: held.some(({ changed }) => changed),
    filesBeside: held.some(({ filesBeside }) => filesBeside),
  };
}

/** Whether the commit has a file that would have been read, were it still there, and no link in its place. */
function isGone({ root }: Repository, top: string, tree: Tree, { isWanted, isWithin }: FilesRead): boolean {
  for (const path of tree.files.keys()) {
    const at = `${root}/${path}`;
    if (isWanted(at) && realOf(at) !== `${top}/${path}`) return true;
  }
  // What a link leads to is read by its own path, so that no file tells which link led there.
  return tree.links.some((path) => {
    const at = `${root}/${path}`;
    const mayLeadTo = isWanted(at) || (isWithin(at) && !/\.[^/]+$/.test(path));
    return mayLeadTo && !isLink(tree.pointing.get(path)!, linkAt(at));
  });
}
