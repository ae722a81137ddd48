/** Fixes about antennas beside the first: the one that is missing, the one too many, the one under another's word. */

import {
  antennasStated,
  FURTHER,
  joiningOf,
  type Stand,
  standsOf,
} from "../../../shared/equipment/stands.js";
import { trimmed } from "../../../shared/format/numbers.js";
import { arrangementByName } from "../../../shared/radio/arrangements.js";
import { argument, factNamed } from "../../facts/fact.js";
import type { TextEdit } from "../text-range.js";
import { insertLine, removeFact } from "./edits.js";
import { couplersFor } from "./equipment.js";
import type { QuickFix, ToMend } from "./fix.js";
import { decision, endAt } from "./mounting.js";

/** Room for brackets and movement between two antennas, m. Common practice. */
const ROOM_M = 0.5;

/** The antenna under the word that its arrangement has for it, else one more like the last, with its coupler. */
export function addAntenna(toMend: ToMend): readonly QuickFix[] {
  const here = endAt(toMend);
  const facts = here && arrangementByName(here.hop.arrangement.name);
  if (!here || !facts) return [];
  const stands = standsOf(here.end, facts);
  const last = stands.findLast(({ antenna }) => antenna !== undefined);
  const place = FURTHER[stands.length - 1];
  const { left } = joiningOf(stands, facts);
  if (last?.antenna === undefined || last.heightM === undefined || place === undefined)
    return [...renameAntenna(toMend), ...couplerWithMore(toMend)];
  const word = facts.spaceDiversity ? "diversity-antenna" : `${place}-antenna`;
  const coupler = left > 1 || facts.coupler === undefined ? last.coupler : undefined;
  const spacingM = (last.antenna.diameterM ?? 0) + ROOM_M;
  const fixes = [last.heightM - spacingM, last.heightM + spacingM].flatMap((heightM): QuickFix[] => {
    if (heightM <= (last.antenna!.diameterM ?? 0) / 2) return [];
    const antenna = insertLine(
      toMend.model,
      here.block,
      word,
      `${word} ${last.antenna!.name} at ${trimmed(heightM, 1)} m`,
    );
    const mounting = last.mounting === undefined ? "" : ` ${last.mounting}`;
    const joined =
      coupler && !facts.spaceDiversity
        ? insertLine(
            toMend.model,
            here.block,
            `${place}-coupler`,
            `${place}-coupler ${coupler.name}${mounting}`,
          )
        : undefined;
    const edits = [antenna, joined].filter((edit): edit is TextEdit => edit !== undefined);
    const with_ = joined === undefined ? "" : ` with ${coupler!.name}`;
    const title = `Add ${last.antenna!.name}${with_} at ${trimmed(heightM, 1)} m at ${here.site} (changes the equipment)`;
    return antenna === undefined ? [] : [decision(toMend, title, together(edits))];
  });
  return [...renameAntenna(toMend), ...couplerWithMore(toMend), ...fixes];
}

/** Two lines that go to one place are one edit, in their order. */
function together(edits: readonly TextEdit[]): readonly TextEdit[] {
  const [first, second] = edits;
  if (first === undefined || second === undefined || first.start !== second.start) return edits;
  return [{ ...first, newText: first.newText + second.newText }];
}

/** `diversity-antenna` where the arrangement has a second one without diversity, and the other way round. */
function renameAntenna(toMend: ToMend): readonly QuickFix[] {
  const here = endAt(toMend);
  const facts = here && arrangementByName(here.hop.arrangement.name);
  if (!here || !facts || facts.antennas < 2) return [];
  const [was, is] = facts.spaceDiversity
    ? ["second-antenna", "diversity-antenna"]
    : ["diversity-antenna", "second-antenna"];
  const [wrong, right] = [was, is].map((name) => factNamed(here.block.fact.facts, name));
  const word = wrong?.statement.atoms[0];
  if (word === undefined || right !== undefined) return [];
  const edit = { file: here.block.file, start: word.start, end: word.end, newText: is! };
  return [decision(toMend, `Write ${is} in place of ${was} at ${here.site}`, [edit])];
}

/** A coupler that joins all units of its antenna in place of one for two. */
function couplerWithMore(toMend: ToMend): readonly QuickFix[] {
  const here = endAt(toMend);
  const facts = here && arrangementByName(here.hop.arrangement.name);
  if (!here || !facts || !toMend.judged) return [];
  const small = standsOf(here.end, facts).find(
    ({ coupler }) => coupler?.kind !== undefined && coupler.kind !== facts.coupler,
  );
  const arg = small && argument(factNamed(here.block.fact.facts, small.couplerFact), "coupler");
  if (!arg) return [];
  return couplersFor(toMend.model, toMend.judged)
    .filter(({ kind }) => kind === facts.coupler)
    .map(({ name }) =>
      decision(toMend, `Take coupler ${name} at ${here.site} (changes the equipment)`, [
        { file: here.block.file, start: arg.start, end: arg.end, newText: name },
      ]),
    );
}

/** The antenna that the finding is about, and what joins units to it. */
export function removeAntenna(toMend: ToMend): readonly QuickFix[] {
  const here = endAt(toMend);
  const stand = here && standIn(toMend, antennasStated(here.end));
  if (!here || !stand) return [];
  const edits = [stand.fact, stand.couplerFact].flatMap((name) => {
    const fact = name === "coupler" ? undefined : factNamed(here.block.fact.facts, name);
    return (fact && removeFact(toMend.model, here.block.file, fact)) ?? [];
  });
  const title = `Remove the ${stand.fact.replace("-", " ")} at ${here.site} (changes the equipment)`;
  return edits.length === 0
    ? renameAntenna(toMend)
    : [...renameAntenna(toMend), decision(toMend, title, edits)];
}

function standIn({ finding }: ToMend, stands: readonly Stand[]): Stand | undefined {
  const fact = finding.at.split(" / ")[2];
  return stands.find((one) => one.fact === fact);
}
