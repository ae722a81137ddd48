import { address } from "../design/address.js";
import { apart, dbm, decibels, difference } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import { proposedChanges } from "./fixes/proposed.js";
import { levelVerdict, toldOfMode, weakerDirection } from "./judged-modes.js";
import { levelAdvice } from "./level-advice.js";
import type { HopRule } from "./rule.js";

export const levelBelowThreshold: HopRule = {
  scope: "hop",
  id: "level-below-threshold",
  severity: "error",
  title: "The received level must reach the threshold",
  checks:
    "Received level in clear air against the threshold of the mode that carries the capacity asked for (else of the lowest mode), weaker direction.",
  why: "Below its threshold the mode does not work at all.",
  fix: "A clear path first; then larger antennas, less loss, more power, a lower mode or band, or a shorter hop.",
  source: "common practice",
  once: true,
  needs: ["levels"],
  quietAfter: ["path-length", "frequency-outside-tuning"],
  fixes: proposedChanges,
  good: exampleHop(),
  bad: exampleHop({
    keld: "antenna DISH60-18 at 40 m\n    transmits high\n    extra-loss 30 dB",
    tarn: "antenna DISH60-18 at 40 m\n    transmits low\n    extra-loss 30 dB",
  }),
  check(context) {
    const { hop, result, report, has, leaveToCause } = context;
    const weaker = weakerDirection(hop, result);
    if (weaker === undefined || levelVerdict(weaker) !== "missed") return;
    const { direction, mode } = weaker;
    const diffractionDb = result.diffractionLossDb ?? 0;
    // The obstructed path was told already, and without it the level would do.
    if (has("clearance") && mode.fadeMarginDb + diffractionDb > 0) return leaveToCause();
    const degraded = mode.degradationDb ? ` with ${decibels(mode.degradationDb)} degradation` : "";
    const [level, threshold] = apart(dbm, mode.receivedLevelDbm, mode.thresholdDbm);
    report({
      at: address("hop", hop.name, direction.to),
      message: `${direction.to} receives ${level}, ${difference(decibels, -mode.fadeMarginDb)} below the threshold ${threshold} of ${mode.modulation}${degraded}`,
      ...toldOfMode(
        hop,
        levelAdvice(context, levelBelowThreshold.id, { lackDb: -mode.fadeMarginDb, diffractionDb }),
      ),
    });
  },
};
