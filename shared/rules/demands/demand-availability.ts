import type { DemandResult } from "../../demands/result.js";
import { address } from "../../design/address.js";
import { apart, availability, yearly } from "../../format/numbers.js";
import { hopShareWords, takesMost } from "../../words/demands.js";
import { moreAvailable } from "../fixes/demands.js";
import type { NetworkRule, Report } from "../rule.js";
import { exampleDemand } from "./example-demand.js";

export const demandAvailability: NetworkRule = {
  scope: "network",
  id: "demand-availability",
  severity: "error",
  ofResults: true,
  title: "A demand must be available as it asks, end to end",
  checks:
    "What propagation, and where asked failures of equipment, take of its route or of both its routes at once, each hop in the lowest mode that carries all that is committed on it up to the demand. Multipath of neighbouring hops by P.530 section 2.3.7, from memory; rain as if on each hop by itself and as if on all at once, the worse counts. Rerouting is not counted, a second route is.",
  why: "Each hop may hold its own objective and the customer at the end of five still lose five times as much.",
  fix: "The hop that takes most: more margin, a lower mode with enough rate, or less to carry; else a second route.",
  source:
    "Rec. ITU-R P.530-18 section 2.3.7, from memory; shares by length and sums are common practice, no source",
  fixes: moreAvailable,
  good: exampleDemand(["committed 100 Mbit/s", "availability 99.9 %"]),
  bad: exampleDemand(["committed 100 Mbit/s", "availability 99.99999 %"]),
  check({ demands, report }) {
    for (const result of demands?.demands.values() ?? []) {
      const { demand, verdicts, outage } = result;
      // What no mode takes is told as that.
      if (outage === undefined || result.short.length > 0) continue;
      if (verdicts.availability === "missed")
        report(reportOf(result, "availability", outage.propagationPercent, demand.availabilityPercent!));
      if (verdicts.availabilityWithEquipment === "missed")
        report(
          reportOf(
            result,
            "availability-with-equipment",
            outage.allPercent ?? outage.propagationPercent,
            demand.availabilityWithEquipmentPercent!,
          ),
        );
    }
  },
};

function reportOf(result: DemandResult, fact: string, outPercent: number, askedPercent: number): Report {
  const { demand, second } = result;
  const [figure, wanted] = apart(availability, 100 - outPercent, askedPercent);
  const [out, allowed] = apart(yearly, outPercent, 100 - askedPercent);
  const most = takesMost(result);
  const what = fact === "availability" ? "available" : "available, equipment counted,";
  return {
    at: address("demand", demand.name, fact),
    message: `${demand.name} is ${what} ${figure} end to end${second ? " over both routes" : ""} (${out} out), ${wanted} is asked (${allowed})${most ? `; ${hopShareWords(most)}` : ""}`,
    related: most && [{ at: address("hop", most.hop), message: `${most.hop} takes most` }],
  };
}
