/** A licence in one look, as markdown: what is granted beside what the design has. */
import { lastsWords, licensedRows } from "../../shared/licence/figures.js";
import { heldHop, licencesFor } from "../../shared/licence/held.js";
import type { Fact } from "../facts/fact.js";
import type { DesignModel } from "../model/design-model.js";
import { escapeMarkdown } from "./markdown.js";
import type { Results } from "./results.js";

/** @returns undefined where it is not said what it is for, or what it is for is not evaluated */
export function licenceText(fact: Fact, model: DesignModel, results: Results): string | undefined {
  if (fact.property.block !== "licence") return undefined;
  const today = model.calendar;
  const index = model.standing("licence").findIndex((entry) => entry.fact.statement === fact.statement);
  const design = { licences: model.lookup.licences() };
  const at = index <= 0 ? "licence" : `licence#${index}`;
  const licence = index < 0 ? undefined : design.licences?.find((one) => one.at === at);
  const judged = licence && results(licence.hop);
  if (!licence || !judged) return undefined;
  const { held } = heldHop(
    judged.hop,
    judged.result,
    licencesFor(design, licence.hop),
    today ?? model.view.on,
  );
  const one = held.find((found) => found.licence === licence);
  const lasts = `**${escapeMarkdown(licence.number)}** ${lastsWords(licence, today)}`;
  if (one === undefined) return `${lasts}\n\nFor nothing that ${licence.site} sends.`;
  const rows = licensedRows(one).map(({ figure, granted, is, departs }) => {
    const cells = [departs ? `**${figure}**` : figure, granted, is ?? "", departs ? "departs" : ""];
    return `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
  });
  if (rows.length === 0) return lasts;
  return `${lasts}\n\n| | granted | design | |\n|---|---|---|---|\n${rows.join("\n")}`;
}
