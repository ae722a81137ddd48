import { resolve } from "node:path";
import { hopHistory } from "../../compare/hop-history.js";
import { slashed } from "../../files/slashed.js";
import { designFolder } from "../../findings/judged-folder.js";
import { repositoryOf, revisionOf } from "../../git/repository.js";
import { FORMATS, formatNamed } from "../formats.js";
import { safe } from "../print/safe.js";
import { note, paintStderr, paintStdout, print } from "../streams.js";

/** What one commit lacks the next often lacks too. */
const MOST_NOTES = 5;

export interface HistoryCommandOptions {
  readonly rev: string;
  readonly limit: number;
  readonly format: string;
  readonly today: string;
}

export async function history(hop: string, dir: string, options: HistoryCommandOptions): Promise<void> {
  const folder = slashed(designFolder(dir));
  const repository = await repositoryOf(resolve(folder));
  const from = await revisionOf(repository, options.rev);
  const notes: string[] = [];
  const entries = await hopHistory(repository, folder, hop, from, {
    ...options,
    note: (sentence) => void notes.push(sentence),
  });
  for (const sentence of notes.slice(0, MOST_NOTES))
    note(`${paintStderr("yellow", "warning")}: ${safe(sentence)}`);
  if (notes.length > MOST_NOTES)
    note(`${notes.length - MOST_NOTES} more of this kind; --format json lists them all`);
  const format = formatNamed(FORMATS.history, options.format);
  await print(await format.print({ hop, entries, notes, paint: paintStdout }));
}
