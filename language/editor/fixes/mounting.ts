/** Fixes about how units are made and meet the antenna: mounting, sub-band, construction, channels. */
import type { Hop, HopEnd } from "../../../shared/design/design.js";
import { frequenciesOf, holds } from "../../../shared/equipment/sub-band.js";
import { arrangementByName } from "../../../shared/radio/arrangements.js";
import { argument, factNamed, factsNamed } from "../../facts/fact.js";
import type { DesignModel } from "../../model/design-model.js";
import type { TextEdit } from "../text-range.js";
import { type BlockInText, endInText, hopInText, removeFact, replaceArgument, stateFact } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";

/** The sub-bands that hold the hop's frequencies, in place of the stated one. */
export function otherSubBand(toMend: ToMend): readonly QuickFix[] {
  const here = endAt(toMend);
  const arg = here && argument(factNamed(here.block.fact.facts, "unit-sub-band"), "name");
  const frequencies = here && frequenciesOf(here.hop);
  if (!here || !arg || !frequencies) return [];
  const fitting = (here.hop.radio?.unit?.subBands ?? []).filter((one) => holds(one, frequencies));
  return fitting.map(({ name }) =>
    decision(toMend, `Take sub-band ${name} at ${here.site} (changes the units ordered)`, [
      replaceArgument(here.block.file, arg, name),
    ]),
  );
}

/** The arrangement of the same words with the construction of the radio in front. */
export function arrangementOfRadio(toMend: ToMend): readonly QuickFix[] {
  const hop = toMend.judged?.hop;
  const built = hop?.radio?.unit?.construction;
  if (!hop || built === undefined) return [];
  const bare = hop.arrangement.name.replace(/^all-(outdoor|indoor) /, "");
  return takeArrangement(toMend, hop, built === "split-mount" ? bare : `${built} ${bare}`);
}

/** A channel for each polarization in place of both on one. */
export function withoutXpic(toMend: ToMend): readonly QuickFix[] {
  const hop = toMend.judged?.hop;
  return hop
    ? takeArrangement(toMend, hop, hop.arrangement.name.replace(/ xpic$/, " dual-polarization"))
    : [];
}

/** Takes away a channel that is one too many or stands there twice. */
export function removeChannel(toMend: ToMend): readonly QuickFix[] {
  const { model, judged, finding } = toMend;
  const hop = judged && hopInText(model, judged.hop.name);
  const index = Number(/channel#(\d+)$/.exec(finding.at)?.[1] ?? 0);
  const fact = hop && index > 0 ? factsNamed(hop.fact.facts, "channel")[index] : undefined;
  const edit = hop && fact && removeFact(model, hop.file, fact);
  return edit ? [decision(toMend, "Remove this channel", [edit])] : [];
}

function takeArrangement(toMend: ToMend, hop: Hop, name: string): readonly QuickFix[] {
  const block = hopInText(toMend.model, hop.name);
  if (!block || name === hop.arrangement.name || !arrangementByName(name)) return [];
  const edit = stateFact(toMend.model, block, "arrangement", `arrangement ${name}`);
  return edit ? [decision(toMend, `Take arrangement ${name}`, [edit])] : [];
}

export function decision({ finding }: ToMend, title: string, edits: readonly TextEdit[]): QuickFix {
  return { title, edits, rule: finding.rule, changesDecision: true };
}

export interface EndHere {
  readonly hop: Hop;
  readonly end: HopEnd;
  readonly site: string;
  readonly block: BlockInText;
}

/** The end that the finding's address names, resolved and in the text. */
export function endAt({ model, judged, finding }: ToMend): EndHere | undefined {
  const site = finding.at.split(" / ")[1];
  const end = judged?.hop.ends.find((one) => one.site.name === site);
  const block = judged && end && endInText(model, judged.hop.name, end.site.name);
  return block && { hop: judged.hop, end, site: end.site.name, block };
}

/** Changes the word where it stands: with the coupler, or by itself; where the defaults have it, a line of its own. */
export function mountingEdit(
  model: DesignModel,
  block: BlockInText,
  end: HopEnd,
  mounting: "direct" | "separate",
): TextEdit | undefined {
  const { file, fact } = block;
  if (end.mounting === undefined)
    return end.installation?.mounting === undefined
      ? undefined
      : stateFact(model, block, "mounting", `mounting ${mounting}`);
  const arg = argument(factNamed(fact.facts, "coupler"), "mounting");
  return arg && replaceArgument(file, arg, mounting);
}
