/** Where a folder was on the old side of a comparison: a renamed one is found by the files that moved into it. */
import type { HopText } from "../files/hop-files.js";
import type { SideFiles } from "./side-files.js";

/** @param root top of the repository, in which the folder may have moved */
export function folderBefore(root: string, at: string, before: SideFiles, now: SideFiles): string {
  if (before.read(at).texts.length > 0) return at;
  const moved = now.read(at).texts;
  if (moved.length === 0) return at;
  /** How many files of a folder came here, for each folder that has none any more. */
  const cameFrom = new Map<string, number>();
  const gone = (folder: string) => cameFrom.has(folder) || now.read(folder).texts.length === 0;
  const old = Map.groupBy(before.read(root).texts, ({ path }) => nameOf(path));
  for (const file of moved) {
    const tail = file.path.slice(at.length);
    for (const one of old.get(nameOf(file.path)) ?? []) {
      if (!one.path.endsWith(tail) || !areAlike(one, file)) continue;
      const folder = one.path.slice(0, -tail.length);
      if (gone(folder)) cameFrom.set(folder, (cameFrom.get(folder) ?? 0) + 1);
    }
  }
  const [most] = [...cameFrom].sort(([a, many], [b, more]) => more - many || (a < b ? -1 : 1));
  return most?.[0] ?? at;
}

function nameOf(path: string): string {
  return path.slice(path.lastIndexOf("/") + 1);
}

/** At least half of the longer file's lines stand in the other too, as git has it. */
function areAlike(a: HopText, b: HopText): boolean {
  const left = new Map<string, number>();
  const linesOf = ({ text }: HopText) => text.split(/\r?\n/);
  const [ours, theirs] = [linesOf(a), linesOf(b)];
  for (const line of ours) left.set(line, (left.get(line) ?? 0) + 1);
  let shared = 0;
  for (const line of theirs) {
    const count = left.get(line) ?? 0;
    if (count > 0) shared++;
    left.set(line, count - 1);
  }
  return 2 * shared >= Math.max(ours.length, theirs.length);
}
