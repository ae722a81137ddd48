/** The page that a client shows beside the text. */
import type { Designs } from "./designs.js";
import { linesOf, pathOf } from "./locations.js";
import type { ReportParams, ReportResult } from "./protocol.js";

export function reportPage(designs: Designs, { uri, line, hop }: ReportParams): ReportResult {
  const path = pathOf(uri);
  const name = hop ?? (line === undefined ? undefined : hopAt(designs, path, line));
  return { title: name ?? "design", hop: name, html: "<!doctype html><title>report</title>" };
}

/** The hop whose declaration covers the line. */
function hopAt(designs: Designs, path: string, line: number): string | undefined {
  const file = designs.file(path);
  if (!file) return undefined;
  const lines = linesOf(file);
  return file.declarations.find(
    ({ kind, fact }) => kind === "hop" && lines.position(fact.statement.start).line <= line && line <= lines.position(fact.statement.end).line,
  )?.name;
}
