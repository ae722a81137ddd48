/**
 * The pages that earlier runs wrote into a folder, each with the hash of its content, in a file beside them: so that
 * a run takes away what it no longer writes, and never a file of anybody else. The file may be a stranger's: it can
 * name nothing outside the folder, and nothing whose content it does not know.
 */
import { createHash } from "node:crypto";
import { appendFileSync, existsSync, lstatSync, readdirSync, realpathSync, rmdirSync, rmSync } from "node:fs";
import { dirname, join } from "node:path";
import { isBelow } from "../../language/model/path.js";
import { CommandError } from "../command-error.js";
import { reasonOf } from "../files/hop-files.js";
import { readBoundedSync } from "../files/read-bounded.js";
import { slashed } from "../files/slashed.js";
import { makeFolder, writeBytes, writeWhole } from "../files/write-whole.js";

const RECORD = ".hopwright-report";
/** A line of the record: hash and path, as checksum programs write them. */
const LINE = /^([0-9a-f]{64}) {2}([^\n]+)$/gm;

export class ReportRecord {
  /** Hashes that a page was written with; what is on disk must have one of them to be taken away. */
  private readonly earlier = new Map<string, Set<string>>();
  private readonly now = new Map<string, string>();

  constructor(private readonly folder: string) {
    const file = join(folder, RECORD);
    const isFile = isPlainFile(file);
    if (isFile === undefined) return;
    if (!isFile) throw new CommandError(`${file}: is no record of an earlier report; remove it`);
    for (const [, hash, path] of textOf(file).matchAll(LINE)) {
      const hashes = this.earlier.get(path!);
      if (hashes) hashes.add(hash!);
      else this.earlier.set(path!, new Set([hash!]));
    }
  }

  /**
   * Writes a page. It is noted first, so that a run that is broken off leaves no page that nobody knows.
   * @throws CommandError when a file stands there that no run has written
   */
  write(path: string, content: string | Uint8Array): void {
    const at = join(this.folder, path);
    if (existsSync(at) && !this.earlier.has(path) && !this.now.has(path)) {
      throw new CommandError(`${at}: is no page of an earlier report; name another folder, or move the file`);
    }
    const hash = hashOf(content);
    this.now.set(path, hash);
    makeFolder(dirname(at));
    if (!this.isInside(dirname(at)))
      throw new CommandError(
        `${dirname(at)}: leads out of ${this.folder} by a link; remove it, or name another folder`,
      );
    // On a line of its own, also behind one that a run could not end.
    appendFileSync(join(this.folder, RECORD), `\n${line(path, hash)}`);
    writeBytes(at, content);
  }

  /**
   * Takes away the pages of earlier runs that this one has not written, and the folders that they leave empty.
   * @returns those that somebody has changed since: they stay
   */
  removeOthers(): string[] {
    const changed: string[] = [];
    for (const [path, hashes] of this.earlier) {
      if (this.now.has(path) || !this.isOurs(path)) continue;
      const at = join(this.folder, path);
      if (hashes.has(hashOfFile(at) ?? "")) {
        rmSync(at);
        if (path.includes("/")) removeIfEmpty(dirname(at));
      } else changed.push(path);
    }
    writeWhole(join(this.folder, RECORD), [...this.now].map(([path, hash]) => line(path, hash)).join(""));
    return changed;
  }

  /** Whether a file of that name lies in the folder itself, by no link. */
  private isOurs(path: string): boolean {
    const at = join(this.folder, path);
    return isPlainFile(at) === true && this.isInside(at);
  }

  private isInside(at: string): boolean {
    return isBelow(slashed(realpathSync(at)), slashed(realpathSync(this.folder)));
  }
}

/** A link is none, wherever it leads. @returns undefined where nothing stands */
function isPlainFile(path: string): boolean | undefined {
  try {
    return lstatSync(path).isFile();
  } catch {
    return undefined;
  }
}

/** Larger than the record of 100,000 pages, and than any page. */
const MOST_BYTES = 64 * 2 ** 20;

function textOf(record: string): string {
  try {
    return new TextDecoder().decode(readBoundedSync(record, MOST_BYTES));
  } catch (error) {
    throw new CommandError(`${record}: cannot be read: ${reasonOf(error)}; remove it`);
  }
}

/** What is too large or cannot be read is no page of ours. */
function hashOfFile(path: string): string | undefined {
  try {
    return hashOf(readBoundedSync(path, MOST_BYTES));
  } catch {
    return undefined;
  }
}

function line(path: string, hash: string): string {
  return `${hash}  ${path}\n`;
}

function hashOf(content: string | Uint8Array): string {
  return createHash("sha256").update(content).digest("hex");
}

function removeIfEmpty(folder: string): void {
  if (readdirSync(folder).length === 0) rmdirSync(folder);
}
