/** Takes away a severity that says more than it should: a statement of the network, which no address of a hop or site names. */
import { argument } from "../../facts/fact.js";
import { removeFact } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";

/** A severity that can't apply. */
export function removeSeverity({ model, finding }: ToMend): readonly QuickFix[] {
  const entry = model.declarations("policy")[Number(finding.at.split("#")[1] ?? 0)];
  const isSeverity = entry !== undefined && finding.at.startsWith("policy") && argument(entry.fact, "value");
  const edit = isSeverity ? removeFact(model, entry.file, entry.fact) : undefined;
  return edit
    ? [
        {
          title: "Remove this severity (nothing takes it)",
          edits: [edit],
          rule: finding.rule,
          changesDecision: false,
        },
      ]
    : [];
}
