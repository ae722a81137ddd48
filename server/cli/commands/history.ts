import { resolve } from "node:path";
import { hopHistory } from "../../compare/hop-history.js";
import { slashed } from "../../files/slashed.js";
import { designFolder } from "../../findings/judged-folder.js";
import { repositoryOf, revisionOf } from "../../git/repository.js";
import { historyJson, historyText } from "../print/history.js";
import { paintStdout, print } from "../streams.js";

export interface HistoryCommandOptions {
  readonly rev: string;
  readonly limit: number;
  readonly format: "text" | "json";
  readonly today: string;
}

export async function history(hop: string, dir: string, options: HistoryCommandOptions): Promise<void> {
  const folder = slashed(designFolder(dir));
  const repository = await repositoryOf(resolve(folder));
  const from = await revisionOf(repository, options.rev);
  const entries = await hopHistory(repository, folder, hop, from, options);
  await print(options.format === "json" ? historyJson(hop, entries) : historyText(entries, paintStdout));
}
