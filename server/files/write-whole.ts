/** Files are written whole or not at all: into a file beside, then renamed. */
import { randomBytes } from "node:crypto";
import { mkdirSync, realpathSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { CommandError } from "../command-error.js";
import { reasonOf } from "./hop-files.js";

/** @throws CommandError when it cannot be written; the file is then as it was, and nothing half-written stays */
export function writeWhole(path: string, text: string): void {
  writeBytes(path, text);
}

/** The same for what may be no text. */
export function writeBytes(path: string, content: string | Uint8Array): void {
  const beside = besideOf(path);
  makeFolder(dirname(path));
  try {
    writeFileSync(beside, content, NEW);
    renameSync(beside, path);
  } catch (error) {
    removeQuietly(beside);
    throw new CommandError(`${path}: cannot be written: ${writeReason(error)}`);
  }
}

/** @throws CommandError when it is not there and cannot be made */
export function makeFolder(path: string): void {
  try {
    makeBelow(resolve(path));
  } catch (error) {
    throw new CommandError(`${path}: cannot be written: ${writeReason(error)}`);
  }
}

/** Step by step: where a file system makes no folders at all, Node's own way of it tries for ever. */
function makeBelow(path: string): void {
  if (statSync(path, { throwIfNoEntry: false })?.isDirectory()) return;
  if (dirname(path) !== path) makeBelow(dirname(path));
  mkdirSync(path);
}

/** The same for a file that exists: its rights stay, and a link stays a link. */
export function rewriteWhole(path: string, text: string): void {
  const real = realpathSync(path);
  const { mode } = statSync(real);
  const beside = besideOf(real);
  try {
    writeFileSync(beside, text, { ...NEW, mode });
    renameSync(beside, real);
  } catch (error) {
    removeQuietly(beside);
    throw new CommandError(`${path}: cannot be written: ${writeReason(error)}`);
  }
}

/** Only where nothing stands: a link that lies in wait under the name would be written through. */
const NEW = { flag: "wx" } as const;

function besideOf(path: string): string {
  return join(dirname(path), `.${randomBytes(8).toString("hex")}.part`);
}

function removeQuietly(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // What could not be made is not there; why it could not is told by the first error.
  }
}

function writeReason(error: unknown): string {
  const { code } = error as { code?: string };
  if (code === "EACCES" || code === "EPERM" || code === "EROFS") return "no permission; name another folder";
  if (code === "ENAMETOOLONG") return "its name is too long";
  if (code === "ENOSPC") return "the disk is full";
  if (code === "EEXIST" || code === "ENOTDIR")
    return "a file stands where a folder is needed; name another folder";
  return reasonOf(error);
}
