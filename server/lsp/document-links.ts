/** Links on the paths of a document: to a file that can be shown, of a folder to its first design file. */
import type { DocumentLink } from "vscode-languageserver";
import { isTextFile, pathsIn } from "../../language/editor/links.js";
import type { SourceFile } from "../../language/model/source-file.js";
import { linesOf } from "../findings/lines.js";
import { folderEntries } from "./folder-entries.js";
import { uriOf } from "./locations.js";

export function documentLinks(file: SourceFile): DocumentLink[] {
  return pathsIn(file).flatMap(({ path, start, end }) => {
    const shown = isTextFile(path) ? path : firstDesignFile(path);
    return shown === undefined ? [] : [{ range: linesOf(file).range(start, end), target: uriOf(shown) }];
  });
}

function firstDesignFile(folder: string): string | undefined {
  const first = folderEntries(folder)?.find(({ name, isFolder }) => !isFolder && name.endsWith(".hop"));
  return first && `${folder}/${first.name}`;
}
