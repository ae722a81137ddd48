/** Of a level that was measured: what is promised there, and how the reading stands. */
import { heldReadings } from "../../shared/as-built/held.js";
import { deviationWords, signatureWords } from "../../shared/as-built/words.js";
import { dbm, decibels } from "../../shared/format/numbers.js";
import { factsNamed, quantityOf } from "../facts/fact.js";
import { declaredName } from "../model/source-file.js";
import type { Results } from "./results.js";
import type { FactAt } from "./walk.js";

/** @returns undefined on anything else, and while the hop is not judged as it is written */
export function readingText({ fact, path }: FactAt, results: Results): string | undefined {
  const written =
    fact.property.name === "measured" ? path.find(({ context }) => context === "hop") : undefined;
  const judged = written && results(declaredName(written) ?? "");
  if (written === undefined || judged === undefined) return undefined;
  const held = heldReadings(judged.hop, judged.result);
  const index = factsNamed(written.facts, "measured").indexOf(fact);
  const reading = held?.readings.find((one) => one.index === index);
  if (held === undefined || reading === undefined) return undefined;
  // What is judged may be the text of a moment ago.
  if (reading.measured.levelDbm !== quantityOf(fact, "level")) return undefined;
  const { mode, lessDb, verdict, signatures } = reading;
  if (mode === undefined || lessDb === undefined) return undefined;
  const sign = signatures.length === 0 ? "" : `, as if ${signatureWords(signatures)}`;
  const stands =
    verdict === "agrees" ? "agrees" : verdict === "low" || verdict === "high" ? `too ${verdict}` : verdict;
  return `Promised **${dbm(mode.levelDbm)}** with ${mode.modulation}, within ${decibels(held.windowDb)}: ${deviationWords(lessDb)}, ${stands}${sign}.`;
}
