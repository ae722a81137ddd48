import { USUAL_WINDOW_DB } from "../../as-built/expected.js";
import { readingPlace } from "../../as-built/words.js";
import { apart, dbm, decibels } from "../../format/numbers.js";
import type { HopRule } from "../rule.js";
import { measuredHop } from "./example-reading.js";
import { aboutReading, held, readingAddress } from "./readings.js";

export const measuredOutsideWindow: HopRule = {
  scope: "hop",
  id: "measured-outside-window",
  severity: "warning",
  title: "What is measured is what was promised",
  checks: `Each measured level, the latest of its end, branch and mode, against the level that the design promises there: within the objective's \`level-window\`, else ${decibels(USUAL_WINDOW_DB)} above and below. Those that carry the sign of a side lobe or of a turned feed, or that are low while others agree, have rules of their own.`,
  why: "Margin and availability are computed from the promised level. A hop that reads 6 dB less has 6 dB less margin than its page says; one that reads more has another power, another antenna or another path than the design.",
  fix: "Align the antennas again, compare power, mode, channel, antenna, waveguide and path with the design; what was built otherwise belongs into the design.",
  source: "common practice; the window is ours, no source",
  needs: ["levels"],
  good: measuredHop("-41.6 dBm at TARN on 2026-05-02", "-40.9 dBm at KELD on 2026-05-02"),
  bad: measuredHop("-48.1 dBm at TARN on 2026-05-02", "-47.6 dBm at KELD on 2026-05-02"),
  check({ hop, result, report }) {
    const found = held({ hop, result });
    for (const one of found?.readings ?? []) {
      const isUnexplained =
        one.verdict === "low" && one.agreeing === undefined && one.signatures.length === 0;
      if (!isUnexplained && one.verdict !== "high") continue;
      const { measured, mode } = one;
      const [level, promised] = apart(dbm, measured.levelDbm, mode!.levelDbm);
      const side = one.verdict === "high" ? "above" : "below";
      report({
        at: readingAddress(hop, one.index),
        about: aboutReading(one),
        message: `${readingPlace(measured)} was read at ${level} on ${measured.on}, ${decibels(Math.abs(one.lessDb!))} ${side} the promised ${promised}; within ${decibels(found!.windowDb)} is asked`,
        help:
          one.verdict === "high"
            ? "compare power, mode and antennas at both ends with the design"
            : "align again, then compare power, mode, antennas and waveguides with the design",
      });
    }
  },
};
