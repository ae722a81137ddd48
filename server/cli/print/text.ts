/** `check` for the terminal: each finding with the line it stands in, the gravest first, then what it all comes to. */
import { resolve } from "node:path";
import type { Severity } from "../../../shared/design/severity.js";
import { RULES } from "../../../shared/rules/index.js";
import { type FileProblem, isUnread } from "../../files/hop-files.js";
import type { JudgedDesign, JudgedFolder } from "../../findings/judged-folder.js";
import { shownFrom } from "../../findings/paths.js";
import { atLeast, gravestFirst, type Place, type PlacedFinding } from "../../findings/placed.js";
import { type Counts, countsOf, judgedTimes, sum, sumOf } from "../../findings/summary.js";
import type { Paint, Style } from "../streams.js";
import type { Checked, CheckFormat } from "./format.js";
import { safe } from "./safe.js";
import { withoutOld } from "./without-old.js";
import { withoutText } from "./without-text.js";

export const checkText: CheckFormat = {
  name: "text",
  what: "for reading: each finding with its line of the design, the gravest first, and what it comes to",
  print: ({ judged, baseline, ...options }) =>
    printText(baseline ? withoutOld(judged, baseline) : judged, options),
};

type TextOptions = Pick<Checked, "paint" | "cwd" | "show" | "columns">;

function* printText(judged: JudgedFolder, options: TextOptions): Iterable<string> {
  const { paint, cwd, show } = options;
  const least = show === "remarks" ? "info" : show;
  yield* fileErrors(judged.unreadable, options);
  const several = judged.designs.length > 1;
  let hidden = 0;
  for (const design of judged.designs) {
    const { terrainProblems } = design;
    const all = design.findings.filter(({ severity }) => atLeast(severity, least));
    hidden += design.findings.length - all.length;
    const remarks = show === "remarks" ? [] : all.filter(isRemark);
    const findings = gravestFirst(all.filter((one) => !remarks.includes(one)));
    if (several && (all.length + terrainProblems.length > 0 || design.without)) {
      yield `${paint("bold", heading(design, cwd))}\n\n`;
    }
    yield* fileErrors(terrainProblems, options);
    if (design.without) yield withoutText(design.without, paint);
    for (const finding of findings) yield `${findingText(finding, design.root, options)}\n`;
    if (remarks.length > 0) yield `${remarksText(remarks, options)}\n\n`;
    if (several && all.length > 0)
      yield `${heading(design, cwd)}: ${closing(countsOf(design), paint, timeOf(design))}\n\n`;
  }
  const all = sumOf(judged.designs.map(countsOf));
  const [only] = judged.designs;
  const whole = several ? ` in ${judged.designs.length} designs` : only ? timeOf(only) : "";
  const unread =
    judged.unreadable.length +
    sum(judged.designs.map(({ terrainProblems }) => terrainProblems.filter(isUnread).length));
  const told = unread > 0 ? `; ${paint("red", `${plural(unread, "file")} with a problem of reading`)}` : "";
  const left = hidden > 0 ? `; ${hidden} not shown` : "";
  yield `${closing(all, paint, whole)}${told}${left}\n`;
}

/** On what figures rest on: an engineer reads it once. What is accepted, or made graver, stands among the findings. */
function isRemark({ rule, severity, accepted }: PlacedFinding): boolean {
  return severity === "info" && !accepted && RULES.get(rule)?.remarksOn !== undefined;
}

function remarksText(remarks: readonly PlacedFinding[], options: TextOptions): string {
  const kinds = Map.groupBy(remarks, ({ rule }) => RULES.get(rule)!.remarksOn!);
  const counted = [...kinds].map(([kind, of]) => `${kind} (${of.length})`).join(", ");
  const what = remarks.length === 1 ? "one remark" : `${remarks.length} remarks`;
  return paintedSentence(
    "info",
    `${what} on what figures rest on: ${counted}; --show remarks lists them`,
    "info",
    options,
  );
}

function heading(design: JudgedDesign, cwd: string): string {
  const folder = shownFrom(cwd, design.root);
  return design.title === undefined ? folder : `${design.title} (${folder})`;
}

function* fileErrors(problems: readonly FileProblem[], { paint, cwd }: TextOptions): Iterable<string> {
  for (const problem of problems) {
    const label = isUnread(problem) ? paint(COLOUR.error, "error") : paint(COLOUR.warning, "warning");
    yield `${label}: ${safe(shownFrom(cwd, problem.path))}: ${safe(problem.message)}\n`;
  }
  if (problems.length > 0) yield "\n";
}

const COLOUR: Readonly<Record<Severity, Style>> = {
  error: ["red", "bold"],
  warning: ["yellow", "bold"],
  info: ["cyan", "bold"],
};

