/**
 * Reading what a design names. The name may lead to a device that never ends, to a pipe that nobody writes, or to a
 * file of any size: only plain files are read, and no further than a bound.
 */
import { closeSync, constants, fstatSync, openSync, readSync } from "node:fs";
import { open } from "node:fs/promises";

/** A file that is not read, with one clause that says why. */
export class UnfitFile extends Error {}

/** A pipe without a writer would keep the reader waiting. Windows has neither the flag nor such pipes. */
const FLAGS = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0);

/** @throws UnfitFile for what is no plain file, is larger than `mostBytes`, or stands for a file elsewhere; else as the system does */
export async function readBounded(path: string, mostBytes: number): Promise<Uint8Array> {
  const handle = await open(path, FLAGS);
  try {
    const bytes = new Uint8Array(fitSize(await handle.stat(), mostBytes));
    let filled = 0;
    while (filled < bytes.length) {
      const { bytesRead } = await handle.read(bytes, filled, bytes.length - filled, filled);
      if (bytesRead === 0) break;
      filled += bytesRead;
    }
    return checked(bytes.subarray(0, filled));
  } finally {
    await handle.close();
  }
}

/** The same at once. */
export function readBoundedSync(path: string, mostBytes: number): Uint8Array {
  const descriptor = openSync(path, FLAGS);
  try {
    const bytes = new Uint8Array(fitSize(fstatSync(descriptor), mostBytes));
    let filled = 0;
    while (filled < bytes.length) {
      const read = readSync(descriptor, bytes, filled, bytes.length - filled, filled);
      if (read === 0) break;
      filled += read;
    }
    return checked(bytes.subarray(0, filled));
  } finally {
    closeSync(descriptor);
  }
}

interface Stat {
  readonly size: number;
  isFile(): boolean;
  isDirectory(): boolean;
}

function fitSize(stat: Stat, mostBytes: number): number {
  if (stat.isDirectory()) throw new UnfitFile("it is a folder");
  if (!stat.isFile()) throw new UnfitFile("it is a device or a pipe, no file");
  if (stat.size > mostBytes) {
    // A bound below a megabyte would read as the size of what is above it.
    const [unit, unitBytes] = mostBytes < 2 ** 20 ? ["kB", 2 ** 10] : ["MB", 2 ** 20];
    const [size, limit] = [stat.size, mostBytes].map((bytes) => Math.ceil(bytes / Number(unitBytes)));
    throw new UnfitFile(`${size} ${unit} are more than the ${limit} ${unit} that such a file may have`);
  }
  return stat.size;
}

function checked(bytes: Uint8Array): Uint8Array {
  if (isPointer(bytes)) throw new UnfitFile(POINTER);
  return bytes;
}

export const POINTER =
  "it only points to a file in large-file storage, which was not fetched with the repository";

/** No pointer is longer, and hardly a file of heights as short. */
const LONGEST_POINTER_BYTES = 1024;

/** Pointers of git-lfs (its specification, version 1) and git-annex begin with one of these. */
const BEGINNINGS = [
  "version https://git-lfs.github.com/spec/",
  "version https://hawser.github.com/spec/",
  "/annex/objects/",
];

export function isPointer(bytes: Uint8Array): boolean {
  if (bytes.length === 0 || bytes.length > LONGEST_POINTER_BYTES) return false;
  const text = new TextDecoder("latin1").decode(bytes);
  return BEGINNINGS.some((beginning) => text.startsWith(beginning));
}
