/** `check` with a line for each finding, for whoever searches, sorts and counts: place, severity, rule, message. */
import { type FileProblem, isUnread } from "../../files/hop-files.js";
import type { JudgedFolder } from "../../findings/judged-folder.js";
import { shownFrom } from "../../findings/paths.js";
import { atLeast, gravestFirst, type PlacedFinding } from "../../findings/placed.js";
import type { Checked, CheckFormat } from "./format.js";
import { safe } from "./safe.js";
import { withoutOld } from "./without-old.js";

export const checkLines: CheckFormat = {
  name: "lines",
  what: "a line a finding, for whoever searches, sorts and counts",
  print: ({ judged, baseline, ...options }) =>
    printLines(baseline ? withoutOld(judged, baseline) : judged, options),
};

function* printLines(
  { designs, unreadable }: JudgedFolder,
  { cwd, show }: Pick<Checked, "cwd" | "show">,
): Iterable<string> {
  for (const problem of unreadable) yield problemLine(problem, cwd);
  for (const { findings, terrainProblems } of designs) {
    for (const problem of terrainProblems) yield problemLine(problem, cwd);
    const shown = findings.filter(({ severity }) => atLeast(severity, show === "remarks" ? "info" : show));
    for (const finding of gravestFirst(shown)) yield findingLine(finding, cwd);
  }
}

function findingLine({ rule, severity, message, hop, place, accepted }: PlacedFinding, cwd: string): string {
  const where = place ? `${shownFrom(cwd, place.file)}:${place.line}:${place.column}: ` : "";
  const named = hop === undefined || message.includes(hop) ? message : `${hop}: ${message}`;
  return `${safe(`${where}${accepted ? "accepted" : severity} ${rule}: ${named}`)}\n`;
}

function problemLine(problem: FileProblem, cwd: string): string {
  const label = isUnread(problem) ? "error" : "warning";
  return `${safe(`${shownFrom(cwd, problem.path)}: ${label}: ${problem.message}`)}\n`;
}
