import { decibels, difference } from "../format/numbers.js";
import { changesOf, type Means, mending, sentences, triedWords } from "./advice.js";
import { weakerDirection } from "./judged-modes.js";
import { LARGER_ANTENNAS } from "./outage-advice.js";
import type { HopContext, Report } from "./rule.js";

const MEANS: readonly Means[] = [...LARGER_ANTENNAS, "another radio", "a lower mode"];

/** What a level lacks, what of it an obstruction takes, and changes that were tried and are enough. */
export function levelAdvice(
  context: HopContext,
  rule: string,
  { lackDb, diffractionDb }: { readonly lackDb: number; readonly diffractionDb: number },
): Pick<Report, "help" | "changes"> {
  const mended = mending(context, rule, MEANS, lackDb);
  const tried = triedWords(mended, (result) => {
    const weaker = weakerDirection(context.hop, result);
    return weaker && `margin ${decibels(weaker.mode.fadeMarginDb)}`;
  });
  return {
    help: sentences(
      `${difference(decibels, lackDb)} are missing.`,
      ofDiffraction(lackDb, diffractionDb),
      tried,
    ),
    changes: changesOf(mended),
  };
}

function ofDiffraction(lackDb: number, diffractionDb: number): string | undefined {
  if (!(diffractionDb > 0)) return undefined;
  const enough =
    diffractionDb >= lackDb ? "a clear path would be enough" : "a clear path would not be enough";
  return `Diffraction takes ${difference(decibels, diffractionDb)}: ${enough}.`;
}
