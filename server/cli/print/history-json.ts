import { VERSION } from "../../version.js";
import type { HistoryFormat, HistoryOfHop } from "./format.js";
import { figures } from "./history-figures.js";
import type { HistoryEntryOutput, HistoryOutput } from "./history-output.js";
import { jsonText } from "./json-text.js";

export const historyJson: HistoryFormat = {
  name: "json",
  what: "the same for programs, with all that could not be read",
  print: printJson,
};

function printJson({ hop, entries, notes }: HistoryOfHop): Iterable<string> {
  const output: HistoryOutput = {
    schema: "hopwright-history/1",
    version: VERSION,
    hop,
    notes,
    entries: entries.map((entry): HistoryEntryOutput => {
      const { commit, hop, status, decisions, shared, terrainChanged, interferenceChanged } = entry;
      return {
        commit: commit?.commit,
        date: commit?.date,
        author: commit?.author,
        title: commit?.title,
        hop,
        status,
        decisions,
        shared,
        terrainChanged,
        interferenceChanged,
        ...figures(entry),
      };
    }),
  };
  return [`${jsonText(output, 1)}\n`];
}
