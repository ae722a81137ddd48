/** Heights of antennas, raised or lowered: written and rounded in the unit that they stand in, which no design knows. */
import type { ClearanceResult } from "../../../shared/evaluate/account/path-result.js";
import { trimmed } from "../../../shared/format/numbers.js";
import { raisesOf, rayFault } from "../../../shared/rules/ray-fault.js";
import { findUnit } from "../../../shared/units/units.js";
import { argument, factNamed } from "../../facts/fact.js";
import type { DesignModel } from "../../model/design-model.js";
import { fromBase } from "../other-units.js";
import type { TextEdit } from "../text-range.js";
import { type BlockInText, endInText, insertLine, replaceArgument } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";

/** Raises one antenna to the height that its rule names: the smaller raise first. */
export function clearHeights({ model, finding, judged }: ToMend): readonly QuickFix[] {
  if (!judged) return [];
  const { hop, result } = judged;
  const failing = result.clearance.filter(
    (one) => one.verdict === "missed" && !(finding.rule === "clearance" && one.forInformation),
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

/** Raises a further antenna of the ray that the finding is about: the smaller raise first. */
export function clearFurtherHeight({ model, finding, judged }: ToMend): readonly QuickFix[] {
  if (!judged) return [];
  const { hop, result } = judged;
  return (result.furtherPaths ?? [])
    .filter((path) => rayFault(hop, path)?.at === finding.at)
    .flatMap((path) => raisesOf(hop, path))
    .flatMap(({ end, fact, neededM }) =>
      heightFix(model, hop.name, hop.ends[end].site.name, neededM, "Raise", Math.ceil, finding.rule, fact),
    );
}

export function lowerToStructure({ model, finding, judged }: ToMend): readonly QuickFix[] {
  const end = judged?.hop.ends.find(({ site }) => finding.at.includes(` / ${site.name} / `));
  const topM = end?.site.structure?.heightM;
  if (!judged || !end || topM === undefined) return [];
  const which = /([a-z]+-antenna)\.at$/.exec(finding.at)?.[1] ?? "antenna";
  return heightFix(model, judged.hop.name, end.site.name, topM, "Lower", Math.floor, finding.rule, which);
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
  which = "antenna",
): readonly QuickFix[] {
  const end = endInText(model, hop, site);
  const found = end && heightEdit(model, end, heightM, round, which);
  if (!found) return [];
  return [
    {
      title: `${verb} the ${which.replace("-", " ")} at ${site} to ${found.written} (changes its height)`,
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
  which: string,
): { readonly edit: TextEdit; readonly written: string } | undefined {
  const antenna = factNamed(end.fact.facts, which);
  const height = which === "antenna" ? factNamed(end.fact.facts, "height") : undefined;
  const stated = argument(antenna, "at") ?? argument(height, "value");
  const written = heightText(heightM, stated?.value?.type === "quantity" ? stated.value.unit : "m", round);
  if (stated) return { edit: replaceArgument(end.file, stated, written), written };
  if (!antenna && which !== "antenna") return undefined;
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
