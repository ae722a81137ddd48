import { address } from "../../design/address.js";
import { apart, decibels } from "../../format/numbers.js";
import { exampleHop } from "../example-preamble.js";
import { lessUnequal } from "../fixes/antennas.js";
import type { HopRule } from "../rule.js";
import { obstructionTold, standbyAddress, standbyHelp, standbyWords } from "../standby-words.js";
import { HOT_STANDBY } from "./example-equipment.js";

const objective = (margin: number) => `objective guarded like trunk {
  standby-margin ${margin} dB
}

${exampleHop(HOT_STANDBY).replace("objective trunk", "objective guarded")}`;

export const standbyMargin: HopRule = {
  scope: "hop",
  id: "standby-margin",
  severity: "error",
  arrangements: ({ hotStandby }) => hotStandby,
  title: "With any unit on standby the margin asked for must be left",
  checks:
    "Fade margin in every state with a unit on standby (at the receiver, at the sender, at both ends), both directions, against the objective's standby-margin, in the mode that carries the capacity asked for.",
  why: "On an unequal coupler a standby path is weaker by the difference of the arms at each end that has switched. Most owners ask that it keeps some margin, whatever share of time it is in use.",
  fix: "A coupler with less difference between its arms; where each unit has an antenna of its own, a higher or larger second one; larger antennas, or a lower mode.",
  source: "common practice",
  once: true,
  needs: ["levels", "objective"],
  quietAfter: ["path-length", "frequency-outside-tuning", "level-below-threshold"],
  fixes: lessUnequal,
  good: objective(10),
  bad: objective(18),
  check({ hop, result, report, has, leaveToCause }) {
    const { askedDb, verdict, weakest } = result.standby ?? {};
    if (verdict !== "missed" || askedDb === undefined || weakest === undefined) return;
    if (obstructionTold(has, weakest, askedDb)) return leaveToCause();
    const [left, wanted] = apart(decibels, weakest.fadeMarginDb, askedDb);
    report({
      at: standbyAddress(hop, weakest),
      message: `${standbyWords(hop, weakest)} ${left} are left towards ${weakest.to} in ${weakest.modulation}; the objective asks ${wanted}`,
      help: standbyHelp(weakest),
      related: [
        {
          at: address("objective", hop.objective!.name, "standby-margin"),
          message: `asks ${decibels(askedDb)}`,
        },
      ],
    });
  },
};
