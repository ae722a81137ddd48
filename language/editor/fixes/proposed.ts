/** All that is proposed for an engineering finding: what needs the text itself, then the fixes of its rule. */
import type { Catalogue, Mending } from "../../../shared/rules/fixes/mending.js";
import { RULES } from "../../../shared/rules/index.js";
import type { DesignModel } from "../../model/design-model.js";
import { hopOf } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";
import { IN_TEXT } from "./index.js";
import { editsOf } from "./write.js";

export function proposedFixes(toMend: ToMend): readonly QuickFix[] {
  const { rule } = toMend.finding;
  return [...(IN_TEXT[rule]?.(toMend) ?? []), ...fixesOfRule(toMend)];
}

function fixesOfRule(toMend: ToMend): readonly QuickFix[] {
  const { rule } = toMend.finding;
  const fixes = RULES.get(rule)?.fixes?.(mendingOf(toMend)) ?? [];
  return fixes.flatMap(({ title, changes, changesDecision }): QuickFix[] => {
    const edits = editsOf(toMend.model, changes);
    return edits ? [{ title, edits, rule, changesDecision }] : [];
  });
}

function mendingOf({ model, finding, judged, interference }: ToMend): Mending {
  const name = hopOf(finding.at);
  let catalogue: Catalogue | undefined;
  return {
    finding,
    hop: judged?.hop ?? (name === undefined ? undefined : model.hop(name)?.hop),
    get catalogue() {
      return (catalogue ??= catalogueOf(model));
    },
    get design() {
      return model.design();
    },
    interference,
    equipmentAt: (site) => model.lookup.equipment(site),
  };
}

function catalogueOf(model: DesignModel): Catalogue {
  const all = <T>(kind: "feeder" | "card", find: (name: string) => T | undefined): T[] =>
    model
      .names(kind)
      .filter((name) => !model.declarations(`${kind} ${name}`)[0]?.template)
      .flatMap((name) => find(name) ?? []);
  return {
    ...model.lookup.stock(),
    feeders: all("feeder", model.lookup.feeder),
    cards: all("card", model.lookup.card),
    plans: model.lookup.plans(),
  };
}
