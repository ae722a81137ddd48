import { exampleHop } from "./example-preamble.js";
import { rayFault } from "./ray-fault.js";
import type { HopRule } from "./rule.js";

const DIVERSITY =
  "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 space-diversity";
const withSecondAt = (heightM: number) =>
  exampleHop({
    hop: DIVERSITY,
    keld: `antenna DISH60-18 at 30 m\n    diversity-antenna DISH60-18 at ${heightM} m\n    transmits high`,
    more: "climate { unchecked-methods leave-out }",
    tarn: "antenna DISH60-18 at 30 m\n    diversity-antenna DISH60-18 at 24 m\n    transmits low",
  });

export const diversityClearance: HopRule = {
  scope: "hop",
  id: "diversity-clearance",
  severity: "error",
  arrangements: ({ spaceDiversity }) => spaceDiversity,
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
    for (const path of result.furtherPaths ?? []) {
      const finding = path.of === "diversity" ? rayFault(hop, path) : undefined;
      if (finding !== undefined) report(finding);
    }
  },
};
