/** A hop in one look, as markdown: geometry, level diagram of both directions, clearance, availability, findings. */
import type { EndGeometry, HopResult } from "../../shared/evaluate/result.js";
import * as write from "../../shared/format/numbers.js";
import { levelTables, modeTables, type Table } from "../../shared/report/level-diagram.js";
import type { JudgedHop } from "./results.js";

export function hopReport({ hop, result, findings }: JudgedHop): string {
  const sections = [
    result.distanceM === undefined
      ? undefined
      : `${result.ends.join(" to ")}, **${write.kilometres(result.distanceM)}**, ${hop.arrangement.name}`,
    findings.length > 0
      ? findings
          .map(
            (one) =>
              `- ${one.accepted ? "accepted" : one.severity} *${one.rule}*: ${escapeMarkdown(one.message)}`,
          )
          .join("\n")
      : undefined,
    geometryTable(result),
    ...levelTables(result).map(tableText),
    ...modeTables(result).map((one) => tableText({ ...one, title: `Modes, ${one.title}` })),
    clearanceTable(result),
    availabilityText(result),
    list("Worked from", inputLines(result)),
    list("Not computed", result.missing),
    list("Notes", result.notes),
  ];
  return sections.filter((section) => section !== undefined).join("\n\n");
}

function geometryTable({ geometry }: HopResult): string | undefined {
  if (!geometry) return undefined;
  const row = (name: string, figure: (end: EndGeometry) => string) => [name, ...geometry.map(figure)];
  return table(
    ["", ...geometry.map((end) => end.site)],
    [
      row("azimuth", (end) => `${write.fixed(end.azimuthDeg, 1)}°`),
      row("elevation", (end) => `${write.fixed(end.elevationDeg, 2)}°`),
      row("ground", (end) => `${write.metres(end.groundM)} (${end.groundFrom})`),
      row("antenna above ground", (end) => write.metres(end.antennaHeightM)),
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

function clearanceTable({ clearance }: HopResult): string | undefined {
  if (clearance.length === 0) return undefined;
  const rows = clearance.map((one) => [
    `${write.fresnelAsked(one.requiredFraction)} at ${write.kFactor(one.kFactor)}${one.forInformation ? " (for information)" : ""}`,
    write.fresnel(one.fraction),
    `${write.kilometres(one.distanceM)}${one.obstacle === undefined ? "" : `, ${one.obstacle}`}`,
    one.forInformation ? "" : one.ok ? "met" : "not met",
  ]);
  return table(["clearance asked", "found", "at", ""], rows, [false, true, true, false]);
}

function availabilityText({ availability: found }: HopResult): string | undefined {
  if (!found) return undefined;
  const bound = found.bound ? `${found.bound} ` : "";
  const asked =
    found.objectivePercent === undefined
      ? ""
      : ` The objective asks ${write.availability(found.objectivePercent)}.`;
  const most = found.causes[0];
  const dominates = most && found.causes.length > 2 ? ` Most of it is ${most.cause}.` : "";
  const equipment = found.equipment
    ? ` Equipment fails ${write.yearly(found.equipment.unavailabilityPercent)} beside it.`
    : "";
  const planning = found.planningOnly ? " For early planning only: the gradient was assumed." : "";
  return `Available ${bound}**${write.availability(found.availabilityPercent)}** with ${found.modulation}, propagation only, both directions: rain ${write.yearly(found.rainPercent)}, multipath ${write.yearly(found.multipathPercent)}.${dominates}${equipment}${asked}${planning}`;
}

function inputLines({ inputs }: HopResult): readonly string[] {
  return inputs.map(
    ({ name, value, origin, note }) => `${name} ${value} (${origin}${note === undefined ? "" : `, ${note}`})`,
  );
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

/** Texts of the design may hold what markdown would take for a table, a link or a tag. */
export function escapeMarkdown(text: string): string {
  return text.replace(/[\\`*_|<>[\]]/g, "\\$&").replace(/\r?\n/g, " ");
}
