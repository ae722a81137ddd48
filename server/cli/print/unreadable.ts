import { type FileProblem, isUnread } from "../../files/hop-files.js";
import type { JudgedFolder } from "../../findings/judged-folder.js";
import { shownFrom } from "../../findings/paths.js";
import { note, paintStderr } from "../streams.js";
import { safe } from "./safe.js";

/** Tells on standard error what could not be read, and what was read with a reservation. @returns whether there was any such thing */
export function tellUnreadable({ unreadable, designs }: JudgedFolder): boolean {
  const all: readonly FileProblem[] = [
    ...unreadable,
    ...designs.flatMap(({ terrainProblems }) => terrainProblems),
  ];
  for (const problem of all) {
    const label = isUnread(problem) ? paintStderr("red", "error") : paintStderr("yellow", "warning");
    note(`${label}: ${safe(shownFrom(process.cwd(), problem.path))}: ${safe(problem.message)}`);
  }
  return all.some(isUnread);
}
