import type { JudgedFolder } from "../../findings/judged-folder.js";
import { shownFrom } from "../../findings/paths.js";
import { note, paintStderr } from "../streams.js";
import { safe } from "./text.js";

/** Tells on standard error what could not be read. @returns whether there was any such thing */
export function tellUnreadable({ unreadable, designs }: JudgedFolder): boolean {
  const all = [...unreadable, ...designs.flatMap(({ terrainProblems }) => terrainProblems)];
  for (const { path, message } of all) {
    note(`${paintStderr("red", "error")}: ${safe(shownFrom(process.cwd(), path))}: ${safe(message)}`);
  }
  return all.length > 0;
}
