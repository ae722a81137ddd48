/** `check --fix`: what is certain is written, or shown as it would be. */
import { readFileSync } from "node:fs";
import { CommandError, EXIT } from "../../command-error.js";
import { textOf } from "../../files/hop-files.js";
import { rewriteWhole } from "../../files/write-whole.js";
import { shownFrom } from "../../findings/paths.js";
import { certainFixes } from "../fix/certain.js";
import type { ChangedText } from "../fix/texts.js";
import { unifiedDiff } from "../fix/unified.js";
import { safe } from "../print/safe.js";
import { note, print } from "../streams.js";

const NOTHING = "nothing was certain enough to be fixed";

/** Prints what would be written. @returns the exit status: 1 when a file would change */
export async function showFixes(folder: string, today: string): Promise<number> {
  const { changed } = await certainFixes(folder, today);
  const status = changed.length > 0 ? EXIT.findings : EXIT.clean;
  process.exitCode = status;
  if (changed.length === 0) note(NOTHING);
  await print(
    changed.map(({ path, before, after }) =>
      unifiedDiff(safe(shownFrom(process.cwd(), path)), before, after),
    ),
  );
  return status;
}

/** Writes, and tells on standard error what by file and line. */
export async function applyFixes(folder: string, today: string): Promise<void> {
  const { applied, changed } = await certainFixes(folder, today);
  rewriteUnmoved(changed);
  for (const { file, line, rule, title } of applied)
    note(safe(`fixed ${shownFrom(process.cwd(), file)}:${line}: ${title} [${rule}]`));
  note(applied.length === 0 ? NOTHING : `${applied.length} fixed`);
}

/** Writes all of them, or none. */
export function rewriteUnmoved(changed: readonly ChangedText[]): void {
  for (const text of changed) refuseMoved(text);
  for (const { path, after } of changed) rewriteWhole(path, after);
}

/** What somebody wrote meanwhile is not written over. */
function refuseMoved({ path, before }: ChangedText): void {
  const now = textOf(path, readFileSync(path));
  if (!("text" in now) || now.text !== before)
    throw new CommandError(`${path}: it was changed meanwhile; nothing was written, run it again`);
}
