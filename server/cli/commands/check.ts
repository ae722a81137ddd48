import type { Severity } from "../../../shared/design/severity.js";
import { CommandError, EXIT } from "../../command-error.js";
import { isUnread } from "../../files/hop-files.js";
import { type JudgedFolder, judgeFolder } from "../../findings/judged-folder.js";
import { atLeast, type PlacedFinding } from "../../findings/placed.js";
import type { Times } from "../../findings/stages.js";
import { type Baseline, NO_BASELINE, readBaseline } from "../baseline.js";
import { printGithub } from "../print/github.js";
import { printJson } from "../print/json.js";
import { printJunit } from "../print/junit.js";
import { printLines } from "../print/lines.js";
import { printSarif } from "../print/sarif.js";
import { printText } from "../print/text.js";
import { progressLine } from "../progress.js";
import { paintStdout, print, terminalColumns } from "../streams.js";

const FORMATS = ["text", "lines", "json", "sarif", "junit", "github"] as const;

export interface CheckOptions {
  readonly format: (typeof FORMATS)[number];
  readonly severity: Severity;
  /** Least severity that the text names; the others are counted. `remarks`: all, and remarks one by one. */
  readonly show: Severity | "remarks";
  readonly today: string;
  /** Which times are judged. */
  readonly times?: Times;
  readonly resolved?: boolean;
  /** Writes the fixes that are certain before judging. */
  readonly fix?: boolean;
  /** With `fix`: only shows them. */
  readonly dryRun?: boolean;
  /** Output of an earlier `check --format json`: only findings that are not in it make the exit status 1. */
  readonly baseline?: string;
}

/** @returns the exit status */
export async function check(folder: string, options: CheckOptions): Promise<number> {
  if (options.dryRun && !options.fix)
    throw new CommandError("check --dry-run shows what --fix would write; add --fix");
  if (options.dryRun && options.format !== "text")
    throw new CommandError("check --fix --dry-run prints a diff; leave --format out");
  if (options.fix) {
    const { applyFixes, showFixes } = await import("./fix.js");
    if (options.dryRun) return showFixes(folder, options.today);
    await applyFixes(folder, options.today);
  }
  const progress = progressLine();
  const judged = await judgeFolder(folder, {
    today: options.today,
    times: options.times,
    pace: progress.pace,
  });
  progress.end();
  const baseline = options.baseline === undefined ? NO_BASELINE : readBaseline(options.baseline, judged);
  const counts = (finding: PlacedFinding) =>
    !finding.accepted && atLeast(finding.severity, options.severity) && !baseline(finding);
  const status = statusOf(judged, counts);
  // Before printing: a reader that closes the pipe ends the process with it.
  process.exitCode = status;
  await print(printed(judged, options, baseline, counts));
  return status;
}

function printed(
  judged: JudgedFolder,
  { format, resolved = false, show, baseline: path }: CheckOptions,
  baseline: Baseline,
  counts: (finding: PlacedFinding) => boolean,
): Iterable<string> {
  const cwd = process.cwd();
  switch (format) {
    case "json":
      return printJson(judged, { resolved, cwd });
    case "sarif":
      return printSarif(judged, { cwd, baseline: path === undefined ? undefined : baseline });
    case "junit":
      return printJunit(judged, { cwd, counts });
    case "github":
      return printGithub(judged, { cwd, baseline });
    case "lines":
      return printLines(path === undefined ? judged : withoutOld(judged, baseline), { cwd, show });
    case "text":
      return printText(path === undefined ? judged : withoutOld(judged, baseline), {
        paint: paintStdout,
        cwd,
        show,
        columns: terminalColumns(),
      });
  }
}

/** A reader of the terminal wants to see what is new. */
function withoutOld(judged: JudgedFolder, baseline: Baseline): JudgedFolder {
  const designs = judged.designs.map((design) => ({
    ...design,
    findings: design.findings.filter((finding) => !baseline(finding)),
  }));
  return { ...judged, designs };
}

/** Files that could not be read outweigh findings: the judgement is not whole. */
export function statusOf(
  { designs, unreadable }: JudgedFolder,
  counts: (finding: PlacedFinding) => boolean,
): number {
  if (unreadable.length > 0 || designs.some(({ terrainProblems }) => terrainProblems.some(isUnread))) {
    return EXIT.unreadable;
  }
  return designs.some(({ findings }) => findings.some(counts)) ? EXIT.findings : EXIT.clean;
}
