import { address } from "../../design/address.js";
import { mountingOf } from "../../equipment/mounting.js";
import { exampleHop } from "../example-preamble.js";
import type { HopRule } from "../rule.js";

export const waveguideMissing: HopRule = {
  scope: "hop",
  id: "waveguide-missing",
  severity: "error",
  title: "Separate mounting needs a waveguide to the antenna",
  checks: "Whether an end that is mounted separately names its feeder.",
  why: "Unit or coupler on the pole reach the antenna through a flexible waveguide only. It is forgotten in orders, and its loss is missing in the level.",
  fix: "Name the feeder with its length, or mount directly.",
  source: "common practice",
  needs: [],
  good: exampleHop({
    keld: "antenna A18-06 at 40 m\n    mounting direct\n    transmits high",
  }),
  bad: exampleHop({ keld: "antenna A18-06 at 40 m\n    mounting separate\n    transmits high" }),
  check({ hop, report }) {
    for (const end of hop.ends) {
      if (mountingOf(end) !== "separate" || end.feeder !== undefined || end.antenna === undefined) continue;
      const part = end.coupler?.name ?? hop.radio?.name ?? "the unit";
      report({
        at: address("hop", hop.name, end.site.name, end.mounting === undefined ? "mounting" : "coupler"),
        message: `${part} at ${end.site.name} is mounted separately from ${end.antenna.name}, but no waveguide joins them`,
      });
    }
  },
};
