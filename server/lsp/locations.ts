/** From paths and offsets of the language to URIs and positions of the protocol. */
import type { Location } from "vscode-languageserver";
import { URI } from "vscode-uri";
import { slashed } from "../files/slashed.js";
import { linesOf } from "../findings/lines.js";

/** Documents that are no files (`untitled:`) keep their URI as their name. */
export function pathOf(uri: string): string {
  const parsed = URI.parse(uri);
  return parsed.scheme === "file" ? slashed(parsed.fsPath) : uri;
}

/** Files, and documents that are to become one. What a revision or a comparison shows is looked at, and no design. */
export function isJudged(uri: string): boolean {
  const { scheme } = URI.parse(uri);
  return scheme === "file" || scheme === "untitled";
}

export function uriOf(path: string): string {
  return /^[a-z-]{2,}:/.test(path) ? path : URI.file(path).toString();
}

export function locationOf(
  file: { readonly path: string; readonly text: string },
  start: number,
  end: number,
): Location {
  return { uri: uriOf(file.path), range: linesOf(file).range(start, end) };
}
