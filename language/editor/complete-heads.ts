/** Heads of the columns of a list, for the text in quotes that names one: only where the host lends a look at files. */
import { wordOf } from "../facts/fact.js";
import { resolvePath } from "../model/path.js";
import type { SourceFile } from "../model/source-file.js";
import { alternatives } from "../schema/index.js";
import type { Proposal } from "./proposal.js";
import { factAt } from "./walk.js";

/** @returns undefined where the file has no first line of heads that can be read */
export type HeadsOf = (path: string) => readonly string[] | undefined;

/** @returns undefined where no head is written at the offset */
export function headItems(
  file: SourceFile,
  offset: number,
  headsOf: HeadsOf,
): readonly Proposal[] | undefined {
  const at = factAt(file, offset);
  const list = at?.path.at(-1);
  const { arg } = at ?? {};
  if (!arg || list?.property.name !== "others" || arg.spec.name === "stands") return undefined;
  if (!alternatives(arg.spec).some(({ type }) => type === "text")) return undefined;
  const raw = file.text.slice(arg.start, arg.end);
  if (!raw.startsWith('"') || offset <= arg.start) return undefined;
  const written = wordOf(list, "file");
  const path = written === undefined ? undefined : resolvePath(file.path, written);
  const heads = path === undefined ? undefined : headsOf(path);
  const closed = raw.length > 1 && raw.endsWith('"') ? arg.end - 1 : arg.end;
  const replace = { start: arg.start + 1, end: Math.max(offset, closed) };
  const taken = new Set(list.facts.filter((fact) => fact !== at!.fact).map((fact) => wordOf(fact, "column")));
  return (heads ?? []).map((head) => ({
    label: head,
    kind: "value",
    insertText: head.replace(/["\\]/g, "\\$&"),
    detail: "column",
    rank: taken.has(head) ? 1 : 0,
    replace,
  }));
}
