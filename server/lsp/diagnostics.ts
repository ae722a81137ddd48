/** The diagnostics of one file: what is wrong with its text, and the engine's findings on what it declares. */
import {
  type Diagnostic,
  type DiagnosticRelatedInformation,
  DiagnosticSeverity,
  DiagnosticTag,
} from "vscode-languageserver";
import { isTextFile } from "../../language/editor/links.js";
import type { TextProblem } from "../../language/facts/fact.js";
import type { DesignModel } from "../../language/model/design-model.js";
import { locate } from "../../language/model/locate.js";
import type { SourceFile } from "../../language/model/source-file.js";
import type { Finding } from "../../shared/design/finding.js";
import type { Severity } from "../../shared/design/severity.js";
import type { UnreadableFile } from "../files/hop-files.js";
import { findingsDeclaredIn } from "../findings/declared-in.js";
import { linesOf } from "../findings/lines.js";
import type { DesignSession } from "../session/design-session.js";
import { groundDiagnostics } from "./ground-problems.js";
import { locationOf, uriOf } from "./locations.js";
import { rulePage } from "./reference-pages.js";

const SEVERITY: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
};

export function diagnosticsOf(file: SourceFile, sessions: readonly DesignSession[]): Diagnostic[] {
  const all = sessions.flatMap((session) => [
    ...session.model.problemsOf(file.path).map((problem) => problemDiagnostic(file, problem, session.model)),
    ...findingsDeclaredIn(file, session).map((finding) => findingDiagnostic(file, finding, session.model)),
    ...groundDiagnostics(file, session),
  ]);
  // A shared catalogue counts for several designs; what each of them finds in it is said once.
  return sessions.length < 2
    ? all
    : [...new Map(all.map((one) => [JSON.stringify([one.range, one.message]), one])).values()];
}

/** A file of which nothing could be read says so itself: what it declares is missed elsewhere. */
export function unreadableDiagnostics(problem: UnreadableFile | undefined): Diagnostic[] {
  if (!problem) return [];
  const start = { line: 0, character: 0 };
  return [
    {
      range: { start, end: start },
      severity: DiagnosticSeverity.Error,
      source: "hopwright",
      message: problem.message,
    },
  ];
}

function problemDiagnostic(file: SourceFile, problem: TextProblem, model: DesignModel): Diagnostic {
  const related = problem.related?.flatMap((place): DiagnosticRelatedInformation[] => {
    const other = model.file(place.file);
    return other ? [{ location: locationOf(other, place.start, place.end), message: place.message }] : [];
  });
  return diagnostic(
    file,
    problem.start,
    problem.end,
    problem.severity,
    problem.rule,
    withHelp(problem.message, problem.help),
    related,
  );
}

function findingDiagnostic(file: SourceFile, finding: Finding, model: DesignModel): Diagnostic {
  const place = locate(finding.at, model);
  const here = place?.file === file.path ? place : { start: 0, end: 0 };
  const related = finding.related?.flatMap((other): DiagnosticRelatedInformation[] => {
    if (other.file !== undefined && !isTextFile(other.file)) return [];
    if (other.file !== undefined)
      return [
        {
          location: {
            uri: uriOf(other.file),
            range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
          },
          message: other.message,
        },
      ];
    const at = other.at === undefined ? undefined : locate(other.at, model);
    const source = at && model.file(at.file);
    return at && source ? [{ location: locationOf(source, at.start, at.end), message: other.message }] : [];
  });
  const accepted = finding.accepted;
  const message = accepted
    ? namingHop(
        finding,
        `accepted${accepted.until ? ` until ${accepted.until}` : ""}${accepted.reason ? ` ("${accepted.reason}")` : ""}: `,
      )
    : withHelp(namingHop(finding), finding.help);
  return diagnostic(file, here.start, here.end, finding.severity, finding.rule, message, related);
}

/** A list of problems shows files and lines: which hop it is about the message has to say. */
function namingHop({ at, message }: Finding, before = ""): string {
  const hop = /^hop (.*?)(?: \/ |$)/.exec(at)?.[1];
  const isNamed = hop === undefined || (before === "" && message.includes(hop));
  return isNamed ? `${before}${message}` : `${hop}: ${before}${message}`;
}

function diagnostic(
  file: SourceFile,
  start: number,
  end: number,
  severity: Severity,
  rule: string,
  message: string,
  related: DiagnosticRelatedInformation[] | undefined,
): Diagnostic {
  const href = rulePage(rule);
  return {
    range: linesOf(file).range(start, end),
    severity: SEVERITY[severity],
    code: rule,
    codeDescription: href === undefined ? undefined : { href },
    source: "hopwright",
    message,
    relatedInformation: related && related.length > 0 ? related : undefined,
    tags: rule === "acceptance-unused" ? [DiagnosticTag.Unnecessary] : undefined,
  };
}

function withHelp(message: string, help: string | undefined): string {
  return help === undefined ? message : `${message}\n${help}`;
}
