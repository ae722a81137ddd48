/** Writes down a licence behind the hop: a declaration of its own, which no address names yet. */
import { heldHop, licencesFor } from "../../../shared/licence/held.js";
import { licenceLines } from "../../../shared/licence/write.js";
import type { QuickFix, ToMend } from "./fix.js";

/** For all that the end sends and has none for; number and days are still to be filled in. */
export function writeLicences({ model, finding, judged }: ToMend): readonly QuickFix[] {
  if (judged === undefined) return [];
  const { hop, result } = judged;
  const entry = model.standing(`hop ${hop.name}`)[0];
  const design = { licences: model.lookup.licences() };
  // Which of several licences counts on a day says nothing of what has none.
  const { held } = heldHop(hop, result, licencesFor(design, hop.name), "9999-12-31");
  const open = held.filter(
    ({ sent, licence }) => licence === undefined && finding.at.endsWith(` / ${sent.site}`),
  );
  const site = open[0]?.sent.site;
  if (entry === undefined || site === undefined) return [];
  const at = entry.fact.statement.end;
  const newText = open.map(({ sent }) => `\n\n${licenceLines(sent, "?").join("\n")}`).join("");
  return [
    {
      title: `Write a licence for ${site} with the figures of the design (its number and days are still to be filled in)`,
      edits: [{ file: entry.file, start: at, end: at, newText }],
      rule: finding.rule,
      changesDecision: true,
    },
  ];
}
