import { REASON_TO_WRITE } from "../../../shared/rules/acceptance-reason.js";
import { RULES } from "../../../shared/rules/index.js";
import { wordOf } from "../../facts/fact.js";
import type { Context } from "../../schema/types.js";
import { acceptingInText, insertLine } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";

const PLACED: Readonly<Partial<Record<Context, string>>> = { site: "at", demand: "in" };

/** Accepts the finding on its hop, at its site or in its demand; errors and warnings only, as remarks need no answer. */
export function acceptFix({ model, finding }: ToMend): QuickFix | undefined {
  const block = acceptingInText(model, finding.at);
  const scope = RULES.get(finding.rule)?.scope;
  if (block === undefined || scope === undefined || scope === "acceptance" || finding.severity === "info")
    return undefined;
  const edit = insertLine(model, block, "accept", `accept ${finding.rule} because "${REASON_TO_WRITE}"`);
  if (!edit) return undefined;
  return {
    title: `Accept ${finding.rule} ${PLACED[block.context] ?? "on"} ${wordOf(block.fact, "name")} (it stays in every report; write the reason)`,
    edits: [edit],
    rule: finding.rule,
    changesDecision: true,
  };
}
