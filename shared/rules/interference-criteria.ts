import { INTERFERENCE_DEFAULTS, type InterferenceTerms } from "../design/interference.js";
import { decibels, trimmed } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule, Report } from "./rule.js";

export const interferenceCriteria: NetworkRule = {
  scope: "network",
  id: "interference-criteria",
  severity: "error",
  title: "Criteria of interference must not contradict each other",
  checks:
    "What one transmitter may do against what all may, the short-term percentage against the long-term one, and what is allowed in each of them; equal figures agree.",
  why: "Of two criteria of which one can never be reached, one was meant otherwise, and nobody knows which.",
  fix: "Look both figures up again; what is allowed in a shorter time is more, never less.",
  source: "logic; the usual figures are common practice, from memory",
  good: `interference {\n  single-entry 1 dB\n  aggregate 3 dB\n}\n\n${exampleHop()}`,
  bad: `interference {\n  single-entry 3 dB\n  aggregate 1 dB\n}\n\n${exampleHop()}`,
  check({ design: { interference }, report }) {
    for (const one of contradictions(interference ?? {})) report(one);
  },
};

/** Each as the lower figure against the higher one that it must not pass. */
function contradictions(terms: InterferenceTerms): readonly Report[] {
  const long = terms.longTermPercent ?? INTERFERENCE_DEFAULTS.longTermPercent;
  const short = terms.shortTermPercent ?? INTERFERENCE_DEFAULTS.shortTermPercent;
  const { singleEntryDegradationDb: single, aggregateDegradationDb: sum } = terms;
  const { shortTermDegradationDb: brief, towardOthersLongTermDb, towardOthersShortTermDb } = terms;
  const pairs: readonly (Report | false)[] = [
    isAbove(single, sum) && {
      at: "interference / single-entry",
      message: `one transmitter may degrade by ${decibels(single!)}, all together by ${decibels(sum!)}`,
    },
    isAbove(short, long) && {
      at: terms.shortTermPercent === undefined ? "interference / long-term" : "interference / short-term",
      message: `the short-term percentage of ${trimmed(short, 6)} % is longer than the long-term one of ${trimmed(long, 6)} %`,
    },
    isAbove(sum, brief) && {
      at: "interference / short-term.degradation",
      message: `${decibels(brief!)} are allowed in the short-term percentage, and ${decibels(sum!)} in the long-term one`,
    },
    isAbove(towardOthersLongTermDb, towardOthersShortTermDb) && {
      at: "interference / toward-others",
      message: `others are allowed an I/N of ${decibels(towardOthersShortTermDb!)} in the short-term percentage, and of ${decibels(towardOthersLongTermDb!)} in the long-term one`,
    },
  ];
  return pairs.filter((one) => one !== false);
}

function isAbove(less: number | undefined, more: number | undefined): boolean {
  return less !== undefined && more !== undefined && less > more;
}
