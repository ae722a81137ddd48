import type { Severity } from "../../../shared/design/finding.js";
import { EXIT } from "../command-error.js";
import { type JudgedFolder, judgeFolder } from "../findings/judged-folder.js";
import { atLeast } from "../findings/placed.js";
import { printJson } from "../print/json.js";
import { printText } from "../print/text.js";
import { progressLine } from "../progress.js";
import { paintStdout, print } from "../streams.js";

export const FORMATS = ["text", "json"] as const;

export interface CheckOptions {
  readonly format: (typeof FORMATS)[number];
  readonly severity: Severity;
  readonly today: string;
  readonly resolved?: boolean;
}

/** @returns the exit status */
export async function check(folder: string, options: CheckOptions): Promise<number> {
  const progress = progressLine();
  const judged = await judgeFolder(folder, { today: options.today, pace: progress.pace });
  progress.end();
  const status = statusOf(judged, options.severity);
  // Before printing: a reader that closes the pipe ends the process with it.
  process.exitCode = status;
  await print(
    options.format === "json"
      ? printJson(judged, { resolved: options.resolved ?? false, cwd: process.cwd() })
      : printText(judged, { paint: paintStdout, cwd: process.cwd() }),
  );
  return status;
}

/** Files that could not be read outweigh findings: the judgement is not whole. */
function statusOf({ designs, unreadable }: JudgedFolder, severity: Severity): number {
  if (unreadable.length > 0 || designs.some(({ terrainProblems }) => terrainProblems.length > 0)) {
    return EXIT.unreadable;
  }
  const counted = designs.some(({ findings }) =>
    findings.some((one) => !one.accepted && atLeast(one.severity, severity)),
  );
  return counted ? EXIT.findings : EXIT.clean;
}
