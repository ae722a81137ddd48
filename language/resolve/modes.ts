/** Which modes of the radio a hop uses: a fixed one, an adaptive range, or all that fit the channel. */
import type { Radio, RadioMode } from "../../shared/design/catalogue.js";
import { nearest } from "../../shared/format/nearest.js";
import { bandwidth } from "../../shared/format/numbers.js";
import { argument, type Fact, factNamed, quantityOf, type TextProblem, wordOf } from "../facts/fact.js";
import { type Declaration, nameRange } from "../model/source-file.js";

export function modesOf(
  entry: Declaration,
  facts: readonly Fact[],
  radio: Radio | undefined,
  channelWidthHz: number | undefined,
  report: (problem: TextProblem) => void,
): readonly RadioMode[] {
  if (!radio) return [];
  const fixed = factNamed(facts, "mode");
  const range = factNamed(facts, "modes");
  const stated = fixed ?? range;
  const widthHz = stated ? quantityOf(stated, "bandwidth") : channelWidthHz;
  if (widthHz === undefined) return [];
  const choices = radio.modes.filter((mode) => Math.abs(mode.bandwidthHz - widthHz) < 1000).sort(byRate);
  const complain = (fact: Fact, name: string, message: string, meant?: string) => {
    const arg = entry.fact.facts.includes(fact) ? argument(fact, name) : undefined;
    const at = arg ?? nameRange(entry);
    const fixes =
      meant && arg ? [{ title: `Write ${meant}`, start: arg.start, end: arg.end, newText: meant }] : [];
    report({ rule: "unknown-mode", severity: "error", start: at.start, end: at.end, message, fixes });
  };
  if (stated && choices.length === 0) {
    const widths = [...new Set(radio.modes.map((mode) => bandwidth(mode.bandwidthHz)))];
    complain(
      stated,
      "bandwidth",
      `${radio.name} has no mode of ${bandwidth(widthHz)}; it has ${widths.join(", ") || "none"}`,
    );
    return [];
  }
  const indexOf = (fact: Fact, name: string): number | undefined => {
    const word = wordOf(fact, name);
    if (word === undefined) return undefined;
    const at = choices.findIndex((mode) => mode.modulation === word);
    if (at >= 0) return at;
    const names = choices.map((mode) => mode.modulation);
    const meant = nearest(word, names);
    const hint = meant ? `did you mean ${meant}? It has` : "it has";
    complain(
      fact,
      name,
      `${radio.name} has no mode ${word} at ${bandwidth(widthHz)}; ${hint} ${names.join(", ")}`,
      meant,
    );
    return undefined;
  };
  if (fixed) {
    const at = indexOf(fixed, "modulation");
    return at === undefined ? [] : [choices[at]!];
  }
  if (range) {
    const lowest = indexOf(range, "lowest");
    const highest = indexOf(range, "highest");
    if (lowest === undefined || highest === undefined) return [];
    return choices.slice(Math.min(lowest, highest), Math.max(lowest, highest) + 1);
  }
  return choices;
}

/** Lowest rate first; catalogue order where rates are not stated. */
function byRate(a: RadioMode, b: RadioMode): number {
  return (a.bitRateBps ?? 0) - (b.bitRateBps ?? 0);
}
