import { address } from "../design/address.js";
import type { Hop } from "../design/design.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";
import { named, places } from "./shared-remarks.js";

export const surveySource = gathering<true>({
  scope: "network",
  ofResults: true,
  id: "survey-source",
  severity: "info",
  title: "A survey states how it was made",
  checks: "Surveys in use that state neither `by field` nor `by map`. Said once for all hops.",
  why: "Between the points of a survey in the field the surveyor saw the ground; between those of a map there may be a void, and what is not known is not clear.",
  fix: "Write `by field` or `by map` behind the survey.",
  source: "common practice",
  good: exampleHop({ more: 'survey "too-long.csv" from KELD by map' }),
  bad: exampleHop({ more: 'survey "too-long.csv" from KELD' }),
  each: "hop",
  note: ({ surveyFile, surveySource: stated }, result) =>
    surveyFile !== undefined && stated === undefined && result?.survey?.fit !== undefined ? true : undefined,
  tell(noted, { report }) {
    const silent = noted.map(({ hop }) => hop);
    const message = "the survey does not state how it was made, and counts as made from a map";
    const at = (name: string) => address("hop", name, "survey");
    const help = surveySource.fix;
    const accepts = ({ accepts: all }: Hop) => all.some(({ rule }) => rule === surveySource.id);
    for (const { name } of silent.filter(accepts)) report({ at: at(name), message, help }, name);
    const names = silent.filter((hop) => !accepts(hop)).map(({ name }) => name);
    const [first] = names;
    if (first === undefined) return;
    const others = names.length > 1 ? `; on ${named(names)}` : "";
    const only = names.length === 1 ? first : undefined;
    report(
      {
        at: at(first),
        about: message,
        message: `${message}${others}`,
        help,
        related: places(names.slice(1)),
      },
      only,
    );
  },
});
