import { bandwidth, decibels, trimmed } from "../../../shared/format/numbers.js";
import type { Proposal, Proposed } from "../../../shared/interference/choose/propose.js";
import { otherHalf } from "../../../shared/radio/halves.js";
import type { Paint } from "../streams.js";
import { beyondWords, boundWords, contradictionWords, NOT_PROPOSED } from "./open-channels-words.js";
import { safe } from "./safe.js";

export interface DesignProposal {
  readonly title?: string;
  readonly proposal: Proposal;
}

export interface OpenChannelsShown {
  readonly designs: readonly DesignProposal[];
  readonly paint: Paint;
}

/** For reading: a line a hop, then what is left, and how good it is. */
export function* openChannelsText({ designs, paint }: OpenChannelsShown): Iterable<string> {
  for (const [index, { title, proposal }] of designs.entries()) {
    if (index > 0) yield "\n";
    yield* ofDesign(title, proposal, paint);
  }
}

function* ofDesign(title: string | undefined, proposal: Proposal, paint: Paint): Iterable<string> {
  const { proposed, left, contradictions, beyond, beyondBefore, channels, spectrumHz } = proposal;
  const open = proposed.length + left.length;
  const head = title === undefined ? "" : `${title}: `;
  if (open + contradictions.length === 0) {
    yield `${safe(`${head}no hop lacks number, polarization or half`)}\n`;
    return;
  }
  yield `${paint("bold", safe(`${head}proposed for ${proposed.length} of ${open} ${open === 1 ? "hop" : "hops"} that lack number, polarization or half`))}\n`;
  if (proposed.length > 0) {
    yield "\n";
    yield* table(proposed, paint);
    yield "\nWhat is stated stands in brackets and is kept. Suffers: how much the hop's threshold rises, by all.\n";
  }
  if (left.length > 0) {
    yield `\n${paint("bold", "Not proposed")}\n`;
    for (const { hop, why } of left) yield `  ${safe(`${hop.name}: ${NOT_PROPOSED[why](hop)}`)}\n`;
  }
  if (contradictions.length > 0) {
    yield `\n${paint("bold", "Halves that contradict each other")}\n`;
    for (const words of contradictionWords(proposal)) yield `  ${safe(words)}\n`;
  }
  if (proposed.length === 0) return;
  yield "\n";
  if (beyond.length === 0)
    yield "No receiver passes what the network allows, 1 dB where it states nothing.\n";
  else {
    const before = beyondBefore === 0 ? "" : `, ${beyondBefore} of them did before, among what is kept`;
    yield `${beyond.length} ${beyond.length === 1 ? "receiver passes" : "receivers pass"} what the network allows, 1 dB where it states nothing${before}:\n`;
    for (const at of beyond.slice(0, BEYOND_TOLD)) yield `  ${safe(beyondWords(at))}\n`;
    if (beyond.length > BEYOND_TOLD) yield `  and ${beyond.length - BEYOND_TOLD} more\n`;
  }
  yield `All hops together take ${channels} ${channels === 1 ? "channel" : "channels"}, ${trimmed(spectrumHz / 1e6, 3)} MHz.\n`;
  for (const words of boundWords(proposal)) yield `${words}\n`;
}

/** So many receivers are named; the others are counted. */
const BEYOND_TOLD = 20;

const HEADS = ["hop", "channel", "polarization", "halves", "suffers"];

function* table(proposed: readonly Proposed[], paint: Paint): Iterable<string> {
  const rows = [HEADS, ...proposed.map(rowOf)];
  const widths = HEADS.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)));
  for (const [index, row] of rows.entries()) {
    const line = row.map((cell, column) =>
      column < HEADS.length - 1 ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!),
    );
    const text = safe(line.join("  ").trimEnd());
    yield `${index === 0 ? paint("bold", text) : text}\n`;
  }
}

function rowOf({ open, choice, polarization, suffersDb, isBeyond }: Proposed): string[] {
  const [a, b] = open.hop.ends;
  const first = a.transmits ?? (b.transmits && otherHalf(b.transmits));
  const [here, there] = [a.site.name, b.site.name];
  const halves =
    first === undefined
      ? ""
      : `${first === "high" ? here : there} high, ${first === "high" ? there : here} low`;
  const stated = (text: string, isOpen: boolean) => (isOpen ? text : `(${text})`);
  return [
    open.hop.name,
    stated(`${choice.plan} / ${bandwidth(choice.widthHz)} / ${choice.number}`, open.isNumberOpen),
    stated(polarization ?? "both", open.isPolarizationOpen),
    stated(halves, open.halves.size > 0),
    `${decibels(suffersDb)}${isBeyond ? " beyond" : ""}`,
  ];
}
