import { meantRule } from "../../../shared/rules/meant.js";
import { argument, factsNamed } from "../../facts/fact.js";
import { replaceArgument } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";

/** Writes the rule that an acceptance, a severity or a requirement most likely means. */
export function renameRule({ model, finding }: ToMend): readonly QuickFix[] {
  const [top = "", step] = finding.at.split(" / ");
  const index = Number(finding.at.split("#")[1] ?? 0);
  const entry = step ? model.declarations(top)[0] : model.declarations("policy")[index];
  const arg = argument(step ? factsNamed(entry?.fact.facts ?? [], "accept")[index] : entry?.fact, "rule");
  const written = entry && arg && model.file(entry.file)?.text.slice(arg.start, arg.end);
  const meant = written && meantRule(written);
  if (!entry || !arg || !meant) return [];
  return [
    {
      title: `Write ${meant}`,
      edits: [replaceArgument(entry.file, arg, meant)],
      rule: finding.rule,
      changesDecision: false,
    },
  ];
}
