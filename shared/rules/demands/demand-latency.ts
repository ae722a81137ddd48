import { address } from "../../design/address.js";
import { fixed } from "../../format/numbers.js";
import { latencyParts } from "../../words/demand-figures.js";
import type { NetworkRule } from "../rule.js";
import { exampleDemand } from "./example-demand.js";

export const demandLatency: NetworkRule = {
  scope: "network",
  id: "demand-latency",
  severity: "error",
  ofResults: true,
  title: "A demand must arrive in time",
  checks:
    "Time of the path at the speed of light, of the radios and switches on the way, of the frame that each hop sends anew in its lowest mode, and of filling a packet with TDM (not the buffer at the far end), on the slower of its routes, against `latency`. Where `traffic` states none, 200 us a hop and 20 us a site are taken (ours).",
  why: "Control, voice and clocks bear no detour, and a protection over the far side of a ring may be one.",
  fix: "Fewer hops, a shorter second route, faster radios, smaller frames.",
  source: "arithmetic; the usual figures are ours, from memory",
  good: exampleDemand(["latency 2 ms"]),
  bad: exampleDemand(["latency 0.1 ms"]),
  check({ demands, report }) {
    for (const { demand, verdicts, route, second } of demands?.demands.values() ?? []) {
      if (verdicts.latency !== "missed") continue;
      const isSecond = (second?.latency.totalS ?? 0) > route!.latency.totalS;
      const latency = (isSecond ? second! : route!).latency;
      const ms = (seconds: number) => `${fixed(1000 * seconds, 3)} ms`;
      report({
        at: address("demand", demand.name, "latency"),
        message: `${demand.name} takes ${ms(latency.totalS)}${isSecond ? " over the second route" : ""}, at most ${ms(demand.latencyS!)} is asked: ${latencyParts(latency)}`,
      });
    }
  },
};
