import { apart, dbm, decibels } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import { lessUnequal } from "./fixes/antennas.js";
import type { HopRule } from "./rule.js";
import { obstructionTold, standbyAddress, standbyHelp, standbyWords } from "./standby-words.js";

export const standbyLevel: HopRule = {
  scope: "hop",
  id: "standby-level",
  severity: "error",
  arrangements: ({ hotStandby }) => hotStandby,
  title: "A unit on standby must reach the threshold too",
  checks:
    "Where the objective states no `standby-margin`: received level in every state with a unit on standby (at the receiver, at the sender, at both ends), both directions, against the threshold of the mode that carries the capacity asked for.",
  why: "A standby unit that lies below threshold in clear air protects in name only.",
  fix: "A coupler with less difference between its arms; where each unit has an antenna of its own, a higher or larger second one; larger antennas, or a lower mode.",
  source: "common practice",
  once: true,
  needs: ["levels"],
  quietAfter: ["path-length", "frequency-outside-tuning", "level-below-threshold"],
  fixes: lessUnequal,
  good: exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: "antenna DISH60-18 at 40 m\n    coupler H18-U direct\n    transmits high",
    tarn: "antenna DISH60-18 at 40 m\n    coupler H18-U direct\n    transmits low",
  }),
  bad: exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: "antenna DISH60-18 at 40 m\n    coupler H18-U direct\n    transmits high\n    extra-loss 18 dB",
    tarn: "antenna DISH60-18 at 40 m\n    coupler H18-U direct\n    transmits low",
  }),
  check({ hop, result, report, has, leaveToCause }) {
    const { standby } = result;
    if (standby?.verdict !== "missed" || standby.askedDb !== undefined) return;
    const weakest = standby.weakest!;
    if (obstructionTold(has, weakest, 0)) return leaveToCause();
    const [level, threshold] = apart(dbm, weakest.receivedLevelDbm, weakest.thresholdDbm);
    const degraded = weakest.degradationDb ? ` with ${decibels(weakest.degradationDb)} degradation` : "";
    report({
      at: standbyAddress(hop, weakest),
      message: `${standbyWords(hop, weakest)} ${weakest.to} receives ${level}, below the threshold ${threshold} of ${weakest.modulation}${degraded}`,
      help: standbyHelp(weakest),
    });
  },
};
