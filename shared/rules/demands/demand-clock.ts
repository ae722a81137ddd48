import { USUAL_CLOCK_HOPS } from "../../demands/clocks.js";
import { address } from "../../design/address.js";
import type { TrafficAtSite } from "../../design/demand.js";
import { someOf } from "../../words/demands.js";
import type { NetworkRule } from "../rule.js";
import { exampleDemand } from "./example-demand.js";

export const demandClock: NetworkRule = {
  scope: "network",
  id: "demand-clock",
  severity: "error",
  ofResults: true,
  title: "A clock must reach where it is wanted",
  checks:
    "The nearest site that states `clock-source`, else `handover`, and the hops between, against `clock-hops` of `traffic` (20 where it states none); for two feeds whether a second way shares no hop with the first. Each site takes its clock from one side alone, so that no loop arises.",
  why: "A clock that passes too many hops wanders, and one that comes over one hop goes with it.",
  fix: "A clock source nearer by, a hop that closes a ring, or one feed asked.",
  source: "common practice; 20 hops from memory (ITU-T G.803)",
  good: `site MOSS {\n  at 47.46 -30.41\n  structure mast 60 m\n  clock-source\n}\n\n${exampleDemand(["clock one-feed"]).replaceAll("TARN", "MOSS")}`,
  bad: exampleDemand(["clock one-feed"]),
  check({ design, demands, report }) {
    const limit = design.traffic?.clockHops ?? USUAL_CLOCK_HOPS;
    for (const { demand, verdicts, clock, route } of demands?.demands.values() ?? []) {
      if (verdicts.clock !== "missed" || route === undefined) continue;
      const why =
        clock === undefined
          ? `no site with a clock reaches ${demand.from}: ${sourcesWords(design.trafficAt ?? new Map())}`
          : clock.hops > limit
            ? `the clock of ${clock.source} comes over ${clock.hops} hops, at most ${limit} are allowed`
            : clock.secondHops === undefined
              ? `one feed comes, from ${clock.source} over ${clock.hops} ${clock.hops === 1 ? "hop" : "hops"}; no second shares no hop with it`
              : `the second feed comes over ${clock.secondHops} hops, at most ${limit} are allowed`;
      report({ at: address("demand", demand.name, "clock"), message: `${demand.name}: ${why}` });
    }
  },
};

/** Where a clock is stated, if anywhere. */
function sourcesWords(sites: ReadonlyMap<string, TrafficAtSite>): string {
  const stated = [...sites].flatMap(([name, { clockSource, handover }]) =>
    clockSource || handover ? name : [],
  );
  if (stated.length === 0) return "none states `clock-source` or `handover`";
  return `no hops that stand lead there from ${someOf(stated)}, where one is stated`;
}
