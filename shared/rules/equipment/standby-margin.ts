import { address } from "../../design/address.js";
import { apart, decibels } from "../../format/numbers.js";
import { exampleHop } from "../example-preamble.js";
import { weakerDirection } from "../judged-modes.js";
import type { HopRule } from "../rule.js";
import { HOT_STANDBY } from "./example-equipment.js";

const objective = (margin: number) => `objective guarded like trunk {
  standby-margin ${margin} dB
}

${exampleHop(HOT_STANDBY).replace("objective trunk", "objective guarded")}`;

export const standbyMargin: HopRule = {
  scope: "hop",
  id: "standby-margin",
  severity: "error",
  title: "After one switch to standby the margin asked for must be left",
  checks:
    "Fade margin over the weaker of the paths after one switch against the objective's standby-margin, in the mode that carries the capacity asked for.",
  why: "On an unequal coupler the standby path is weaker by the difference of the arms. Most owners ask that it keeps some margin, whatever share of time it is in use.",
  fix: "A coupler with less difference between its arms, larger antennas, or a lower mode.",
  source: "common practice",
  needs: ["levels", "objective"],
  quietAfter: ["path-length", "frequency-outside-tuning", "level-below-threshold", "standby-level"],
  good: objective(10),
  bad: objective(35),
  check({ hop, result, report }) {
    const asked = hop.objective?.standbyMarginDb;
    const weaker = weakerDirection(hop, result);
    if (asked === undefined || weaker === undefined) return;
    const { direction, mode } = weaker;
    const switched = (direction.paths ?? [])
      .filter(({ state }) => state === "receiver on standby" || state === "sender on standby")
      .toSorted((a, b) => a.receivedLevelDbm - b.receivedLevelDbm)[0];
    if (switched === undefined) return;
    const marginDb = mode.fadeMarginDb + switched.receivedLevelDbm - direction.receivedLevelDbm;
    if (marginDb >= asked - 1e-9) return;
    const [left, wanted] = apart(decibels, marginDb, asked);
    report({
      at: address("hop", hop.name, direction.to, "coupler"),
      message: `with the ${switched.state} ${left} are left towards ${direction.to} in ${mode.modulation}; the objective asks ${wanted}`,
      related: [
        {
          at: address("objective", hop.objective!.name, "standby-margin"),
          message: `asks ${decibels(asked)}`,
        },
      ],
    });
  },
};
