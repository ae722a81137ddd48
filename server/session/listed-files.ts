/** The files that a design names for interference, read: lists of others' transmissions, and patterns. */
import type { DesignModel } from "../../language/model/design-model.js";
import type { ListedFiles, LogoFile, OthersFile } from "../../shared/others/listed.js";
import type { PatternFile } from "../../shared/radio/pattern-table.js";
import { logoFile, othersFile, patternFile } from "../others/store.js";

interface Waiting {
  isStale?(): boolean;
  /** The file to read in place of one that the design names. */
  readonly fileFor?: (path: string) => string;
}

/** So long a wait lasts at most until it is asked whether it is stale. */
const LOOK_UP_MS = 20;

/**
 * @param known as they were last read
 * @returns the known itself where all of it is the same; undefined where the wait became stale: reading goes on
 */
export async function listedFiles(
  model: DesignModel,
  known: ListedFiles,
  { isStale, fileFor = (path) => path }: Waiting,
): Promise<ListedFiles | undefined> {
  const lists = model.lookup.others() ?? [];
  const paths = patternPaths(model);
  const logos = logoPaths(model);
  const all = lists.length + paths.length + logos.length;
  if (all + known.others.size + known.patterns.size + known.logos.size === 0) return known;
  const reading = Promise.all([
    Promise.all(lists.map(async (list) => [list, await othersFile(fileFor(list.file), list)] as const)),
    Promise.all(paths.map(async (path) => [path, await patternFile(fileFor(path))] as const)),
    Promise.all(
      logos.map(async (path) => [path, await logoFile(fileFor(path), fileFor(model.root))] as const),
    ),
  ]);
  let done: Awaited<typeof reading> | undefined;
  while ((done = await Promise.race([reading, later()])) === undefined) if (isStale?.()) return undefined;
  const others = new Map<(typeof lists)[number], OthersFile>(done[0]);
  const patterns = new Map<string, PatternFile>(done[1]);
  const pictures = new Map<string, LogoFile>(done[2]);
  return isSame(others, known.others) && isSame(patterns, known.patterns) && isSame(pictures, known.logos)
    ? known
    : { others, patterns, logos: pictures };
}

/** Lists, patterns and logos that a design names, absolute. */
export function listedPaths(model: DesignModel): readonly string[] {
  return [
    ...(model.lookup.others() ?? []).map(({ file }) => file),
    ...patternPaths(model),
    ...logoPaths(model),
  ];
}

function logoPaths(model: DesignModel): readonly string[] {
  const found = (model.lookup.sheets() ?? []).flatMap(({ logo }) => logo?.file ?? []);
  return [...new Set(found)];
}

function patternPaths(model: DesignModel): readonly string[] {
  const found = new Set<string>();
  for (const name of model.names("antenna")) {
    const path = model.lookup.antenna(name)?.patternFile;
    if (path !== undefined) found.add(path);
  }
  return [...found];
}

function later(): Promise<undefined> {
  return new Promise((resolve) => void setTimeout(() => resolve(undefined), LOOK_UP_MS));
}

function isSame<Key, T>(one: ReadonlyMap<Key, T>, other: ReadonlyMap<Key, T>): boolean {
  return one.size === other.size && [...one].every(([key, value]) => other.get(key) === value);
}
