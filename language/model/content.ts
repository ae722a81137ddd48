/** What a file declares, as text to be held against what it declared before. */
import { isNamedKind, kindRow } from "../schema/kinds.js";
import type { SourceFile } from "./source-file.js";

/** The words of all declarations of a key in a file; `plans` stands for the set of plan names, and so on. */
export function contentByKey(file: SourceFile | undefined): Map<string, string> {
  const contents = new Map<string, string>();
  for (const { key, kind, content } of file?.declarations ?? []) {
    contents.set(key, (contents.get(key) ?? "") + content);
    const all = isNamedKind(kind) ? kindRow(kind).all : undefined;
    if (all !== undefined) contents.set(all, `${contents.get(all) ?? ""} ${key}`);
  }
  return contents;
}

/** Which declarations there are, in their order. */
export function orderOf(file: SourceFile | undefined): string {
  return (file?.declarations ?? []).map(({ key }) => key).join("\n");
}
