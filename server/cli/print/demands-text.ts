import { sortedFailures, worstFailures } from "../../../shared/demands/failure-effects.js";
import type { DemandsResult, FailureResult, HopLoad } from "../../../shared/demands/result.js";
import { bitRate } from "../../../shared/format/numbers.js";
import {
  availabilityHeld,
  carriedWords,
  demandsRestOn,
  demandsWords,
  goesTo,
  grownWords,
  latencyHeld,
  loadedHops,
  loadShare,
  loadWords,
  milderFailures,
  NONE,
  outgrownWords,
  ratesWords,
  ringsWords,
} from "../../../shared/words/demand-figures.js";
import { elementWords, someOf } from "../../../shared/words/demands.js";
import type { Paint } from "../streams.js";
import { setInColumns } from "./columns.js";
import { demandLines, heldWords } from "./demand-lines.js";
import { demandText } from "./demand-text.js";
import type { DemandsFormat, DemandsOfFolder, DesignDemands } from "./format.js";
import { safe } from "./safe.js";
import { wrapped } from "./wrap.js";

export const demandsText: DemandsFormat = {
  name: "text",
  what: "for reading: demands with their routes, hops with their loads, failures with what they cost",
  print: printText,
};

const WIDTH = 95;

function* printText({ designs, only, paint }: DemandsOfFolder): Iterable<string> {
  for (const [index, one] of designs.entries()) {
    if (index > 0) yield "\n";
    if (only !== undefined) yield* demandText(one.result!.demands.get(only)!, one.result!, WIDTH, paint);
    else yield* ofDesign(one, paint);
  }
}

function* ofDesign({ design, result, findings }: DesignDemands, paint: Paint): Iterable<string> {
  const head = design.title === undefined ? "" : `${design.title}: `;
  if (result === undefined) {
    yield `${safe(`${head}no demand is stated; a block \`demand NAME\` with \`from SITE to SITE\` and \`committed 100 Mbit/s\` states one`)}\n`;
    return;
  }
  yield `${paint("bold", safe(`${head}${demandsWords(result)}`))}\n`;
  for (const words of ringsWords(result)) yield `${wrapped(safe(words), WIDTH)}\n`;
  yield "\n";
  yield* demandsTable(result, paint);
  yield "\n";
  yield* hopsTable(result, paint);
  yield* failuresTable(result, paint);
  const told = findings.filter(({ accepted }) => !accepted);
  if (told.length > 0) yield "\n";
  for (const { rule, severity, hop, message } of told) {
    const label = paint(severity === "error" ? "red" : severity === "warning" ? "yellow" : "cyan", severity);
    const words = hop === undefined || message.startsWith(hop) ? message : `${hop}: ${message}`;
    // What paints has no width.
    const lines = wrapped(`${severity}[${rule}]: ${safe(words)}`, WIDTH);
    yield `${label}${lines.slice(severity.length)}\n`;
  }
  yield "\n";
  for (const words of demandsRestOn(result)) yield `${wrapped(words, WIDTH)}\n`;
}

function* demandsTable(result: DemandsResult, paint: Paint): Iterable<string> {
  const all = [...result.demands.values()];
  const worst = worstFailures(result);
  const columns = [
    { head: "demand" },
    { head: "from > to" },
    { head: "committed" },
    { head: "available, propagation" },
    { head: "latency" },
  ];
  const rows = all.map((one) => [
    one.demand.name,
    `${one.demand.from ?? NONE} > ${goesTo(one)}`,
    ratesWords(one),
    heldWords(availabilityHeld(one)),
    heldWords(latencyHeld(one)),
  ]);
  yield* setInColumns(columns, rows, paint, (index) =>
    demandLines(all[index]!, worst.get(all[index]!.demand.name), WIDTH),
  );
}

function* hopsTable(result: DemandsResult, paint: Paint): Iterable<string> {
  const loads = loadedHops(result);
  const idle = result.hops.size - loads.length;
  if (loads.length > 0)
    yield* setInColumns(
      [
        { head: "hop" },
        { head: "committed", align: "right" },
        { head: "load", align: "right" },
        { head: "worst", align: "right" },
        { head: "load", align: "right" },
        { head: "when it fails" },
        { head: "carries" },
      ],
      loads.map(hopRow),
      paint,
      (index) => growthLines(loads[index]!),
    );
  if (idle > 0) yield `${idle} ${idle === 1 ? "hop carries" : "hops carry"} nothing, whatever fails\n`;
}

/** What its demands grow to, and when that is too much. */
function growthLines(load: HopLoad): readonly string[] {
  const grown = grownWords(load);
  const all = [...(grown === undefined ? [] : [`grows to ${grown}`]), ...outgrownWords(load)];
  return all.length === 0 ? [] : [`    ${all.join("; ")}\n`];
}

function hopRow(load: HopLoad): readonly string[] {
  const { hop, committedBps: normalBps, carriedBps, worst } = load;
  return [
    hop,
    bitRate(normalBps),
    loadWords(loadShare(normalBps, carriedBps)),
    worst === undefined ? NONE : bitRate(worst.committedBps),
    worst === undefined ? NONE : loadWords(loadShare(worst.committedBps, carriedBps)),
    worst === undefined ? NONE : `${elementWords(worst.element)}${worst.overloaded ? " overloaded" : ""}`,
    carriedWords(load),
  ];
}

function* failuresTable(result: DemandsResult, paint: Paint): Iterable<string> {
  const { grave } = sortedFailures(result);
  const milder = milderFailures(result);
  if (grave.length + milder.length === 0) return;
  yield "\n";
  if (grave.length > 0)
    yield* setInColumns(
      [{ head: "when it fails" }, { head: "lost" }, { head: "moved" }, { head: "overloaded" }],
      grave.map(failureRow),
      paint,
    );
  for (const words of milder) yield `${words}\n`;
}

function failureRow({ element, lost, moved, overloaded }: FailureResult): readonly string[] {
  const hops = overloaded.map(({ hop }) => hop);
  return [elementWords(element), someOf(lost, 3) || NONE, someOf(moved, 2) || NONE, someOf(hops, 3) || NONE];
}
