/**
 * The design that a document belongs to which no opened folder holds: that of the nearest folder upwards with a network,
 * as far as the root of the repository; outside a repository, three folders. A folder that designs pass over, such as a
 * local history, is a border: what lies in it is no part of what lies around it. So are the user's own folder and that
 * of temporary files, where all sorts of things lie: a network left there is no reason to read everything below.
 */
import { existsSync, readdirSync } from "node:fs";
import { homedir, tmpdir } from "node:os";
import { folderOf, isPassedOver } from "../../language/model/path.js";
import { readSource } from "../../language/model/source-file.js";
import { readHopFile } from "../files/hop-files.js";
import { slashed } from "../files/slashed.js";

/** Outside a repository no further up than this. */
const MOST_FOLDERS_UP = 3;
/** A folder with more design files than this beside each other is not asked for its network. */
const MOST_FILES = 1_000;

/** Documents that are open: their texts count in place of what the disk has. */
export interface OpenTexts {
  paths(): Iterable<string>;
  text(path: string): string | undefined;
}

/** @param start folder to begin with */
export function networkAbove(start: string, open: OpenTexts): string | undefined {
  return foldersUp(start).find((folder) => hasNetwork(folder, open));
}

function foldersUp(start: string): readonly string[] {
  const folders: string[] = [];
  const borders = new Set([homedir(), tmpdir()].map(slashed));
  let repository = -1;
  for (let folder = start; folder !== "" && repository < 0; folder = folderOf(folder)) {
    if (borders.has(folder)) break;
    folders.push(folder);
    if (existsSync(`${folder}/.git`)) repository = folders.length;
    if (isPassedOver(folder.slice(folder.lastIndexOf("/") + 1), true)) return folders;
  }
  return repository < 0 ? folders.slice(0, 1 + MOST_FOLDERS_UP) : folders;
}

function hasNetwork(folder: string, open: OpenTexts): boolean {
  const openHere = [...open.paths()].filter((path) => folderOf(path) === folder);
  return [...new Set([...openHere, ...hopFilesIn(folder)])].some((path) => {
    const typed = open.text(path);
    const read = typed === undefined ? readHopFile(path) : { text: typed };
    // Most files have not even the word.
    if (!("text" in read) || !/\bnetwork\b/.test(read.text)) return false;
    return readSource(path, read.text).declarations.some(({ kind }) => kind === "network");
  });
}

function hopFilesIn(folder: string): readonly string[] {
  try {
    const names = readdirSync(folder).filter((name) => name.endsWith(".hop") && !isPassedOver(name, false));
    return names.slice(0, MOST_FILES).map((name) => `${folder}/${name}`);
  } catch {
    // What cannot be listed has no network that could be read.
    return [];
  }
}
