/** Fixes about what leads from the units to the antenna: flexible pieces, long lines, neither. */
import type { Feeder, Hop, HopEnd } from "../../../shared/design/design.js";
import type { FrequencyRange } from "../../../shared/design/frequency-range.js";
import { isAllIndoor } from "../../../shared/equipment/mounting.js";
import { antennasStated } from "../../../shared/equipment/stands.js";
import { waveguideSize } from "../../../shared/equipment/waveguide.js";
import { argument, factNamed } from "../../facts/fact.js";
import type { DesignModel } from "../../model/design-model.js";
import type { TextEdit } from "../text-range.js";
import { type BlockInText, insertLine, removeFact, replaceArgument } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";
import { decision, endAt, mountingEdit } from "./mounting.js";

/** A usual length of the flexible piece between a unit on the pole and its antenna. Common practice. */
const USUAL_PIECE = "0.9 m";

/** A flexible waveguide for the hop's frequencies, or mounting without one; of an all-indoor radio the long line. */
export function addWaveguide(toMend: ToMend): readonly QuickFix[] {
  const here = endAt(toMend);
  if (!here) return [];
  const indoors = isAllIndoor(here.hop);
  const [length, remark] = indoors
    ? [reachOf(here.end), " (as the antenna is high; changes the equipment)"]
    : [USUAL_PIECE, " (changes the equipment)"];
  const pieces = feedersFor(toMend.model, here.hop, indoors).flatMap(({ name }): QuickFix[] => {
    const edit = insertLine(toMend.model, here.block, "feeder", `feeder ${name} length ${length}`);
    const title = `Add waveguide ${name}, ${length}, at ${here.site}${remark}`;
    return edit ? [decision(toMend, title, [edit])] : [];
  });
  const direct = indoors ? undefined : mountingEdit(toMend.model, here.block, here.end, "direct");
  return direct
    ? [...pieces, decision(toMend, `Mount directly on the antenna at ${here.site}`, [direct])]
    : pieces;
}

/** A usual piece of the first flexible waveguide that suits the hop. */
export function pieceEdit(
  model: DesignModel,
  hop: Hop,
  block: BlockInText,
): { readonly words: string; readonly edit: TextEdit } | undefined {
  const name = feedersFor(model, hop, false)[0]?.name;
  const edit = name && insertLine(model, block, "feeder", `feeder ${name} length ${USUAL_PIECE}`);
  return edit ? { words: `${name}, ${USUAL_PIECE},`, edit } : undefined;
}

/** Separate mounting, with the waveguide that it needs where none is stated. */
export function mountSeparately(toMend: ToMend): readonly QuickFix[] {
  const here = endAt(toMend);
  const mounting = here && mountingEdit(toMend.model, here.block, here.end, "separate");
  if (!here || !mounting) return [];
  const title = `Mount separately from the antenna at ${here.site}`;
  if (here.end.feeder) return [decision(toMend, title, [mounting])];
  return feedersFor(toMend.model, here.hop, false).flatMap(({ name }): QuickFix[] => {
    const line = insertLine(toMend.model, here.block, "feeder", `feeder ${name} length ${USUAL_PIECE}`);
    return line
      ? [decision(toMend, `${title}, with waveguide ${name}, ${USUAL_PIECE}`, [mounting, line])]
      : [];
  });
}

/** As long as the antenna is high, at least. */
export function lengthenFeeder(toMend: ToMend): readonly QuickFix[] {
  const here = endAt(toMend);
  const arg = here && argument(factNamed(here.block.fact.facts, "feeder"), "length");
  if (!here || !arg) return [];
  const length = reachOf(here.end);
  const title = `Take ${length} of feeder at ${here.site}, as the antenna is high (changes the equipment)`;
  return [decision(toMend, title, [replaceArgument(here.block.file, arg, length)])];
}

/** A usual piece in place of a long one. */
export function shortenPiece(toMend: ToMend): readonly QuickFix[] {
  const here = endAt(toMend);
  const arg = here && argument(factNamed(here.block.fact.facts, "feeder"), "length");
  if (!here || !arg) return [];
  const title = `Take a piece of ${USUAL_PIECE} at ${here.site} (changes the equipment)`;
  return [decision(toMend, title, [replaceArgument(here.block.file, arg, USUAL_PIECE)])];
}

/** One of the two that contradict each other. */
export function directOrFeeder(toMend: ToMend): readonly QuickFix[] {
  const here = endAt(toMend);
  const fact = here && factNamed(here.block.fact.facts, "feeder");
  const without = here && fact && removeFact(toMend.model, here.block.file, fact);
  const separate = here && mountingEdit(toMend.model, here.block, here.end, "separate");
  return [
    ...(separate ? [decision(toMend, `Mount separately from the antenna at ${here.site}`, [separate])] : []),
    ...(without
      ? [decision(toMend, `Remove the feeder at ${here.site} (changes the equipment)`, [without])]
      : []),
  ];
}

/** Whole metres up to the highest antenna of the end. */
function reachOf(end: HopEnd): string {
  return `${Math.max(1, ...antennasStated(end).map(({ heightM = 0 }) => Math.ceil(heightM)))} m`;
}

/** Radio bands begin beside the usual bands of guides: 17.7 GHz goes through one that is named from 18 GHz on. */
const EDGE = 0.02;

/**
 * Feeders whose band, or that of their guide, or of the points of their loss, holds the hop's frequencies.
 * @param long lines to a radio indoors; else flexible pieces
 */
function feedersFor(model: DesignModel, hop: Hop, long: boolean): Feeder[] {
  const frequencies = hop.ends.flatMap((end) => end.transmitFrequencyHz ?? []);
  return model.names("feeder").flatMap((name) => {
    const feeder = model.declarations(`feeder ${name}`)[0]?.template ? undefined : model.lookup.feeder(name);
    const band = feeder && bandOf(feeder);
    const suits =
      band !== undefined &&
      (long ? LONG_KINDS.includes(feeder!.kind ?? "") : feeder!.kind === "flexible") &&
      frequencies.every((hz) => band.fromHz * (1 - EDGE) <= hz && hz <= band.toHz * (1 + EDGE));
    return suits ? [feeder!] : [];
  });
}

const LONG_KINDS: readonly string[] = ["elliptical", "rectangular"];

function bandOf({ band, guide, loss }: Feeder): FrequencyRange | undefined {
  if (band !== undefined) return band;
  const ofGuide = guide === undefined ? undefined : waveguideSize(guide)?.band;
  const points = loss.flatMap(({ frequencyHz }) => frequencyHz ?? []);
  if (ofGuide !== undefined || points.length < 2) return ofGuide;
  return { fromHz: points[0]!, toHz: points.at(-1)! };
}
