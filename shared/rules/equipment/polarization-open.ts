import { address } from "../../design/address.js";
import type { Fix } from "../../design/fact-change.js";
import { arrangementByName } from "../../radio/arrangements.js";
import { exampleHop } from "../example-preamble.js";
import { decision, type Mending } from "../fixes/mending.js";
import type { HopRule } from "../rule.js";

const DUAL = "antenna DISH60-18-VH like DISH60-18 {\n  polarizations dual\n}\n\n";
const both = (polarization: string) =>
  DUAL +
  exampleHop({
    hop: `${polarization}radio R18\n  mode 55 MHz 128QAM\n  arrangement 2+0 xpic`,
    keld: "antenna DISH60-18-VH at 40 m\n    coupler O18 direct\n    transmits high",
    tarn: "antenna DISH60-18-VH at 40 m\n    coupler O18 direct\n    transmits low",
  });

export const polarizationOpen: HopRule = {
  scope: "hop",
  id: "polarization-open",
  severity: "warning",
  arrangements: ({ polarizations }) => polarizations === 2,
  title: "On both polarizations it must be said which carrier has which",
  checks: "Whether a hop whose arrangement uses both polarizations states that of its first carrier.",
  why: 'Figures do not depend on it, papers do: order, licence and installation sheet say "not stated", and the units of the two ends may be set across each other.',
  fix: "State the polarization of the first carrier; the second stands across it.",
  source: "common practice",
  needs: [],
  restsOn: ["arrangement", "polarization"],
  fixes: statePolarization,
  good: both("polarization vertical\n  "),
  bad: both(""),
  check({ hop, report }) {
    if (hop.polarization !== undefined || arrangementByName(hop.arrangement.name)?.polarizations !== 2)
      return;
    report({
      at: address("hop", hop.name, "polarization"),
      message: `${hop.arrangement.name} uses both polarizations, and which its first carrier has is not stated`,
      related: [{ at: address("hop", hop.name, "arrangement"), message: hop.arrangement.name }],
    });
  },
};

/** Either polarization for the first carrier. */
function statePolarization({ hop }: Mending): readonly Fix[] {
  if (!hop) return [];
  return ["vertical", "horizontal"].map((polarization) =>
    decision(`State polarization ${polarization} for the first carrier`, {
      do: "state",
      in: address("hop", hop.name),
      line: `polarization ${polarization}`,
    }),
  );
}
