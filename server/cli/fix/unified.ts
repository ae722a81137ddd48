/** Two states of a text as a unified diff, as patch programs read it. */
import { createTwoFilesPatch } from "diff";

/** A text of which nearly all changes is shown as one piece rather than compared for ever. */
const MOST_EDITS = 5_000;

/** @returns the empty text where nothing differs */
export function unifiedDiff(path: string, before: string, after: string): string {
  if (before === after) return "";
  const options = { context: 3, maxEditLength: MOST_EDITS };
  const patch =
    createTwoFilesPatch(`a/${path}`, `b/${path}`, before, after, undefined, undefined, options) ??
    `--- a/${path}\n+++ b/${path}\n@@ more than ${MOST_EDITS} lines differ @@\n`;
  // The library heads each file with a ruler of its own.
  return patch.replace(/^=+\n/, "");
}
