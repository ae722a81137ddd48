import { readingPlace } from "../../as-built/words.js";
import { dbm } from "../../format/numbers.js";
import type { HopRule } from "../rule.js";
import { measuredHop } from "./example-reading.js";
import { aboutReading, held, readingAddress } from "./readings.js";

export const measuredDoubled: HopRule = {
  scope: "hop",
  id: "measured-doubled",
  severity: "info",
  title: "One reading a day is enough",
  checks: "Measured levels of the same end, branch, carrier, sender and mode on the same day.",
  why: "The one further down counts. Where the other was meant, the hop is judged by a level that it no longer has.",
  fix: "Keep the last reading of the day, or say in which mode or branch each was made.",
  source: "common practice",
  needs: ["levels"],
  good: measuredHop("-52 dBm at TARN on 2026-05-01", "-41.6 dBm at TARN on 2026-05-02"),
  bad: measuredHop("-52 dBm at TARN on 2026-05-02", "-41.6 dBm at TARN on 2026-05-02"),
  check(context) {
    const found = held(context);
    for (const one of found?.readings ?? []) {
      if (one.sameAs === undefined) continue;
      const { measured } = one;
      context.report({
        at: readingAddress(context.hop, one.index),
        about: aboutReading(one),
        message: `${readingPlace(measured)} has two readings of ${measured.on}; ${dbm(measured.levelDbm)} counts, which stands further down`,
        help: "keep the last one of the day",
        related: [{ at: readingAddress(context.hop, one.sameAs), message: "the other reading" }],
      });
    }
  },
};
