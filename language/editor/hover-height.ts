/** Of a height that an antenna hangs at: what clears there, what would be enough, and how much structure is left. */
import type { HopEnd } from "../../shared/design/design.js";
import { antennasStated } from "../../shared/equipment/stands.js";
import type { ClearanceResult } from "../../shared/evaluate/account/path-result.js";
import { fresnelAsked, kFactor, kilometres, metres } from "../../shared/format/numbers.js";
import { clearanceAgainst } from "../../shared/report/clearance-against.js";
import type { Argument, Fact } from "../facts/fact.js";
import { wordOf } from "../facts/fact.js";
import { declaredName } from "../model/source-file.js";
import { END } from "../schema/index.js";
import type { JudgedHop, Results } from "./results.js";
import type { FactAt } from "./walk.js";

/** @returns undefined where the value is no such height, or nothing is judged yet */
export function heightText({ fact, path }: FactAt, arg: Argument, results: Results): string | undefined {
  const end = path.at(-1);
  const hop = path.find((one) => one.context === "hop");
  if (end?.property !== END || hop === undefined || !isHeight(fact, arg)) return undefined;
  const judged = results(declaredName(hop) ?? "");
  const site = wordOf(end, "site");
  const index = judged?.hop.ends.findIndex((one) => one.site.name === site) ?? -1;
  if (!judged || index < 0) return undefined;
  const stated = fact.property.name === "height" ? "antenna" : fact.property.name;
  const lines = [
    ...clearanceLines(judged, index as 0 | 1, stated),
    ...structureLine(judged.hop.ends[index]!, stated),
  ];
  return lines.length === 0 ? undefined : lines.map((line) => `- ${line}`).join("\n");
}

function isHeight({ property }: Fact, { spec }: Argument): boolean {
  return property.name === "height" || (property.name.endsWith("antenna") && spec.label === "at");
}

function clearanceLines({ hop, result }: JudgedHop, end: 0 | 1, fact: string): string[] {
  const which = antennasStated(hop.ends[end]).findIndex((stand) => stand.fact === fact) + 1;
  const rays =
    which === 1
      ? [result.clearance]
      : (result.furtherPaths ?? [])
          .filter(({ antennas }) => antennas[end] === which)
          .map(({ clearance }) => clearance);
  return rays.flat().map((one) => clearanceLine(one, end));
}

const SAID = { met: "met", missed: "missed", open: "open: some ground is not known" } as const;

function clearanceLine(one: ClearanceResult, end: 0 | 1): string {
  const at = `${kilometres(one.distanceM)} with ${kFactor(one.kFactor)}`;
  const least = one.heightNeededM[end];
  const asked = one.forInformation
    ? ""
    : `, asked ${fresnelAsked(one.requiredFraction)}: ${SAID[one.verdict]}`;
  const enough =
    one.forInformation || least === undefined
      ? ""
      : `; ${metres(Math.ceil(least * 10) / 10)} here ${one.verdict === "missed" ? "would be" : "are"} enough`;
  return `clears ${clearanceAgainst(one)} at ${at}${asked}${enough}`;
}

function structureLine(end: HopEnd, fact: string): string[] {
  const { structure } = end.site;
  const heightM = antennasStated(end).find((stand) => stand.fact === fact)?.heightM;
  if (structure === undefined || heightM === undefined) return [];
  const left = structure.heightM - heightM;
  const where = left >= 0 ? `${metres(left)} above it` : `${metres(-left)} below it`;
  return [`${structure.kind} of ${metres(structure.heightM)}: the top is ${where}`];
}
