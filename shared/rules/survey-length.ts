import { address } from "../design/address.js";
import type { SurveyUse } from "../evaluate/account/path-result.js";
import { fixed } from "../format/numbers.js";
import { AT_THE_SITE_M, MOST_STRETCH_M } from "../terrain/survey.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule, Report } from "./rule.js";

/** A smaller stretch is the rounding of distances. */
const WORTH_TELLING_M = 1;

export const surveyLength: HopRule = {
  scope: "hop",
  id: "survey-length",
  severity: "warning",
  title: "The survey is as long as the path",
  checks:
    "Whether the survey begins at one end of the path and ends at the other. Up to 25 m at the far end its distances are stretched to the path, which is told; beyond that they stay as surveyed, what the survey does not reach is not known, and what lies beyond the path is left out.",
  why: "A survey of another length is most often that of another path, or in another unit.",
  fix: "Check that it is the survey of this path, from the end named, in the units of its header line.",
  source: "common practice",
  needs: ["distance"],
  good: exampleHop(),
  bad: exampleHop({ more: 'survey "too-long.csv" from KELD' }),
  check({ hop, result, report }) {
    const fit = result.survey?.fit;
    if (fit === undefined) return;
    const from = hop.ends[hop.surveyReversed ? 1 : 0].site.name;
    for (const told of remarks(fit, result.distanceM!, from))
      report({ at: address("hop", hop.name, "survey"), ...told });
  },
};

function remarks(
  { beginsM, endsM, stretchedM }: NonNullable<SurveyUse["fit"]>,
  lengthM: number,
  from: string,
): Omit<Report, "at">[] {
  const told: Omit<Report, "at">[] = [];
  const help = surveyLength.fix;
  const lacksM = lengthM - endsM;
  if (Math.abs(lacksM) > MOST_STRETCH_M) {
    const percent = fixed((100 * Math.abs(lacksM)) / lengthM, 1);
    const [word, rest] =
      lacksM < 0
        ? ["longer", "what lies beyond the path is left out"]
        : ["shorter", `the last ${fixed(lacksM, 0)} m are not known`];
    const message = `the survey ends at ${fixed(endsM, 0)} m, ${percent} % ${word} than the path of ${fixed(lengthM, 0)} m: distances are kept as surveyed, and ${rest}`;
    told.push({ message, help });
  } else if (stretchedM !== undefined && Math.abs(stretchedM) >= WORTH_TELLING_M) {
    const by = `${fixed(Math.abs(stretchedM), 1)} m`;
    const way = stretchedM > 0 ? `stretched by ${by}` : `shortened by ${by}`;
    told.push({
      severity: "info",
      message: `the survey ends at ${fixed(endsM, 1)} m, the path at ${fixed(lengthM, 1)} m: its distances are ${way} at the far end, in proportion before`,
    });
  }
  if (beginsM > AT_THE_SITE_M)
    told.push({
      message: `the survey begins ${fixed(beginsM, 0)} m from ${from}: the ground before is not known`,
      help,
    });
  return told;
}
