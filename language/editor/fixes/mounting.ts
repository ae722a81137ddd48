/** Fixes about how units meet the antenna and how they are made: mounting, waveguide, sub-band, construction, channels. */
import type { Feeder, Hop, HopEnd } from "../../../shared/design/design.js";
import { frequenciesOf, holds } from "../../../shared/equipment/sub-band.js";
import { waveguideSize } from "../../../shared/equipment/waveguide.js";
import { arrangementByName } from "../../../shared/radio/arrangements.js";
import { argument, factNamed, factsNamed } from "../../facts/fact.js";
import type { DesignModel } from "../../model/design-model.js";
import type { QuickFix, ToMend } from "../quick-fixes.js";
import type { TextEdit } from "../text-range.js";
import {
  type BlockInText,
  endInText,
  hopInText,
  insertLine,
  removeFact,
  replaceArgument,
  stateFact,
} from "./edits.js";

/** A usual length of the flexible piece between a unit on the pole and its antenna. Common practice. */
const USUAL_PIECE = "0.9 m";

/** A flexible waveguide for the hop's frequencies, or mounting without one. */
export function addWaveguide(toMend: ToMend): readonly QuickFix[] {
  const here = endAt(toMend);
  if (!here) return [];
  const pieces = piecesFor(toMend.model, here.hop).flatMap(({ name }): QuickFix[] => {
    const edit = insertLine(toMend.model, here.block, "feeder", `feeder ${name} length ${USUAL_PIECE}`);
    const title = `Add waveguide ${name}, ${USUAL_PIECE}, at ${here.site} (changes the equipment)`;
    return edit ? [decision(toMend, title, [edit])] : [];
  });
  const direct = mountingEdit(here.block, here.end, "direct");
  return direct
    ? [...pieces, decision(toMend, `Mount directly on the antenna at ${here.site}`, [direct])]
    : pieces;
}

/** Separate mounting, with the waveguide that it needs where none is stated. */
export function mountSeparately(toMend: ToMend): readonly QuickFix[] {
  const here = endAt(toMend);
  const mounting = here && mountingEdit(here.block, here.end, "separate");
  if (!here || !mounting) return [];
  const title = `Mount separately from the antenna at ${here.site}`;
  if (here.end.feeder) return [decision(toMend, title, [mounting])];
  return piecesFor(toMend.model, here.hop).flatMap(({ name }): QuickFix[] => {
    const line = insertLine(toMend.model, here.block, "feeder", `feeder ${name} length ${USUAL_PIECE}`);
    return line
      ? [decision(toMend, `${title}, with waveguide ${name}, ${USUAL_PIECE}`, [mounting, line])]
      : [];
  });
}

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

function decision({ finding }: ToMend, title: string, edits: readonly TextEdit[]): QuickFix {
  return { title, edits, rule: finding.rule, changesDecision: true };
}

interface EndHere {
  readonly hop: Hop;
  readonly end: HopEnd;
  readonly site: string;
  readonly block: BlockInText;
}

/** The end that the finding's address names, resolved and in the text. */
function endAt({ model, judged, finding }: ToMend): EndHere | undefined {
  const site = finding.at.split(" / ")[1];
  const end = judged?.hop.ends.find((one) => one.site.name === site);
  const block = judged && end && endInText(model, judged.hop.name, end.site.name);
  return block && { hop: judged.hop, end, site: end.site.name, block };
}

/** Changes the word where it stands: with the coupler, or by itself. */
function mountingEdit(
  { file, fact }: BlockInText,
  end: HopEnd,
  mounting: "direct" | "separate",
): TextEdit | undefined {
  const arg =
    end.mounting === undefined
      ? argument(factNamed(fact.facts, "mounting"), "value")
      : argument(factNamed(fact.facts, "coupler"), "mounting");
  return arg && replaceArgument(file, arg, mounting);
}

/** Radio bands begin beside the usual bands of guides: 17.7 GHz goes through one that is named from 18 GHz on. */
const EDGE = 0.02;

/** Flexible waveguides whose band, or that of their guide, holds the hop's frequencies. */
function piecesFor(model: DesignModel, hop: Hop): Feeder[] {
  const frequencies = hop.ends.flatMap((end) => end.transmitFrequencyHz ?? []);
  return model.names("feeder").flatMap((name) => {
    const feeder = model.declarations(`feeder ${name}`)[0]?.template ? undefined : model.lookup.feeder(name);
    const band =
      feeder?.band ?? (feeder?.guide === undefined ? undefined : waveguideSize(feeder.guide)?.band);
    const suits =
      feeder?.kind === "flexible" &&
      band !== undefined &&
      frequencies.every((hz) => band.fromHz * (1 - EDGE) <= hz && hz <= band.toHz * (1 + EDGE));
    return suits ? [feeder] : [];
  });
}
