/** A hop in one look, as markdown: the level diagram of both directions, then what is found and the rest. */

import type { Hop } from "../../shared/design/design.js";
import type { Verdict } from "../../shared/evaluate/account/outage-result.js";
import type { EndGeometry } from "../../shared/evaluate/account/path-result.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { lowestJudged } from "../../shared/evaluate/level/judged-mode.js";
import { rainShare } from "../../shared/evaluate/outage/shares.js";
import { takesMost } from "../../shared/evaluate/outage/takes-most.js";
import { withinReason } from "../../shared/evaluate/reason.js";
import { availabilityBounded, ESTIMATE_REMARK, yearlyBounded } from "../../shared/format/bounds.js";
import * as write from "../../shared/format/numbers.js";
import { arrangementWords } from "../../shared/radio/arrangement-pairs.js";
import { carrierTables, severalUnits } from "../../shared/report/carriers.js";
import { clearanceAgainst } from "../../shared/report/clearance-against.js";
import { levelTables, modeTables, type Table } from "../../shared/report/level-diagram.js";
import { criteriaOf } from "../../shared/rules/asked.js";
import { inputLine, inputShown } from "../../shared/words/inputs.js";
import { lackSentence } from "../../shared/words/lacks.js";
import { shown } from "../../shared/words/message.js";
import { noteMessage } from "../../shared/words/notes.js";
import { interferenceText } from "./hover-interference.js";
import { escapeMarkdown } from "./markdown.js";
import type { JudgedHop } from "./results.js";

export function hopReport({ hop, result, findings, interference = [] }: JudgedHop): string {
  const sections = [
    verdictText(hop, result),
    findingsList(findings),
    result.distanceM === undefined
      ? undefined
      : `${result.ends.join(" to ")}, **${write.kilometres(result.distanceM)}**, ${arrangementWords(hop)}`,
    ...levelTables(result, interference).map(tableText),
    interferenceText(interference),
    ...(severalUnits(result) ? carrierTables(hop, result) : []).map(tableText),
    availabilityText(result),
    clearanceTable(result),
    ...modeTables(result).map((one) => tableText({ ...one, title: `Modes, ${one.title}` })),
    geometryTable(result),
    list("Worked from", inputLines(result)),
    list(
      "Not computed",
      result.missing.map((lack) => shown(lackSentence(lack))),
    ),
    list(
      "Remarks",
      result.notes.map((one) => shown(noteMessage(one))),
    ),
  ];
  return sections.filter((section) => section !== undefined).join("\n\n");
}

/** What is missed comes before what nobody knows, and that before what is met. */
function verdictText(hop: Hop, result: HopResult): string {
  const { objective } = hop;
  if (objective === undefined) return "**Not judged**: the hop has no objective.";
  const criteria = criteriaOf(hop, withinReason(hop).hop, result);
  if (criteria.length === 0) return `**Not judged**: objective ${objective.name} asks nothing of it.`;
  const parts = (["missed", "open", "met"] as const).flatMap((verdict) => {
    const names = criteria.filter((one) => one.verdict === verdict).map(({ name }) => name);
    return names.length === 0 ? [] : `**${verdict}**: ${names.join(", ")}`;
  });
  const why = lowestJudged(hop);
  return `Objective ${escapeMarkdown(objective.name)}, ${parts.join("; ")}${why === undefined ? "" : `. ${why}`}`;
}

function findingsList(findings: JudgedHop["findings"]): string | undefined {
  if (findings.length === 0) return undefined;
  const line = ({ accepted, severity, rule, message }: JudgedHop["findings"][number]) =>
    `- ${accepted ? "accepted" : severity} *${rule}*: ${escapeMarkdown(message)}`;
  return findings.map(line).join("\n");
}

function geometryTable(result: HopResult): string | undefined {
  const { geometry, inputs } = result;
  if (!geometry) return undefined;
  const ofK = inputs.find(({ code }) => code === "median-k");
  const k = ofK && shown(inputShown(ofK).value);
  const row = (name: string, figure: (end: EndGeometry) => string) => [name, ...geometry.map(figure)];
  return table(
    ["", ...geometry.map((end) => end.site)],
    [
      row("azimuth, true north", (end) => `${write.fixed(end.azimuthDeg, 1)}°`),
      row(
        k === undefined ? "elevation" : `elevation at k ${k}`,
        (end) => `${write.fixed(end.elevationDeg, 2)}°`,
      ),
      row("ground height a.s.l.", (end) => `${write.metres(end.groundM)} (${end.groundFrom})`),
      row("antenna height above ground", (end) => write.metres(end.antennaHeightM)),
    ],
  );
}

function tableText({ title, columns, rows }: Table): string {
  const right = columns.map(({ align }) => align === "right");
  return `**${escapeMarkdown(title)}**\n\n${table(
    columns.map((column) => column.title),
    rows,
    right,
  )}`;
}

const VERDICTS: Readonly<Record<Verdict, string>> = {
  met: "met",
  missed: "not met",
  open: "open: some ground is not known",
};

function clearanceTable({ clearance }: HopResult): string | undefined {
  if (clearance.length === 0) return undefined;
  const rows = clearance.map((one) => [
    `${write.fresnelAsked(one.requiredFraction)} at ${write.kFactor(one.kFactor)}${one.forInformation ? " (for information)" : ""}`,
    clearanceAgainst(one).replace(" F1", ""),
    `${write.kilometres(one.distanceM)}${one.obstacle === undefined ? "" : `, ${one.obstacle}`}`,
    one.forInformation ? "" : VERDICTS[one.verdict],
  ]);
  return table(["Asked", "Clearance (F1)", "Critical point", ""], rows, [false, true, true, false]);
}

function availabilityText({ availability: found }: HopResult): string | undefined {
  if (!found) return undefined;
  const rain = yearlyBounded(rainShare(found));
  const multipath = yearlyBounded({ timePercent: found.multipathPercent });
  const asked =
    found.objectivePercent === undefined
      ? ""
      : ` The objective asks ${write.availability(found.objectivePercent)}${found.verdict === "open" ? ", which this does not decide" : ""}.`;
  const { of, part, parts } = takesMost(found);
  const dominates = part && parts > 1 ? ` Most of ${of} is ${part.cause}.` : "";
  const equipment = found.equipment
    ? ` Equipment fails ${write.yearly(found.equipment.unavailabilityPercent)} beside it.`
    : "";
  const estimate = found.atLeastPercent === undefined ? "" : ` ${ESTIMATE_REMARK}`;
  const planning = found.planningOnly ? " For early planning only: the gradient was assumed." : "";
  return `Availability **${availabilityBounded(found, found.objectivePercent)}** with ${found.modulation}, propagation only, both directions: rain ${rain}, multipath ${multipath}.${dominates}${equipment}${asked}${planning}${estimate}`;
}

function inputLines({ inputs }: HopResult): readonly string[] {
  return inputs.map((input) => shown(inputLine(input)));
}

function list(title: string, lines: readonly string[]): string | undefined {
  return lines.length === 0
    ? undefined
    : `${title}:\n\n${lines.map((line) => `- ${escapeMarkdown(line)}`).join("\n")}`;
}

function table(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  right: readonly boolean[] = [],
): string {
  const line = (cells: readonly string[]) => `| ${cells.map(escapeMarkdown).join(" | ")} |`;
  return [
    line(head),
    `|${head.map((_, index) => (right[index] ? "---:" : "---")).join("|")}|`,
    ...rows.map(line),
  ].join("\n");
}
