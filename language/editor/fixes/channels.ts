/** Channels that exist and the radio tunes, and widths that it has modes of: those nearest to what is written. */
import type { Hop } from "../../../shared/design/design.js";
import { bandwidth } from "../../../shared/format/numbers.js";
import { isWider } from "../../../shared/rules/mode-width.js";
import { type ChannelChoice, channelChoices, channelText } from "../../../shared/spectrum/channel-choices.js";
import { argument, type Fact, factNamed, numberOf, quantityOf, wordOf } from "../../facts/fact.js";
import type { QuickFix, TextToMend } from "./fix.js";

const MOST = 4;

export function otherChannel({ model, file, problem }: TextToMend): readonly QuickFix[] {
  const found = hopFactAt({ model, file, problem }, "channel");
  if (!found) return [];
  const { fact, hop } = found;
  const [plan, width, number] = ["plan", "width", "number"].map((name) => argument(fact, name));
  const planName = wordOf(fact, "plan") ?? "";
  const widthHz = quantityOf(fact, "width") ?? 0;
  const wanted = numberOf(fact, "number") ?? 0;
  if (!plan || !width || !number) return [];
  const of = (name?: string) => channelChoices(model.lookup.plans(), hop?.radio, name);
  const named = of(planName);
  const offWidth = (one: ChannelChoice) => Math.abs(Math.log(one.widthHz / widthHz));
  const offNumber = (one: ChannelChoice) => Math.abs(one.number - wanted);
  const widestHz = Math.max(0, ...(hop?.modes ?? []).map(({ bandwidthHz }) => bandwidthHz));
  const all = (named.length > 0 ? named : of())
    .filter((one) => !isWider(widestHz, one.widthHz))
    .toSorted((a, b) => offWidth(a) - offWidth(b) || offNumber(a) - offNumber(b));
  // The channel next to the one written, and the other widths and plans each with theirs.
  const first = new Set<string>();
  const chosen = all.filter((one) => {
    const key = offWidth(one) < 1e-6 && named.length > 0 ? channelText(one) : `${one.plan} ${one.widthHz}`;
    if (first.has(key)) return false;
    first.add(key);
    return true;
  });
  return chosen.slice(0, MOST).map((one) => ({
    title: `Take channel ${channelText(one)}`,
    edits: [{ file: file.path, start: plan.start, end: number.end, newText: channelText(one) }],
    rule: problem.rule,
    changesDecision: true,
  }));
}

/** Where the radio has no mode of the width: its widths with the same modulation, the nearest first. */
export function otherModeWidth(toMend: TextToMend): readonly QuickFix[] {
  const found = hopFactAt(toMend, "mode") ?? hopFactAt(toMend, "modes");
  const arg = argument(found?.fact, "bandwidth");
  const widthHz = quantityOf(found?.fact, "bandwidth");
  const radio = found?.hop?.radio;
  if (!arg || !radio || widthHz === undefined || toMend.problem.start !== arg.start) return [];
  const wanted = ["modulation", "lowest", "highest"].flatMap((name) => wordOf(found.fact, name) ?? []);
  const widths = [...new Set(radio.modes.map(({ bandwidthHz }) => bandwidthHz))].filter((hz) =>
    wanted.every((name) => radio.modes.some((mode) => mode.bandwidthHz === hz && mode.modulation === name)),
  );
  const off = (hz: number) => Math.abs(Math.log(hz / widthHz));
  return widths
    .toSorted((a, b) => off(a) - off(b))
    .slice(0, MOST)
    .map((hz) => ({
      title: `Write ${bandwidth(hz)}`,
      edits: [{ file: toMend.file.path, start: arg.start, end: arg.end, newText: bandwidth(hz) }],
      rule: toMend.problem.rule,
      changesDecision: true,
    }));
}

/** The fact of a hop that a problem stands in. */
function hopFactAt(
  { model, file, problem }: TextToMend,
  name: string,
): { readonly fact: Fact; readonly hop: Hop | undefined } | undefined {
  const within = ({ statement }: Fact) => statement.start <= problem.start && problem.start < statement.end;
  const entry = file.declarations.find(({ kind, fact }) => kind === "hop" && within(fact));
  const facts = entry?.fact.facts.filter((one) => one.property.name === name) ?? [];
  const fact = facts.find(within) ?? factNamed([], name);
  return entry && fact && { fact, hop: model.hop(entry.name)?.hop };
}
