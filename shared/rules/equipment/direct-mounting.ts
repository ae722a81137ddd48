import { address } from "../../design/address.js";
import type { Antenna } from "../../design/design.js";
import { mountingOf } from "../../equipment/mounting.js";
import { metres } from "../../format/numbers.js";
import { exampleHop } from "../example-preamble.js";
import type { HopRule } from "../rule.js";

/** Where the catalogue says nothing. Common practice, from memory: usual to 1.2 m, possible to 1.8 m. */
const LARGEST_M = 1.8;

export const directMounting: HopRule = {
  scope: "hop",
  id: "direct-mounting",
  severity: "error",
  title: "An antenna that is mounted directly must be made for it",
  checks:
    "Direct mounting against what the antenna states, or against a diameter of 1.8 m where it states nothing.",
  why: "A large antenna has no plate for a unit on its back: the unit arrives and fits nowhere, and the flexible waveguide was not ordered.",
  fix: "Mount separately with a waveguide, or choose a smaller antenna.",
  source: "common practice",
  needs: [],
  good: exampleHop({ keld: "antenna A18-06 at 40 m\n    mounting direct\n    transmits high" }),
  bad: `antenna A18-24 like A18-06 {
  diameter 2.4 m
  gain 50 dBi
}

${exampleHop({ keld: "antenna A18-24 at 40 m\n    mounting direct\n    transmits high" })}`,
  check({ hop, report }) {
    for (const end of hop.ends) {
      const why = end.antenna && mountingOf(end) === "direct" ? reason(end.antenna) : undefined;
      if (why === undefined) continue;
      report({
        at: address("hop", hop.name, end.site.name, end.mounting === undefined ? "mounting" : "coupler"),
        about: address("hop", hop.name, end.site.name),
        message: `direct mounting at ${end.site.name}: ${end.antenna!.name} ${why}`,
        related: [{ at: address("antenna", end.antenna!.name), message: end.antenna!.name }],
      });
    }
  },
};

function reason({ mount, diameterM }: Antenna): string | undefined {
  if (mount?.direct === true) return undefined;
  if (mount?.direct === false) return "is not made for it";
  return diameterM !== undefined && diameterM > LARGEST_M
    ? `has ${metres(diameterM)}, and its catalogue entry does not allow it`
    : undefined;
}
