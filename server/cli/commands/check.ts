import type { Severity } from "../../../shared/design/severity.js";
import { CommandError, EXIT } from "../../command-error.js";
import { isUnread } from "../../files/hop-files.js";
import { type JudgedFolder, judgeFolder } from "../../findings/judged-folder.js";
import { atLeast, type PlacedFinding } from "../../findings/placed.js";
import type { Times } from "../../findings/stages.js";
import { readBaseline } from "../baseline.js";
import { FORMATS, formatNamed } from "../formats.js";
import { safe } from "../print/safe.js";
import { progressLine } from "../progress.js";
import { paintStdout, print, terminalColumns } from "../streams.js";

export interface CheckOptions {
  readonly format: string;
  readonly severity: Severity;
  /** Least severity that the text names; the others are counted. `remarks`: all, and remarks one by one. */
  readonly show: Severity | "remarks";
  readonly today: string;
  /** Which times are judged. */
  readonly times?: Times;
  readonly resolved?: boolean;
  /** A hop, a site or a card that is taken out. */
  readonly without?: string;
  /** Writes the fixes that are certain before judging. */
  readonly fix?: boolean;
  /** With `fix`: only shows them. */
  readonly dryRun?: boolean;
  /** Output of an earlier `check --format json`: only findings that are not in it make the exit status 1. */
  readonly baseline?: string;
  /** Whether results are taken from earlier runs, and kept for later ones. */
  readonly keep?: boolean;
}

/** @returns the exit status */
export async function check(folder: string, options: CheckOptions): Promise<number> {
  if (options.dryRun && !options.fix)
    throw new CommandError("check --dry-run shows what --fix would write; add --fix");
  if (options.dryRun && options.format !== "text")
    throw new CommandError("check --fix --dry-run prints a diff; leave --format out");
  if (options.without !== undefined) {
    if (options.fix) throw new CommandError("check --without only looks; leave --fix out");
    if (options.format !== "text" && options.format !== "json")
      throw new CommandError(
        `check --without prints text and JSON: in ${options.format} nobody would see that something is taken out`,
      );
  }
  if (options.fix) {
    const { applyFixes, showFixes } = await import("./fix.js");
    if (options.dryRun) return showFixes(folder, options.today);
    await applyFixes(folder, options.today);
  }
  const progress = progressLine();
  const judged = await judgeFolder(folder, {
    today: options.today,
    times: options.times,
    without: options.without,
    pace: progress.pace,
    ...(options.keep === true && {
      keeping: (problem: string) => void process.stderr.write(`hopwright: ${safe(problem)}\n`),
    }),
  });
  progress.end();
  const baseline = options.baseline === undefined ? undefined : readBaseline(options.baseline, judged);
  const counts = (finding: PlacedFinding) =>
    !finding.accepted && atLeast(finding.severity, options.severity) && !baseline?.(finding);
  const loses = judged.designs.some(({ without }) => (without?.lost ?? []).length > 0);
  const status = Math.max(statusOf(judged, counts), loses ? EXIT.findings : EXIT.clean);
  // Before printing: a reader that closes the pipe ends the process with it.
  process.exitCode = status;
  const { show, resolved } = options;
  await print(
    await formatNamed(FORMATS.check, options.format).print({
      judged,
      cwd: process.cwd(),
      paint: paintStdout,
      columns: terminalColumns(),
      show,
      resolved,
      baseline,
      counts,
    }),
  );
  return status;
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
