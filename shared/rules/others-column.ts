import { shownFile } from "../others/file-names.js";
import { exampleHop } from "./example-preamble.js";
import { OTHERS_EXAMPLE } from "./others-words.js";
import type { NetworkRule } from "./rule.js";

export const othersColumn: NetworkRule = {
  scope: "network",
  id: "others-column",
  severity: "error",
  title: "A column of a list must be headed as its file heads it",
  checks: "The heads that a list of others' transmissions names against the first line of its file.",
  why: "What the column holds is not read, and rows that need it are left out.",
  fix: "Write the head as it stands in the file.",
  source: "common practice",
  good: `${OTHERS_EXAMPLE}\n\n${exampleHop()}`,
  bad: `${OTHERS_EXAMPLE.replace('eirp "eirp"', 'eirp "erp"')}\n\n${exampleHop()}`,
  check({ design, files, report }) {
    for (const list of design.others ?? []) {
      const read = files.others.get(list);
      if (read === undefined || "unusable" in read) continue;
      for (const { key, argument, head, is, nearest } of read.columnFaults) {
        const meant = nearest === undefined ? "" : `; did you mean "${nearest}"?`;
        report({
          at: `${list.at} / ${key}.${argument}`,
          about: `${list.file} ${key} ${argument}`,
          severity: is === "doubled" ? "warning" : undefined,
          message:
            is === "missing"
              ? `${shownFile(list.file)} has no column "${head}"${meant}`
              : `${shownFile(list.file)} has several columns "${head}"; the first counts`,
        });
      }
    }
  },
};
