/** Takes away a statement that says more than it should. */
import { argument, factNamed } from "../../facts/fact.js";
import { endInText, removeFact } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";

/** Leaves the power to the mode. */
export function removePower({ model, finding, judged }: ToMend): readonly QuickFix[] {
  const site = finding.at.split(" / ")[1];
  const end = judged && site !== undefined ? endInText(model, judged.hop.name, site) : undefined;
  const power = end && factNamed(end.fact.facts, "power");
  const edit = end && power && removeFact(model, end.file, power);
  return edit
    ? [
        {
          title: `Leave the power at ${site} to the mode (removes the stated power)`,
          edits: [edit],
          rule: finding.rule,
          changesDecision: true,
        },
      ]
    : [];
}

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

/** Leaves the ground level to the terrain. */
export function removeGround({ model, finding }: ToMend): readonly QuickFix[] {
  const site = finding.at.split(" / ")[0]!;
  const entry = model.standing(site)[0];
  const ground = entry && factNamed(entry.fact.facts, "ground");
  const edit = entry && ground && removeFact(model, entry.file, ground);
  return edit
    ? [
        {
          title: `Take the ground level of ${entry.name} from the terrain (removes the stated one)`,
          edits: [edit],
          rule: finding.rule,
          changesDecision: true,
        },
      ]
    : [];
}
