import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { formatText } from "../../../language/format/format.js";
import { CommandError, EXIT } from "../../command-error.js";
import { type HopText, readHopFiles } from "../../files/hop-files.js";
import { rewriteWhole } from "../../files/write-whole.js";
import { Lines } from "../../findings/lines.js";
import { shownFrom } from "../../findings/paths.js";
import { safe } from "../print/safe.js";
import { note, paintStderr, print } from "../streams.js";

/**
 * Lists on standard output the files that change, or with `check` would change.
 * @returns the exit status: with `check` 1 when a file would change; 2 when one cannot be read
 */
export async function format(
  paths: readonly string[],
  { check }: { readonly check?: boolean },
): Promise<number> {
  for (const path of paths)
    if (!existsSync(path)) throw new CommandError(`${path}: there is no such file or folder`);
  const files = paths.map((path) => readHopFiles(resolve(path)));
  const texts = [...new Map(files.flatMap((found) => found.texts).map((one) => [one.path, one])).values()];
  if (files.every((found) => found.texts.length + found.unreadable.length === 0))
    throw new CommandError(
      `${paths.join(", ")}: no .hop file in this folder or below; there is nothing to format`,
    );
  let unreadable = false;
  const tell = (place: string, message: string) => {
    unreadable = true;
    note(`${paintStderr("red", "error")}: ${safe(place)}: ${safe(message)}`);
  };
  for (const { path, message } of files.flatMap((found) => found.unreadable))
    tell(shownFrom(process.cwd(), path), message);
  const changed: string[] = [];
  for (const file of texts) {
    const shown = shownFrom(process.cwd(), file.path);
    const formatted = formatText(file.text);
    if (!formatted.ok)
      tell(
        `${shown}${placeOf(file, formatted.problems[0])}`,
        `left as it is: ${formatted.problems[0]?.message ?? "it cannot be read"}`,
      );
    else if (formatted.text !== file.text) {
      if (!check) rewriteWhole(file.path, formatted.text);
      changed.push(shown);
    }
  }
  await print(changed.map((path) => `${safe(path)}\n`));
  if (unreadable) return EXIT.unreadable;
  return check && changed.length > 0 ? EXIT.findings : EXIT.clean;
}

function placeOf({ text }: HopText, problem: { readonly start: number } | undefined): string {
  if (!problem) return "";
  const { line, character } = new Lines(text).position(problem.start);
  return `:${line + 1}:${character + 1}`;
}
