/** Ends of a hop under a name that is none of them, twice, or once too often. */

import { wordOf } from "../../facts/fact.js";
import { END } from "../../schema/index.js";
import { removeFact } from "./edits.js";
import type { QuickFix, TextToMend } from "./fix.js";

export function nameOtherEnd({ model, file, problem }: TextToMend): readonly QuickFix[] {
  const { start, end, rule } = problem;
  const hop = file.declarations.find(
    ({ kind, fact }) => kind === "hop" && fact.statement.start <= start && end <= fact.statement.end,
  );
  if (!hop) return [];
  const ends = hop.fact.facts.filter((fact) => fact.property === END);
  const names = ends.map((fact) => wordOf(fact, "site") ?? "");
  const here = ends.find(({ statement }) => statement.start === start);
  const write = (name: string): QuickFix => ({
    title: `Write ${name}`,
    edits: [{ file: file.path, start, end, newText: name }],
    rule,
    changesDecision: true,
  });
  if (!here)
    return ends.length === 2 && start !== hop.fact.statement.start ? [...new Set(names)].map(write) : [];
  if (ends.length > 2) {
    const last = ends.at(-1)!;
    const edit = removeFact(model, file.path, last);
    const title = `Remove the end ${names.at(-1)}`;
    return edit ? [{ title, edits: [edit], rule, changesDecision: true }] : [];
  }
  // The hop's own name says which two sites it joins.
  return model
    .names("site")
    .filter(
      (site) => !names.includes(site) && (hop.name.startsWith(`${site}-`) || hop.name.endsWith(`-${site}`)),
    )
    .map(write);
}
