/** Positions as they were meant, where a slip of the pen is suspected: in the signs that they are written with, which no design knows. */
import type { Position } from "../../../shared/design/design.js";
import { mendingsOf } from "../../../shared/rules/position-slips.js";
import { argument, factNamed } from "../../facts/fact.js";
import type { DesignModel } from "../../model/design-model.js";
import { decimalText } from "../position-text.js";
import { replaceArgument } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";

/** At the site of the finding, or at either end of its hop: what brings it within a usual hop of all its far ends. */
export function mendPosition({ model, finding, judged }: ToMend): readonly QuickFix[] {
  const design = model.design();
  const places = [finding.at, ...(finding.related ?? []).map(({ at }) => at ?? "")];
  const named = places.flatMap((at) => /^site (.*?)(?: \/ |$)/.exec(at)?.[1] ?? []);
  const sites = judged ? judged.hop.ends.map(({ site }) => site.name) : named;
  return mendingsOf(design, sites).flatMap(({ site, slip, mended }) =>
    positionFix(model, site.name, site.position!, mended, slip.said, finding.rule),
  );
}

function positionFix(
  model: DesignModel,
  site: string,
  stated: Position,
  mended: Position,
  said: string,
  rule: string,
): readonly QuickFix[] {
  const entry = model.standing(`site ${site}`)[0];
  const arg = argument(factNamed(entry?.fact.facts ?? [], "at"), "position");
  const text = entry && arg && model.file(entry.file)?.text.slice(arg.start, arg.end);
  if (!entry || !arg || text === undefined) return [];
  const written = asWritten(text, stated, mended);
  return [
    {
      title: `Write the position of ${site} as ${written}: ${said} (changes its position)`,
      edits: [replaceArgument(entry.file, arg, written)],
      rule,
      changesDecision: true,
    },
  ];
}

/** The same two angles with their digits as they stand, in the other order or with the other sign or letter. */
function asWritten(text: string, stated: Position, mended: Position): string {
  const angles = text.trim().split(/\s+/);
  const [first, second] = angles;
  if (first === undefined || second === undefined || angles.length > 2) return decimalText(mended);
  const swaps = Math.abs(mended.latitudeDeg) !== Math.abs(stated.latitudeDeg);
  const [latitude, longitude] = swaps ? [second, first] : [first, second];
  return `${angle(latitude, mended.latitudeDeg, ["N", "S"])} ${angle(longitude, mended.longitudeDeg, ["E", "W"])}`;
}

function angle(text: string, meant: number, [positive, negative]: readonly [string, string]): string {
  const digits = text.replace(/^[-+]|[NSEW]/gi, "");
  const hasLetter = /[NSEW]/i.test(text);
  const letter = meant < 0 ? negative : positive;
  if (hasLetter) return /^[NSEW]/i.test(text) ? `${letter}${digits}` : `${digits}${letter}`;
  return meant < 0 ? `-${digits}` : digits;
}
