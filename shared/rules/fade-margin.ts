import { address } from "../design/address.js";
import { apart, decibels } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import { proposedChanges } from "./fixes/proposed.js";
import { marginVerdict, toldOfMode, weakerDirection } from "./judged-modes.js";
import { levelAdvice } from "./level-advice.js";
import type { HopRule } from "./rule.js";

export const fadeMargin: HopRule = {
  scope: "hop",
  id: "fade-margin",
  severity: "error",
  title: "The fade margin must be as large as the objective asks",
  checks:
    "Flat fade margin of the mode that carries the capacity asked for (else of the lowest mode), weaker direction, against the objective.",
  why: "The margin is what rain and multipath may take before the service is lost.",
  fix: "Larger antennas, less loss, more power, a lower mode or band.",
  source: "common practice",
  once: true,
  needs: ["levels", "objective"],
  quietAfter: ["path-length", "frequency-outside-tuning", "level-below-threshold", "capacity"],
  fixes: proposedChanges,
  good: exampleHop(),
  bad: `objective deep {\n  margin 40 dB\n}\n\n${exampleHop().replace("objective trunk", "objective deep")}`,
  check(context) {
    const { hop, result, report, has, leaveToCause } = context;
    const asked = hop.objective!.fadeMarginDb;
    const weaker = weakerDirection(hop, result);
    if (asked === undefined || weaker === undefined) return;
    if (marginVerdict(hop, result, weaker) !== "missed") return;
    const { direction, mode } = weaker;
    const lackDb = asked - mode.fadeMarginDb;
    const diffractionDb = result.diffractionLossDb ?? 0;
    // Told at the obstruction already. A missed availability hides nothing: margin and availability are asked each.
    if (has("clearance") && (diffractionDb >= lackDb || mode.fadeMarginDb <= 0)) return leaveToCause();
    const [margin, wanted] = apart(decibels, mode.fadeMarginDb, asked);
    report({
      at: address("hop", hop.name, direction.to),
      message: `fade margin ${margin} from ${direction.from} to ${direction.to} with ${mode.modulation}; the objective asks ${wanted}`,
      ...toldOfMode(hop, levelAdvice(context, fadeMargin.id, { lackDb, diffractionDb })),
      related: [
        {
          at: address("objective", hop.objective!.name, "margin"),
          message: `margin of ${hop.objective!.name}`,
        },
      ],
    });
  },
};
