/** Finds and reads the `.hop` files of a folder. What cannot be read is told and the rest is read. */
import { type Dirent, existsSync, readdirSync, realpathSync, statSync } from "node:fs";
import { isAbsolute, join, relative, resolve } from "node:path";
import { isPassedOver } from "../../language/model/path.js";
import { readBoundedSync } from "./read-bounded.js";
import { shareLinkedTo } from "./share-links.js";
import { slashed } from "./slashed.js";

/** No hand-written file is this long; a larger one is something else, named .hop by mistake. */
export const LARGEST_FILE_BYTES = 20 * 2 ** 20;

export interface HopText {
  /** Absolute, parted by `/`. */
  readonly path: string;
  readonly text: string;
}

export interface UnreadableFile {
  readonly path: string;
  /** One line: cause, remedy. */
  readonly message: string;
  /** Of a link that was not followed: where it leads, a real path. */
  readonly linkTo?: string;
}

/**
 * Links that lead out of a folder are followed only where the network names what they lead to: there it is read by that
 * name, and the link is no matter. @param named folders that the networks name
 */
export function withoutNamedLinks(
  unreadable: readonly UnreadableFile[],
  named: readonly string[],
): UnreadableFile[] {
  if (!unreadable.some(({ linkTo }) => linkTo !== undefined)) return [...unreadable];
  const real = named.filter((folder) => existsSync(folder)).map((folder) => realpathSync(folder));
  return unreadable.filter(({ linkTo }) => linkTo === undefined || !real.some((at) => isBelow(linkTo, at)));
}

/** A file that a design reads beside its text: terrain, maps. */
export interface FileProblem extends UnreadableFile {
  /** It was used all the same, and this is to be known of it. */
  readonly reservation?: true;
}

/** Whether what was judged stands on less than the design names. */
export function isUnread({ reservation }: FileProblem): boolean {
  return reservation === undefined;
}

export interface HopFiles {
  readonly texts: readonly HopText[];
  readonly unreadable: readonly UnreadableFile[];
}

/** @param at a folder (searched with all below it, in the order of names) or a single file */
export function readHopFiles(at: string): HopFiles {
  const root = resolve(at);
  const unreadable: UnreadableFile[] = [];
  const paths = statSync(root).isFile() ? [root] : listHopFiles(root, unreadable);
  const texts: HopText[] = [];
  for (const path of paths) {
    const read = readHopFile(path);
    if ("text" in read) texts.push(read);
    else unreadable.push(read);
  }
  return { texts, unreadable };
}

export function readHopFile(path: string): HopText | UnreadableFile {
  const shown = slashed(path);
  try {
    return textOf(shown, readBoundedSync(path, LARGEST_FILE_BYTES));
  } catch (error) {
    return { path: shown, message: `cannot be read: ${reasonOf(error)}` };
  }
}

/** What is wrong with a design file of that size, if anything. */
export function sizeProblem(path: string, bytes: number): UnreadableFile | undefined {
  if (bytes <= LARGEST_FILE_BYTES) return undefined;
  const [mb, limit] = [bytes, LARGEST_FILE_BYTES].map((size) => Math.ceil(size / 2 ** 20));
  return {
    path,
    message: `${mb} MB is too large for a design file (limit ${limit} MB); split it, or give it another ending`,
  };
}

/** The text in the bytes of a file, wherever they were read. */
export function textOf(path: string, content: Uint8Array): HopText | UnreadableFile {
  if (content.includes(0)) {
    const wide = (content[0] === 0xff && content[1] === 0xfe) || (content[0] === 0xfe && content[1] === 0xff);
    const message = wide
      ? "this is UTF-16 text; save it as UTF-8"
      : "this is not text (it holds zero bytes); give it another ending than .hop";
    return { path, message };
  }
  try {
    return { path, text: new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(content) };
  } catch {
    return { path, message: `this is not UTF-8 text (line ${lineOfFirstWrong(content)}); save it as UTF-8` };
  }
}

/** Lines are decoded one by one, since the decoder does not tell where it stopped. */
function lineOfFirstWrong(content: Uint8Array): number {
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let line = 1;
  let start = 0;
  for (let end = content.indexOf(0x0a); ; end = content.indexOf(0x0a, start)) {
    try {
      decoder.decode(content.subarray(start, end < 0 ? content.length : end));
    } catch {
      return line;
    }
    if (end < 0) return line;
    start = end + 1;
    line++;
  }
}

/** @param unreadable takes the folders that cannot be read; what lies beside them is listed all the same */
function listHopFiles(root: string, unreadable: UnreadableFile[]): string[] {
  const found: string[] = [];
  const tell = (path: string, error: unknown) =>
    void unreadable.push({
      path: slashed(path),
      message: `cannot be read: ${reasonOf(error)}; mend its rights, or move it out of the design`,
    });
  /** Real paths: a folder that links lead to more than once is listed once. */
  const visited = new Set<string>();
  const visit = (folder: string): void => {
    let entries: Dirent[];
    try {
      const real = realpathSync(folder);
      if (visited.has(real)) return;
      visited.add(real);
      entries = sorted(readdirSync(folder, { withFileTypes: true }));
    } catch (error) {
      if (folder === root) throw error;
      tell(folder, error);
      return;
    }
    for (const entry of entries) {
      const path = join(folder, entry.name);
      if (isPassedOver(entry.name, entry.isDirectory())) continue;
      if (entry.isDirectory()) visit(path);
      else if (entry.isFile() && entry.name.endsWith(".hop")) found.push(path);
      else if (entry.isSymbolicLink()) follow(path, entry.name);
    }
  };
  /** A link to what lies in the folder anyway leads nowhere new; where others lead is not asked of a stranger's link. */
  const follow = (path: string, name: string): void => {
    try {
      const share = shareLinkedTo(path);
      if (share !== undefined) {
        unreadable.push({
          path: slashed(path),
          message: `this link leads to ${share} on the network, and is not followed; remove it`,
        });
        return;
      }
      const isFolder = statSync(path).isDirectory();
      const linkTo = realpathSync(path);
      if (isBelow(linkTo, realpathSync(root)) || isPassedOver(name, isFolder)) return;
      if (!isFolder && !name.endsWith(".hop")) return;
      const message = `this link leads out of the folder, to ${slashed(linkTo)}, and is not followed; name that as \`catalogue\` in the network, or remove the link`;
      unreadable.push({ path: slashed(path), message, linkTo });
    } catch (error) {
      if (name.endsWith(".hop")) tell(path, error);
    }
  };
  visit(root);
  return found;
}

function isBelow(path: string, folder: string): boolean {
  const within = relative(folder, path);
  return within === "" || (!within.startsWith("..") && !isAbsolute(within));
}

/** By code unit, so that the order does not depend on the machine's language. */
function sorted(entries: Dirent[]): Dirent[] {
  return entries.sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
}

/** The system's reason without its code names. */
export function reasonOf(error: unknown): string {
  const code = (error as { code?: string }).code;
  switch (code) {
    case "ENOENT":
      return "there is no such file or folder";
    case "EACCES":
    case "EPERM":
      return "no permission to read it";
    case "ENOTDIR":
      return "a part of the path is not a folder";
    case "ELOOP":
      return "its links lead in a circle";
    case "EISDIR":
      return "it is a folder";
    default:
      return error instanceof Error ? error.message : String(error);
  }
}
