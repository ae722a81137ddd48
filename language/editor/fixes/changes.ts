/** What a finding proposes, written into the text. */
import {
  type Change,
  changeWords,
  modesStatement,
  WITH_SPACE_DIVERSITY,
} from "../../../shared/design/change.js";
import type { Hop } from "../../../shared/design/design.js";
import { trimmed } from "../../../shared/format/numbers.js";
import { argument, factNamed } from "../../facts/fact.js";
import type { DesignModel } from "../../model/design-model.js";
import type { TextEdit } from "../text-range.js";
import { type BlockInText, endInText, hopInText, insertLine, replaceArgument, stateFact } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";

export function proposedChanges({ model, finding, judged }: ToMend): readonly QuickFix[] {
  if (!judged) return [];
  return (finding.changes ?? []).flatMap((change): QuickFix[] => {
    const edits = editsFor(model, judged.hop, change);
    if (edits.length === 0 || edits.some((edit) => edit === undefined)) return [];
    const title = `Take ${changeWords(change)} (changes the ${DECIDES[change.kind]})`;
    return [{ title, edits: edits as TextEdit[], rule: finding.rule, changesDecision: true }];
  });
}

const DECIDES: Readonly<Record<Change["kind"], string>> = {
  polarization: "licence and the mounting",
  antenna: "equipment",
  radio: "equipment",
  modes: "modes in use",
  "space-diversity": "equipment",
  power: "licence",
};

/** An edit that cannot be made is undefined: the change is not offered then. */
function editsFor(model: DesignModel, hop: Hop, change: Change): readonly (TextEdit | undefined)[] {
  const block = hopInText(model, hop.name);
  if (!block) return [];
  const inHop = (name: string, line: string) => stateFact(model, block, name, line);
  const at = (site: string, edit: (end: BlockInText) => TextEdit | undefined) => {
    const end = endInText(model, hop.name, site);
    return end && edit(end);
  };
  switch (change.kind) {
    case "polarization":
      return [inHop("polarization", `polarization ${change.to}`)];
    case "antenna":
      return change.sites.map((site) => at(site, (end) => antennaEdit(end, change.antenna)));
    case "radio":
      return [inHop("radio", `radio ${change.radio}`)];
    case "modes":
      return modesEdits(model, block, change);
    case "space-diversity":
      return [
        inHop("arrangement", `arrangement ${WITH_SPACE_DIVERSITY.get(hop.arrangement.name)}`),
        ...change.second.map(({ site, antenna, heightM }) =>
          at(site, (end) =>
            stateFact(
              model,
              end,
              "diversity-antenna",
              `diversity-antenna ${antenna} at ${trimmed(heightM, 2)} m`,
            ),
          ),
        ),
      ];
    case "power":
      return [
        at(change.site, (end) => stateFact(model, end, "power", `power ${trimmed(change.powerDbm, 1)} dBm`)),
      ];
  }
}

/** The name alone: the line may state a height. */
function antennaEdit({ file, fact }: BlockInText, name: string): TextEdit | undefined {
  const arg = argument(factNamed(fact.facts, "antenna"), "antenna");
  return arg && replaceArgument(file, arg, name);
}

/** A fixed mode and a range have words of their own, and only one of them may stand. */
function modesEdits(
  model: DesignModel,
  block: BlockInText,
  change: Extract<Change, { kind: "modes" }>,
): readonly (TextEdit | undefined)[] {
  const line = modesStatement(change);
  const stated = factNamed(block.fact.facts, "mode") ?? factNamed(block.fact.facts, "modes");
  if (stated) {
    const { start, end } = stated.statement;
    return [{ file: block.file, start, end, newText: line }];
  }
  return [insertLine(model, block, line.split(" ")[0]!, line)];
}
