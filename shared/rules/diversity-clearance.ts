import { address, nth } from "../design/address.js";
import type { Hop } from "../design/design.js";
import type { DiversityPath } from "../evaluate/result.js";
import { decibels, fixed, fresnelAsked, kFactor } from "../format/numbers.js";
import { lackM, neededAtAll, said } from "./clearance.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule, Report } from "./rule.js";

const DIVERSITY =
  "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 space-diversity";
const withSecondAt = (heightM: number) =>
  exampleHop({
    hop: DIVERSITY,
    keld: `antenna A18-06 at 30 m\n    diversity-antenna A18-06 at ${heightM} m\n    transmits high`,
    more: "climate { unchecked-methods leave-out }",
    tarn: "antenna A18-06 at 30 m\n    diversity-antenna A18-06 at 24 m\n    transmits low",
  });

export const diversityClearance: HopRule = {
  scope: "hop",
  id: "diversity-clearance",
  severity: "error",
  title: "The ray to a diversity antenna must be clear too",
  checks:
    "For each diversity antenna the ray from the far end's first antenna, against the objective's `diversity-clearance`, or where it states none against its `clearance`.",
  why: "A receiver behind the ground has no level of its own to give: the second antenna is paid for and improves little.",
  fix: "Raise the diversity antenna, and the first one with it where the spacing asks so; or state the clearance that a diversity antenna needs as `diversity-clearance`.",
  source:
    "Rec. ITU-R P.530-18 section 2.2.2.2, from memory, not checked against the Recommendation: 0.3 to 0.6 F1 at median k over a wide obstruction, 0 to 0.3 F1 over one or two narrow ones",
  needs: ["clearance", "objective"],
  quietAfter: ["path-length"],
  good: withSecondAt(24),
  bad: withSecondAt(8),
  check({ hop, result, report }) {
    for (const path of result.diversityPaths ?? []) {
      const finding = fault(hop, path);
      if (finding !== undefined) report(finding);
    }
  },
};

function fault(hop: Hop, { site, clearance, moreLossDb = 0 }: DiversityPath): Report | undefined {
  const failing = clearance.filter(({ verdict }) => verdict === "missed");
  if (failing.length === 0) return undefined;
  const worst = failing.reduce((a, b) => (lackM(b) > lackM(a) ? b : a));
  const objective = hop.objective!;
  const fact = objective.diversityClearance === undefined ? "clearance" : "diversity-clearance";
  const criteria = objective.diversityClearance ?? objective.clearance;
  const index = criteria.findIndex(
    (one) => one.kFactor === worst.kFactor && one.fresnelFraction === worst.requiredFraction,
  );
  const neededM = neededAtAll(failing, hop.ends[0].site.name === site ? 0 : 1);
  const raise =
    neededM === undefined
      ? "raising it alone does not help"
      : `raise it to ${fixed(Math.ceil(neededM * 10) / 10, 1)} m`;
  const asked = `${fresnelAsked(worst.requiredFraction)}${fact === "clearance" ? " of every antenna" : " of it"}`;
  const loss = moreLossDb < 0.1 ? "" : `; it receives ${decibels(moreLossDb)} less by diffraction`;
  return {
    at: address("hop", hop.name, site, "diversity-antenna.at"),
    message: `diversity antenna at ${site}: ${said(worst)}; the objective asks ${asked}; ${raise}${loss}`,
    help:
      fact === "clearance"
        ? "P.530 lets the lower antenna have less clearance: `diversity-clearance` of the objective states it."
        : undefined,
    related: [
      {
        at: address("objective", objective.name, nth(fact, Math.max(0, index))),
        message: `${fresnelAsked(worst.requiredFraction)} at ${kFactor(worst.kFactor)}`,
      },
    ],
  };
}
