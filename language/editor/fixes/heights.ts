import type { ClearanceResult } from "../../../shared/evaluate/result.js";
import { trimmed } from "../../../shared/format/numbers.js";
import { findUnit } from "../../../shared/units/units.js";
import { argument, factNamed } from "../../facts/fact.js";
import type { DesignModel } from "../../model/design-model.js";
import { fromBase } from "../other-units.js";
import type { QuickFix, ToMend } from "../quick-fixes.js";
import type { TextEdit } from "../text-range.js";
import { type BlockInText, endInText, insertLine, replaceArgument } from "./edits.js";

/** Raises one antenna to the height that its rule names: the smaller raise first. */
export function clearHeights({ model, finding, judged }: ToMend): readonly QuickFix[] {
  if (!judged) return [];
  const { hop, result } = judged;
  const failing = result.clearance.filter((one) =>
    finding.rule === "clearance" ? !one.ok && !one.forInformation : !one.ok,
  );
  const raises = ([0, 1] as const).flatMap((index) => {
    const neededM = neededAtAll(failing, index);
    const nowM = hop.ends[index].antennaHeightM;
    return neededM === undefined || nowM === undefined || neededM <= nowM
      ? []
      : [{ index, neededM, raiseM: neededM - nowM }];
  });
  return raises
    .sort((a, b) => a.raiseM - b.raiseM)
    .flatMap(({ index, neededM }) =>
      heightFix(model, hop.name, hop.ends[index].site.name, neededM, "Raise", Math.ceil, finding.rule),
    );
}

export function lowerToStructure({ model, finding, judged }: ToMend): readonly QuickFix[] {
  const end = judged?.hop.ends.find(({ site }) => finding.at.includes(` / ${site.name} / `));
  const topM = end?.site.structure?.heightM;
  if (!judged || !end || topM === undefined) return [];
  return heightFix(model, judged.hop.name, end.site.name, topM, "Lower", Math.floor, finding.rule);
}

function neededAtAll(failing: readonly ClearanceResult[], end: 0 | 1): number | undefined {
  const needed = failing.map((one) => one.heightNeededM[end]);
  if (needed.length === 0 || needed.some((heightM) => heightM === undefined)) return undefined;
  return Math.max(...(needed as number[]));
}

function heightFix(
  model: DesignModel,
  hop: string,
  site: string,
  heightM: number,
  verb: "Raise" | "Lower",
  round: (value: number) => number,
  rule: string,
): readonly QuickFix[] {
  const end = endInText(model, hop, site);
  const found = end && heightEdit(model, end, heightM, round);
  if (!found) return [];
  return [
    {
      title: `${verb} the antenna at ${site} to ${found.written} (changes its height)`,
      edits: [found.edit],
      rule,
      changesDecision: true,
    },
  ];
}

/** The height in the unit that it is written in; where it came from the defaults, a line of its own. */
function heightEdit(
  model: DesignModel,
  end: BlockInText,
  heightM: number,
  round: (value: number) => number,
): { readonly edit: TextEdit; readonly written: string } | undefined {
  const stated =
    argument(factNamed(end.fact.facts, "antenna"), "at") ??
    argument(factNamed(end.fact.facts, "height"), "value");
  const written = heightText(heightM, stated?.value?.type === "quantity" ? stated.value.unit : "m", round);
  if (stated) return { edit: replaceArgument(end.file, stated, written), written };
  const antenna = factNamed(end.fact.facts, "antenna");
  const edit = antenna
    ? { file: end.file, start: antenna.statement.end, end: antenna.statement.end, newText: ` at ${written}` }
    : insertLine(model, end, "height", `height ${written}`);
  return edit && { edit, written };
}

/** To a tenth, rounded to the side that mends; kilometres and miles to about a tenth of a metre. */
function heightText(heightM: number, symbol: string, round: (value: number) => number): string {
  const unit = findUnit(symbol)!.unit;
  const digits = symbol === "km" || symbol === "mi" ? 4 : 1;
  const step = 10 ** digits;
  return `${trimmed(round(fromBase(unit, heightM) * step) / step, digits)} ${symbol}`;
}
