/** Files and folders for the text in quotes that names one: only where the host lends a look at folders. */

import { folderOf, isPassedOver, resolvePath } from "../model/path.js";
import type { SourceFile } from "../model/source-file.js";
import { alternatives } from "../schema/index.js";
import type { Proposal } from "./proposal.js";
import { factAt } from "./walk.js";

export interface FolderEntry {
  readonly name: string;
  readonly isFolder: boolean;
}

/** @returns undefined where it cannot be listed */
export type ListFolder = (folder: string) => readonly FolderEntry[] | undefined;

/** What a property reads, by the endings of names; folders lead on to them. */
const ENDINGS: Readonly<Record<string, RegExp>> = {
  terrain: /\.(hgt|tiff?|asc|zip|gz)$/i,
  survey: /\.csv$/i,
  "pattern-file": /\.csv$/i,
  others: /\.csv$/i,
  logo: /\.(png|jpe?g)$/i,
};

/** A folder is shown up to this. */
const MOST_ENTRIES = 200;

/** @returns undefined where no path is written at the offset */
export function pathItems(
  file: SourceFile,
  offset: number,
  list: ListFolder,
): readonly Proposal[] | undefined {
  const at = factAt(file, offset);
  const arg = at?.arg;
  if (!at || !arg || !alternatives(arg.spec).some(({ type }) => type === "path")) return undefined;
  const raw = file.text.slice(arg.start, arg.end);
  if (!raw.startsWith('"') || offset <= arg.start) return undefined;
  const begin = arg.start + 1;
  const written = file.text.slice(begin, offset);
  const cut = written.lastIndexOf("/") + 1;
  const folder = cut === 0 ? folderOf(file.path) : resolvePath(file.path, written.slice(0, cut));
  const entries = folder === undefined ? undefined : list(folder);
  if (!entries) return [];
  const closed = raw.length > 1 && raw.endsWith('"') ? arg.end - 1 : arg.end;
  const replace = { start: begin + cut, end: Math.max(offset, closed) };
  const wanted = ENDINGS[at.fact.property.name];
  const fitting = entries.filter(
    ({ name, isFolder }) => !isPassedOver(name, isFolder) && (isFolder || (wanted?.test(name) ?? false)),
  );
  return [
    ...(cut === 0 || /^(\.\.\/)+$/.test(written.slice(0, cut)) ? [UP] : []),
    ...fitting.slice(0, MOST_ENTRIES).map(item),
  ].map((one) => ({ ...one, replace }));
}

const UP: Proposal = { label: "..", kind: "value", insertText: "..", detail: "the folder above", rank: 2 };

function item({ name, isFolder }: FolderEntry): Proposal {
  return {
    label: name,
    kind: "value",
    insertText: name,
    detail: isFolder ? "folder" : "file",
    rank: isFolder ? 1 : 0,
  };
}
