/** `check` as workflow commands of GitHub Actions, which shows them beside the lines of a pull request. */

import type { Severity } from "../../../shared/design/severity.js";
import { type FileProblem, isUnread } from "../../files/hop-files.js";
import type { JudgedFolder } from "../../findings/judged-folder.js";
import { shownFrom } from "../../findings/paths.js";
import type { PlacedFinding } from "../../findings/placed.js";
import { NO_BASELINE } from "../baseline.js";
import type { Checked, CheckFormat } from "./format.js";
import { safe } from "./safe.js";

export const checkGithub: CheckFormat = {
  name: "github",
  what: "annotations of a pull request on GitHub",
  print: ({ judged, cwd, baseline = NO_BASELINE }) => printGithub(judged, { cwd, baseline }),
};

type GithubOptions = Required<Pick<Checked, "cwd" | "baseline">>;

const COMMAND: Readonly<Record<Severity, string>> = { error: "error", warning: "warning", info: "notice" };

/** What is accepted or known already is not shown: only so many annotations are kept for a run. */
function* printGithub({ designs, unreadable }: JudgedFolder, options: GithubOptions): Iterable<string> {
  const problems: readonly FileProblem[] = [
    ...unreadable,
    ...designs.flatMap(({ terrainProblems }) => terrainProblems),
  ];
  for (const problem of problems) {
    const name = isUnread(problem) ? COMMAND.error : COMMAND.warning;
    yield command(name, { file: shownFrom(options.cwd, problem.path) }, problem.message);
  }
  for (const { findings } of designs) {
    for (const finding of findings) {
      if (!finding.accepted && !options.baseline(finding)) yield annotation(finding, options);
    }
  }
}

function annotation(finding: PlacedFinding, { cwd }: GithubOptions): string {
  const { rule, severity, message, help, hop, place } = finding;
  const text = [hop === undefined ? message : `${hop}: ${message}`, help].filter(Boolean).join("\n");
  const where = place && {
    file: shownFrom(cwd, place.file),
    line: String(place.line),
    endLine: String(place.endLine),
    // Columns count only within one line.
    ...(place.line === place.endLine && { col: String(place.column), endColumn: String(place.endColumn) }),
  };
  return command(COMMAND[severity], { ...where, title: rule }, text);
}

function command(name: string, properties: Readonly<Record<string, string>>, text: string): string {
  const parts = Object.entries(properties).map(([key, value]) => `${key}=${property(value)}`);
  return `::${name} ${parts.join(",")}::${data(text)}\n`;
}

function data(text: string): string {
  const steersNothing = text.split("\n").map(safe).join("\n");
  return steersNothing.replaceAll("%", "%25").replaceAll("\r", "%0D").replaceAll("\n", "%0A");
}

function property(text: string): string {
  return data(text).replaceAll(":", "%3A").replaceAll(",", "%2C");
}
