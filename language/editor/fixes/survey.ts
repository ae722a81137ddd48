/** States how surveys were made, those of hops that are not resolved too: the text alone has them. */
import { argument, factNamed } from "../../facts/fact.js";
import type { TextEdit } from "../text-range.js";
import type { QuickFix, ToMend } from "./fix.js";

const TITLES = {
  map: "made from a map, as they count now",
  field: "made in the field (joins neighbours whatever their distance)",
} as const;

/** The finding stands for all surveys that do not state it, and so does the fix. */
export function stateSurveySource({ model, finding }: ToMend): readonly QuickFix[] {
  return (["map", "field"] as const).flatMap((source) => {
    const edits = model.names("hop").flatMap((name): TextEdit[] => {
      const entry = model.standing(`hop ${name}`)[0];
      const survey = entry && factNamed(entry.fact.facts, "survey");
      const last = survey?.args.at(-1);
      if (!entry || !last || argument(survey, "source")) return [];
      return [{ file: entry.file, start: last.end, end: last.end, newText: ` by ${source}` }];
    });
    if (edits.length === 0) return [];
    const title = `Write by ${source}: ${TITLES[source]}`;
    return [{ title, edits, rule: finding.rule, changesDecision: source === "field" }];
  });
}
