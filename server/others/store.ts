/**
 * Tables as they were read, as long as file and mapping are the same: several sessions (stages, both sides of a
 * comparison) share them. A table is read in slices and goes on being read whoever has ceased to wait for it.
 */
import { stat } from "node:fs/promises";
import type { OthersList } from "../../shared/design/interference.js";
import type { LogoFile, OthersFile } from "../../shared/others/listed.js";
import type { PatternFile } from "../../shared/radio/pattern-table.js";
import { readLogo } from "../sheets/logo.js";
import { readOthersFile, readPatternFile } from "./read-tables.js";

/** A table of the largest list takes some hundred megabytes: of large ones so many are kept, of others many more. */
const MOST_LARGE = 16;
const MOST_KEPT = 2000;
const LARGE_BYTES = 1_000_000;

interface Kept {
  readonly stamp: string;
  readonly isLarge: boolean;
  readonly file: Promise<unknown>;
}

const kept = new Map<string, Kept>();

/** @param path where the file of the list is read */
export function othersFile(path: string, list: OthersList): Promise<OthersFile> {
  const { file: _, at: __, ...mapping } = list;
  return of(`${path}\n${JSON.stringify(mapping)}`, path, (stamp) => readOthersFile(path, list, stamp));
}

/** @param root folder of the design that names it */
export function logoFile(path: string, root: string): Promise<LogoFile> {
  return of(`${path}\n${root}`, path, () => readLogo(path, root));
}

export function patternFile(path: string): Promise<PatternFile> {
  return of(path, path, () => readPatternFile(path));
}

async function of<T>(key: string, path: string, read: (stamp: string) => Promise<T>): Promise<T> {
  const { stamp, size } = await stat(path).then(
    ({ mtimeMs, size }) => ({ stamp: `${mtimeMs} ${size}`, size }),
    () => ({ stamp: "none", size: 0 }),
  );
  const known = kept.get(key);
  kept.delete(key);
  const now: Kept =
    known?.stamp === stamp ? known : { stamp, isLarge: size > LARGE_BYTES, file: read(stamp) };
  kept.set(key, now);
  dropOldest(MOST_KEPT, () => true);
  dropOldest(MOST_LARGE, ({ isLarge }) => isLarge);
  return now.file as Promise<T>;
}

function dropOldest(most: number, which: (one: Kept) => boolean): void {
  const all = [...kept].filter(([, one]) => which(one));
  for (const [key] of all.slice(0, Math.max(0, all.length - most))) kept.delete(key);
}
