import { exampleHop } from "./example-preamble.js";
import { rayFault } from "./ray-fault.js";
import type { HopRule } from "./rule.js";

const TWO =
  "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 2+0 single-polarization two-antennas";
const withSecondAt = (heightM: number) =>
  exampleHop({
    hop: TWO,
    keld: `antenna DISH60-18 at 30 m\n    second-antenna DISH60-18 at ${heightM} m\n    transmits high`,
    tarn: "antenna DISH60-18 at 30 m\n    second-antenna DISH60-18 at 28 m\n    transmits low",
  });

export const secondAntennaClearance: HopRule = {
  scope: "hop",
  id: "second-antenna-clearance",
  severity: "error",
  arrangements: ({ spaceDiversity, transceivers }) => transceivers > 1 && !spaceDiversity,
  title: "Rays between further antennas must be clear too",
  checks:
    "Each ray that carriers or standby units use over a second, third or fourth antenna, against the objective's `clearance`. Of standby the ray from the far end's first antenna is judged; what diffraction takes from the ray between both standby antennas stands in its level.",
  why: "The carriers on that antenna lose what the ground takes, and the hop is only as good as its weakest carrier.",
  fix: "Raise the antenna.",
  source: "Rec. ITU-R P.530-18 section 2.2, as for the first antennas",
  needs: ["clearance", "objective"],
  quietAfter: ["path-length"],
  good: withSecondAt(28),
  bad: withSecondAt(6),
  check({ hop, result, report }) {
    for (const path of result.furtherPaths ?? []) {
      const finding = path.of === "diversity" ? undefined : rayFault(hop, path);
      if (finding !== undefined) report(finding);
    }
  },
};
