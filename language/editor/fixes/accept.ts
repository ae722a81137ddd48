import { REASON_TO_WRITE } from "../../../shared/rules/acceptance-reason.js";
import { RULES } from "../../../shared/rules/index.js";
import { factsNamed, wordOf } from "../../facts/fact.js";
import { acceptingInText, insertLine, removeFact } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";

/** Accepts the finding on its hop or at its site; errors and warnings only, as remarks need no answer. */
export function acceptFix({ model, finding }: ToMend): QuickFix | undefined {
  const block = acceptingInText(model, finding.at);
  const scope = RULES.get(finding.rule)?.scope;
  if (block === undefined || scope === undefined || scope === "acceptance" || finding.severity === "info")
    return undefined;
  const edit = insertLine(model, block, "accept", `accept ${finding.rule} because "${REASON_TO_WRITE}"`);
  if (!edit) return undefined;
  return {
    title: `Accept ${finding.rule} ${block.context === "hop" ? "on" : "at"} ${wordOf(block.fact, "name")} (it stays in every report; write the reason)`,
    edits: [edit],
    rule: finding.rule,
    changesDecision: true,
  };
}

/** An acceptance that answers nothing. */
export function removeAcceptance({ model, finding }: ToMend): readonly QuickFix[] {
  const block = acceptingInText(model, finding.at);
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
