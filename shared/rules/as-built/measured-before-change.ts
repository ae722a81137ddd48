import { CHANGED_DB } from "../../as-built/held.js";
import { readingPlace } from "../../as-built/words.js";
import { apart, dbm, decibels } from "../../format/numbers.js";
import type { HopRule } from "../rule.js";
import { measuredHop } from "./example-reading.js";
import { aboutReading, held, readingAddress } from "./readings.js";

export const measuredBeforeChange: HopRule = {
  scope: "hop",
  id: "measured-before-change",
  severity: "warning",
  title: "What changed since is measured again",
  checks: `The level that was promised when a level was measured (\`promised\`, as the list for line-up carries it) against what the design promises now: they differ by more than ${decibels(CHANGED_DB)} where an antenna, a loss, a power or the path changed in between.`,
  why: "A reading from before a change proves nothing of what hangs there now. It is told by what the reading depends on, the level, so that edits which change no level leave it alone.",
  fix: "Measure again, and write the new reading; the old one may stay.",
  source: "common practice; the tolerance is ours",
  needs: ["levels"],
  good: measuredHop("-41.6 dBm at TARN promised -41.0 dBm on 2026-05-02"),
  bad: measuredHop("-41.6 dBm at TARN promised -44.2 dBm on 2026-05-02"),
  check(context) {
    for (const one of held(context)?.readings ?? []) {
      if (one.verdict !== "before change") continue;
      const { measured, mode } = one;
      const [then, now] = apart(dbm, measured.promisedDbm!, mode!.levelDbm);
      context.report({
        at: readingAddress(context.hop, one.index),
        about: aboutReading(one),
        message: `${readingPlace(measured)} was read on ${measured.on} when ${then} was promised; now ${now} is: what it rests on has changed`,
        help: "measure again",
      });
    }
  },
};
