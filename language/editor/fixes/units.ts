/** Heights whose figure was meant in the other of metres and feet: the figure as written stays, which no design knows. */
import { antennasStated } from "../../../shared/equipment/stands.js";
import { hangsInFeet } from "../../../shared/rules/feet.js";
import { type Argument, argument, factNamed } from "../../facts/fact.js";
import { endInText, hopOf, replaceArgument } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";

const OTHER: Readonly<Record<string, string | undefined>> = { m: "ft", ft: "m" };

/** The figure of the finding's height as it stands, with the other unit. */
export function otherUnit(toMend: ToMend): readonly QuickFix[] {
  const found = heightAt(toMend);
  const unit = found?.arg.value?.type === "quantity" ? found.arg.value.unit : "";
  const meant = OTHER[unit];
  const text = found && toMend.model.file(found.file)?.text.slice(found.arg.start, found.arg.end);
  if (!found || meant === undefined || !text?.endsWith(unit)) return [];
  const written = `${text.slice(0, -unit.length).trimEnd()} ${meant}`;
  return [
    {
      title: `Write ${written}: the figure was meant so (changes the height)`,
      edits: [replaceArgument(found.file, found.arg, written)],
      rule: toMend.finding.rule,
      changesDecision: true,
    },
  ];
}

/** The same where the antenna would hang in the upper part of its structure. */
export function feetAboveStructure(toMend: ToMend): readonly QuickFix[] {
  const { finding, judged } = toMend;
  const [, name, fact] = finding.at.split(" / ");
  const end = judged?.hop.ends.find(({ site }) => site.name === name);
  const stands = end ? antennasStated(end) : [];
  const heightM = stands.find((stand) => `${stand.fact}.at` === fact)?.heightM;
  const topM = end?.site.structure?.heightM;
  const fits = heightM !== undefined && topM !== undefined && hangsInFeet(heightM, topM);
  return fits ? otherUnit(toMend) : [];
}

/** Ground or structure of a site, or height of an antenna at an end, as the address of the finding names it. */
function heightAt({ model, finding }: ToMend): { readonly file: string; readonly arg: Argument } | undefined {
  const [top = "", first = "", second] = finding.at.split(" / ");
  const hop = hopOf(finding.at);
  if (hop === undefined) {
    const entry = model.declarations(top)[0];
    const fact = factNamed(entry?.fact.facts ?? [], first);
    const arg = argument(fact, "level") ?? argument(fact, "height");
    return entry && arg && { file: entry.file, arg };
  }
  const end = endInText(model, hop, first);
  const facts = end?.fact.facts ?? [];
  const which = second?.split(".")[0] ?? "";
  const arg =
    argument(factNamed(facts, which), "at") ??
    (which === "antenna" ? argument(factNamed(facts, "height"), "value") : undefined);
  return end && arg && { file: end.file, arg };
}
