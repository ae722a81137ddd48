/** What is wrong with the folders and files that a network names beside its text, told where it names them. */
import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { type Diagnostic, DiagnosticSeverity } from "vscode-languageserver";
import { wordOf } from "../../language/facts/fact.js";
import type { DesignModel } from "../../language/model/design-model.js";
import { isBelow, resolvePath } from "../../language/model/path.js";
import type { SourceFile } from "../../language/model/source-file.js";
import { slashed } from "../files/slashed.js";
import { linesOf } from "../findings/lines.js";
import type { DesignSession } from "../session/design-session.js";
import { NO_CATALOGUE } from "../session/load.js";

const NAMING = ["terrain", "maps", "catalogue"] as const;

/** Of one folder. */
const MOST_TOLD = 10;

interface Named {
  readonly kind: (typeof NAMING)[number];
  readonly path: string;
  readonly start: number;
  readonly end: number;
}

/** Files in which something is named. */
export function namingFiles(model: DesignModel): readonly string[] {
  return NAMING.flatMap((kind) => model.declarations(kind).map(({ file }) => file));
}

export function groundDiagnostics(file: SourceFile, session: DesignSession): Diagnostic[] {
  const { model } = session;
  const named = namedIn(file, model);
  if (named.length === 0) return [];
  const problems = [...(session.terrain()?.problems ?? []), ...(session.maps()?.problems ?? [])].map(
    (problem) => ({
      ...problem,
      path: slashed(resolve(model.root, problem.file)),
    }),
  );
  return named.flatMap(({ kind, path, start, end }): Diagnostic[] => {
    const range = linesOf(file).range(start, end);
    const told = (message: string, isGrave: boolean): Diagnostic => ({
      range,
      severity: isGrave ? DiagnosticSeverity.Error : DiagnosticSeverity.Warning,
      source: "hopwright",
      message,
    });
    if (kind === "catalogue") return existsSync(path) ? [] : [told(NO_CATALOGUE, true)];
    const here = problems.filter((problem) => isBelow(problem.path, path));
    const first = here
      .slice(0, MOST_TOLD)
      .map(({ file: shown, message, ...rest }) => told(`${shown}: ${message}`, !("reservation" in rest)));
    const more = here.length - first.length;
    return more === 0
      ? first
      : [...first, told(`${more} more files have faults: see \`hopwright check\``, true)];
  });
}

function namedIn(file: SourceFile, model: DesignModel): readonly Named[] {
  return NAMING.flatMap((kind) =>
    model.declarations(kind).flatMap((entry): Named[] => {
      const word = entry.file === file.path ? wordOf(entry.fact, "path") : undefined;
      const path = word === undefined ? undefined : resolvePath(entry.file, word);
      const { start, end } = entry.fact.statement;
      return path === undefined ? [] : [{ kind, path, start, end }];
    }),
  );
}
