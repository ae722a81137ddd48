import { shownFile } from "../others/file-names.js";
import { lackingIn } from "../others/mapped.js";
import { listed } from "../words/lists.js";
import { exampleHop } from "./example-preamble.js";
import { OTHERS_EXAMPLE } from "./others-words.js";
import type { NetworkRule } from "./rule.js";

export const othersUnusable: NetworkRule = {
  scope: "network",
  id: "others-unusable",
  severity: "error",
  title: "A list of others' transmissions must be readable",
  checks:
    "Whether the file is there and has rows, and whether its columns name a position, a frequency, a bandwidth and an EIRP.",
  why: "Interference of everybody in the list would silently be missing.",
  fix: "Mend the path, or name the columns that lack.",
  source: "common practice",
  good: `${OTHERS_EXAMPLE}\n\n${exampleHop()}`,
  bad: `${OTHERS_EXAMPLE.replace('  frequency "frequency" in MHz\n', "")}\n\n${exampleHop()}`,
  check({ design, files, report }) {
    for (const list of design.others ?? []) {
      const name = shownFile(list.file);
      const lacking = lackingIn(list);
      if (lacking.length > 0)
        report({
          at: list.at,
          message: `${name} is not used: no column is named for ${listed(lacking)}`,
        });
      const read = files.others.get(list);
      if (read !== undefined && "unusable" in read)
        report({
          at: list.at,
          message: `${name} is not used: ${read.unusable}`,
          related: [{ file: list.file, message: "the list, as it is named" }],
        });
    }
  },
};
