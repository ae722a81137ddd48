import { factNamed, wordOf } from "../../facts/fact.js";
import { endInText, hopOf, stateFact } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";

/** Turns the half of one end; the last end first, as the finding stands there. */
export function otherHalf({ model, judged, finding }: ToMend): readonly QuickFix[] {
  if (!judged) return [];
  const { hop } = judged;
  return [...hop.ends].reverse().flatMap(({ site, transmits }) => {
    const end = endInText(model, hop.name, site.name);
    const half = transmits === "high" ? "low" : "high";
    const edit = end && transmits && stateFact(model, end, "transmits", `transmits ${half}`);
    if (!edit) return [];
    return [
      {
        title: `Let ${site.name} transmit ${half} (changes the half of this end)`,
        edits: [edit],
        rule: finding.rule,
        changesDecision: true,
      },
    ];
  });
}

/** Exchanges high and low of both ends of the hop. */
export function exchangeHalves({ model, finding }: ToMend): readonly QuickFix[] {
  const name = hopOf(finding.at);
  const hop = name === undefined ? undefined : model.hop(name)?.hop;
  if (!hop) return [];
  const edits = hop.ends.flatMap(({ site }) => {
    const end = endInText(model, hop.name, site.name);
    const half = wordOf(factNamed(end?.fact.facts ?? [], "transmits"), "value");
    if (!end || (half !== "high" && half !== "low")) return [];
    return stateFact(model, end, "transmits", `transmits ${half === "high" ? "low" : "high"}`) ?? [];
  });
  if (edits.length !== 2) return [];
  return [
    {
      title: `Exchange high and low of ${hop.name} (changes both its ends)`,
      edits,
      rule: finding.rule,
      changesDecision: true,
    },
  ];
}
