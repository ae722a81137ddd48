/** What others' transmissions take from the receivers of a hop, and which of them most. */
import { decibels } from "../../shared/format/numbers.js";
import type { InterferenceAt } from "../../shared/interference/receiver-result.js";
import { isReached } from "../../shared/report/interference.js";
import { degradationOrigin, entryWords, receiverWords } from "../../shared/words/interference.js";
import { type Argument, type Fact, wordOf } from "../facts/fact.js";
import { declaredName } from "../model/source-file.js";
import { END } from "../schema/index.js";
import { escapeMarkdown } from "./markdown.js";
import type { Results } from "./results.js";
import type { FactAt } from "./walk.js";

/** So many of the strongest are named. */
const MOST_NAMED = 3;

/** @returns undefined where nothing is in reach */
export function interferenceText(found: readonly InterferenceAt[]): string | undefined {
  const lines = found.filter(isReached).map(receiverLine);
  return lines.length === 0 ? undefined : `Interference:\n\n${lines.join("\n")}`;
}

function receiverLine(at: InterferenceAt): string {
  const { receiver, toNoiseDb, degradationDb, fullDegradationDb, entries, coLocated } = at;
  const strongest = entries.slice(0, MOST_NAMED);
  const unjudged = coLocated.filter((one) => one.toNoiseDb === undefined).length;
  const sum =
    toNoiseDb === undefined
      ? "nothing that is judged"
      : `I/N ${decibels(toNoiseDb)}, threshold raised by ${decibels(degradationDb)} (with full power ${decibels(fullDegradationDb)})`;
  const named = strongest.map(
    (entry) => `  - I/N ${decibels(entry.toNoiseDb)}: ${escapeMarkdown(entryWords(entry))}`,
  );
  const more = entries.length - strongest.length;
  return [
    `- ${escapeMarkdown(receiverWords(receiver))}: ${sum}`,
    ...named,
    ...(more > 0 ? [`  - ${more} more`] : []),
    ...(unjudged > 0 ? [`  - ${unjudged} at the same place without a stated coupling loss, not judged`] : []),
  ].join("\n");
}

/**
 * Of a word that decides on interference: `degradation` and `channel` of a hop tell all of its receivers, `transmits` of an
 * end the receiver there.
 * @returns undefined of other words, or where nothing was computed
 */
export function interferenceAtFact(
  { fact, path }: FactAt,
  arg: Argument,
  results: Results,
): string | undefined {
  const hop = path.find((one) => one.context === "hop");
  if (hop === undefined || !TOLD_AT.has(fact.property.name) || !isFirst(fact, arg)) return undefined;
  const judged = results(declaredName(hop) ?? "");
  const end = path.find((one) => one.property === END);
  const site = end && wordOf(end, "site");
  const found = (judged?.interference ?? []).filter(
    ({ receiver }) => site === undefined || receiver.place.site === site,
  );
  if (judged === undefined || found.length === 0) return undefined;
  const mode = judged.result.directions
    .flatMap(({ modes }) => modes.at(-1) ?? [])
    .toSorted((a, b) => (b.degradationDb ?? 0) - (a.degradationDb ?? 0))[0];
  const counts =
    fact.property.name === "degradation" && mode?.degradationDb !== undefined
      ? `${decibels(mode.degradationDb)} count at most, ${degradationOrigin(mode)}.`
      : undefined;
  const text = interferenceText(found) ?? "No other transmission is in reach of its receivers.";
  return [counts, text].filter((part) => part !== undefined).join("\n\n");
}

const TOLD_AT: ReadonlySet<string> = new Set(["degradation", "channel", "transmits"]);

/** A statement with several values tells it once, at the first. */
function isFirst({ args }: Fact, arg: Argument): boolean {
  return args[0] === arg;
}
