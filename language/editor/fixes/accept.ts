import { REASON_TO_WRITE } from "../../../shared/rules/acceptance-reason.js";
import { RULES } from "../../../shared/rules/index.js";
import { factsNamed } from "../../facts/fact.js";
import type { QuickFix, ToMend } from "../quick-fixes.js";
import { hopInText, hopOf, insertLine, removeFact } from "./edits.js";

/** Accepts the finding on its hop; errors and warnings only, as remarks need no answer. */
export function acceptFix({ model, finding }: ToMend): QuickFix | undefined {
  const hop = hopOf(finding.at);
  const scope = RULES.get(finding.rule)?.scope;
  if (hop === undefined || scope === undefined || scope === "acceptance" || finding.severity === "info")
    return undefined;
  const block = hopInText(model, hop);
  const edit =
    block && insertLine(model, block, "accept", `accept ${finding.rule} because "${REASON_TO_WRITE}"`);
  if (!edit) return undefined;
  return {
    title: `Accept ${finding.rule} on ${hop} (it stays in every report; write the reason)`,
    edits: [edit],
    rule: finding.rule,
    changesDecision: true,
  };
}

/** An acceptance that answers nothing. */
export function removeAcceptance({ model, finding }: ToMend): readonly QuickFix[] {
  const hop = hopOf(finding.at);
  const block = hop === undefined ? undefined : hopInText(model, hop);
  const index = Number(/accept(?:#(\d+))?$/.exec(finding.at)?.[1] ?? 0);
  const fact = block && factsNamed(block.fact.facts, "accept")[index];
  const edit = block && fact && removeFact(model, block.file, fact);
  return edit
    ? [
        {
          title: "Remove this acceptance (nothing is accepted by it)",
          edits: [edit],
          rule: finding.rule,
          changesDecision: false,
        },
      ]
    : [];
}
