import { address } from "../design/address.js";
import { decibels } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const powerControlRange: HopRule = {
  scope: "hop",
  id: "power-control-range",
  severity: "warning",
  title: "Power control must lie within the range of the radio",
  checks: "What a hop or its end uses of automatic power control against the range that the radio states.",
  why: "Interference would be counted lower than the radio can make it.",
  fix: "State less, or the range of the radio in the catalogue.",
  source: "data of the equipment",
  needs: [],
  restsOn: ["radio", "power-control"],
  good: exampleHop(),
  bad: exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  power-control yes",
  }),
  check({ hop, report }) {
    const { radio } = hop;
    if (radio === undefined) return;
    const told = new Set<string>();
    for (const { site, powerControl } of hop.ends) {
      if (powerControl === undefined) continue;
      const { reductionDb } = powerControl;
      const range = radio.powerControlRangeDb;
      const fault =
        reductionDb === undefined
          ? `power control is to be used, and ${radio.name} states no range of it: none is counted`
          : range === undefined && reductionDb > 0
            ? `power control by ${decibels(reductionDb)} counts, and ${radio.name} states no range of it`
            : range !== undefined && reductionDb > range
              ? `power control by ${decibels(reductionDb)} is more than the ${decibels(range)} of ${radio.name}`
              : undefined;
      // Stated for both ends it is told once.
      if (fault === undefined || told.has(fault)) continue;
      told.add(fault);
      report({ at: address("hop", hop.name, site.name, "power-control"), message: `${hop.name}: ${fault}` });
    }
  },
};
