import { address } from "../design/address.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const surveyUnusable: HopRule = {
  scope: "hop",
  id: "survey-unusable",
  severity: "error",
  title: "The survey that the hop names cannot be used",
  checks:
    "Whether the file of `survey` is there, can be read, and holds distances that rise and heights of land (-500 to 9000 m) in plain decimal numbers.",
  why: "Whoever names a survey means it to be judged; with a misspelt name nothing of the path would be.",
  fix: "Correct the name or the file; without `survey` the terrain of the network counts.",
  source: "common practice",
  needs: ["distance"],
  good: exampleHop(),
  bad: exampleHop({ more: 'survey "missing.csv" from KELD' }),
  check({ hop, result, report }) {
    if (hop.surveyFile === undefined || result.survey?.problem === undefined) return;
    report({
      at: address("hop", hop.name, "survey"),
      message: result.survey.problem,
      help: "Clearance is not judged until then; without `survey` the terrain of the network is taken.",
      related: [{ file: hop.surveyFile, message: "the survey, as it is named" }],
    });
  },
};
