/** What a file declares, as text to be held against what it declared before. */
import type { SourceFile } from "./source-file.js";

/** Kinds of which some values list all there are, with the key of their names. */
const ALL_OF: ReadonlyMap<string, string> = new Map([
  ["plan", "plans"],
  ["antenna", "antennas"],
  ["coupler", "couplers"],
  ["radio", "radios"],
]);

/** The words of all declarations of a key in a file; `plans` stands for the set of plan names, and so on. */
export function contentByKey(file: SourceFile | undefined): Map<string, string> {
  const contents = new Map<string, string>();
  for (const { key, kind, content } of file?.declarations ?? []) {
    contents.set(key, (contents.get(key) ?? "") + content);
    const all = ALL_OF.get(kind);
    if (all !== undefined) contents.set(all, `${contents.get(all) ?? ""} ${key}`);
  }
  return contents;
}

/** Which declarations there are, in their order. */
export function orderOf(file: SourceFile | undefined): string {
  return (file?.declarations ?? []).map(({ key }) => key).join("\n");
}
