/** The history of a hop: a line a commit with its figures, below it what was decided. */
import type { DecisionChange } from "../../../shared/compare/decisions.js";
import { decisionWords } from "../../../shared/compare/words.js";
import type { HopResult } from "../../../shared/evaluate/account/result.js";
import { availabilityBounded, ESTIMATE_REMARK } from "../../../shared/format/bounds.js";
import { decibels, fresnelAsked } from "../../../shared/format/numbers.js";
import { clearanceAgainst } from "../../../shared/report/clearance-against.js";
import type { HistoryEntry } from "../../compare/hop-history.js";
import type { HistoryFormat, HistoryOfHop } from "./format.js";
import { figures } from "./history-figures.js";
import { safe } from "./safe.js";
import { wrapped } from "./wrap.js";

export const historyText: HistoryFormat = {
  name: "text",
  what: "for reading: a line a commit, and what was decided in it",
  print: printText,
};

function* printText({ entries, paint }: HistoryOfHop): Iterable<string> {
  const availabilities = entries.map(({ judged }) => availabilityText(judged?.result.availability));
  const width = Math.max(12, ...availabilities.map((text) => text.length));
  const clearances = entries.map(clearanceText);
  const clearanceWidth = Math.max(9, ...clearances.map((text) => text.length));
  if (entries.length > 0)
    yield `${paint("dim", ["date".padEnd(10), "commit".padEnd(9), "errors", "clearance".padStart(clearanceWidth), "margin".padStart(8), "mode".padEnd(8), "availability".padStart(width), "title"].join("  "))}\n`;
  for (const [index, entry] of entries.entries()) {
    const { commit, hop, status, decisions, shared, terrainChanged, interferenceChanged } = entry;
    const { fadeMarginDb, modulation = "", errors } = figures(entry);
    const count = (errors === undefined ? "–" : String(errors)).padStart(6);
    const told = [
      (commit?.date ?? "").padEnd(10),
      paint("yellow", (commit?.short ?? "work tree").padEnd(9)),
      errors ? paint("red", count) : count,
      clearances[index]!.padStart(clearanceWidth),
      (fadeMarginDb === undefined ? "–" : decibels(fadeMarginDb)).padStart(8),
      modulation.padEnd(8),
      availabilities[index]!.padStart(width),
      safe(commit?.title ?? "not committed"),
    ];
    yield `${told.join("  ")}\n`;
    if (status !== "changed") yield `    ${status === "renamed" ? `renamed to ${safe(hop)}` : status}\n`;
    for (const change of decisions) yield `    ${decision(change)}\n`;
    for (const other of shared)
      for (const change of other.decisions) yield `    ${safe(other.entry)}: ${decision(change)}\n`;
    if (interferenceChanged) yield "    interference of other hops or of others changed\n";
    if (terrainChanged) yield "    terrain or survey changed\n";
  }
  if (entries.some(({ judged }) => judged?.result.availability?.atLeastPercent !== undefined))
    yield `\n${wrapped(ESTIMATE_REMARK, 78)}\n`;
}

/** `0.73 F1 of 1 F1`: found, and asked where an objective does. */
function clearanceText(entry: HistoryEntry): string {
  const { clearance } = figures(entry);
  if (clearance === undefined) return "–";
  const asked = clearance.forInformation ? "" : ` of ${fresnelAsked(clearance.requiredFraction)}`;
  return `${clearanceAgainst(clearance)}${asked}`;
}

function availabilityText(found: HopResult["availability"]): string {
  return found === undefined ? "–" : availabilityBounded(found);
}

function decision(change: DecisionChange): string {
  return safe(decisionWords(change, "->"));
}