function findingText(finding: PlacedFinding, root: string, options: TextOptions): string {
  const { paint, cwd } = options;
  const { rule, severity, message, help, hop, place, related, accepted } = finding;
  const label = accepted ? `accepted[${rule}]` : `${severity}[${rule}]`;
  const rows: Row[] = [];
  if (place) rows.push({ place, where: whereOf(place, cwd), style: COLOUR[severity] });
  for (const one of related) {
    const style: Style = "blue";
    if (one.place)
      rows.push({ place: one.place, where: whereOf(one.place, cwd), message: one.message, style });
    else rows.push({ where: shownFile(one.file, root, cwd), message: one.message, style });
  }
  // A file far away must not push the others aside.
  const widths = rows.map(({ where }) => where.length).filter((length) => length <= 40);
  const width = Math.max(0, ...widths);
  const lines = [paintedSentence(label, safe(said(hop, message)), severity, options)];
  for (const row of rows) lines.push(...rowLines(row, width, paint));
  if (accepted) {
    const until = accepted.until === undefined ? "with no end" : `until ${accepted.until}`;
    const why = accepted.reason === undefined ? "" : `: ${safe(accepted.reason)}`;
    lines.push(broken(`  accepted ${until}${why}`, 4, options));
  }
  if (help !== undefined) {
    const text = broken(`  help: ${safe(help)}`, 8, options);
    lines.push(text.replace("help", paint("green", "help")));
  }
  return `${lines.join("\n")}\n`;
}

function paintedSentence(label: string, sentence: string, severity: Severity, options: TextOptions): string {
  const { paint } = options;
  const text = broken(`${label}: ${sentence}`, 4, options);
  return `${paint(COLOUR[severity], label)}${paint("bold", text.slice(label.length))}`;
}

/** Broken between words at the terminal's width; a word longer than a line stays whole. */
function broken(text: string, indent: number, { columns }: TextOptions): string {
  if (columns === undefined || text.length <= columns) return text;
  const lines: string[] = [];
  const start = text.length - text.trimStart().length;
  let line = " ".repeat(start);
  let empty = true;
  for (const word of text.trim().split(" ")) {
    if (!empty && line.length + 1 + word.length > columns) {
      lines.push(line);
      line = " ".repeat(indent);
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line].join("\n");
}

/** Whoever reads the headline alone knows which hop is meant. */
function said(hop: string | undefined, message: string): string {
  return hop === undefined || message.includes(hop) ? message : `${hop}: ${message}`;
}

interface Row {
  readonly where: string;
  readonly place?: Place;
  readonly message?: string;
  readonly style: Style;
}

function rowLines({ where, place, message, style }: Row, width: number, paint: Paint): string[] {
  const head = `  ${paint("dim", where.padEnd(width))}   `;
  const under = " ".repeat(Math.max(width, where.length) + 5);
  if (!place) return [`${head}${safe(message ?? "")}`];
  const { text, from, length } = excerpt(place);
  const marks = paint(style, "^".repeat(length));
  // Some related places only repeat what the text says.
  const said =
    message === undefined || message === text.slice(from, from + length) ? "" : ` ${safe(message)}`;
  return [`${head}${text}`, `${under}${" ".repeat(from)}${marks}${said}`];
}

function whereOf(place: Place, cwd: string): string {
  return safe(`${shownFrom(cwd, place.file)}:${place.line}:${place.column}`);
}

function shownFile(file: string | undefined, root: string, cwd: string): string {
  return file === undefined ? "" : safe(shownFrom(cwd, resolve(root, file)));
}

const MOST_COLUMNS = 80;

/** The line around the range, cut to a width that a terminal shows, and where in it the marks go. */
function excerpt({ lineText, column, endColumn, line, endLine }: Place): {
  text: string;
  from: number;
  length: number;
} {
  const indent = lineText.length - lineText.trimStart().length;
  const start = column - 1;
  const end = endLine === line ? endColumn - 1 : lineText.length;
  let cut = Math.min(indent, start);
  if (start - cut > MOST_COLUMNS - 20) cut = start - 20;
  const shown = lineText.slice(cut, cut + MOST_COLUMNS);
  const before = cut > indent ? "..." : "";
  const after = cut + MOST_COLUMNS < lineText.trimEnd().length ? "..." : "";
  const length = Math.max(1, Math.min(end, cut + MOST_COLUMNS) - start);
  return { text: `${before}${safe(shown).trimEnd()}${after}`, from: before.length + start - cut, length };
}

function timeOf(design: JudgedDesign): string {
  const times = judgedTimes(design);
  return times === undefined ? "" : `, ${times}`;
}

function closing(counts: Counts, paint: Paint, where = ""): string {
  const { errors, warnings, infos, accepted, hops, hopsJudged, hopsWithoutObjective } = counts;
  const parts = [
    errors > 0 ? paint("red", plural(errors, "error")) : "",
    warnings > 0 ? paint("yellow", plural(warnings, "warning")) : "",
    infos > 0 ? plural(infos, "info") : "",
    accepted > 0 ? `${accepted} accepted` : "",
  ].filter((part) => part !== "");
  const found = parts.length > 0 ? parts.join(", ") : "no findings";
  const open = hops - hopsJudged - hopsWithoutObjective;
  const of = hopsJudged < hops ? `${hopsJudged} of ${plural(hops, "hop")}` : plural(hops, "hop");
  const others = [
    open > 0 ? `, ${open} open` : "",
    hopsWithoutObjective > 0 ? `, ${hopsWithoutObjective} without an objective` : "",
  ].join("");
  return `${found}; ${of} judged${where}${others}`;
}

function plural(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? "" : "s"}`;
}
