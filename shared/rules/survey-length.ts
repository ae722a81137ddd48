import { address } from "../design/address.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const surveyLength: HopRule = {
  scope: "hop",
  id: "survey-length",
  severity: "warning",
  title: "The survey is as long as the path",
  checks:
    "Whether the survey begins at one end of the path and ends at the other, within 1 % of its length. Where it falls short, clearance is judged over the rest only; what lies beyond the path is left out.",
  why: "A survey of another length is most often that of another path, or in another unit.",
  fix: "Check that it is the survey of this path, from the end named, in the units of its header line.",
  source: "common practice",
  needs: ["distance"],
  good: exampleHop(),
  bad: exampleHop({ more: 'survey "too-long.csv" from KELD' }),
  check({ hop, result, report }) {
    for (const remark of result.survey?.remarks ?? []) {
      report({
        at: address("hop", hop.name, "survey"),
        message: remark,
        help: "Check that it is the survey of this path, from the end named, in the units of its header line.",
      });
    }
  },
};
