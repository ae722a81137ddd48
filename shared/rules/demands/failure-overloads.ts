import { address } from "../../design/address.js";
import { bitRate } from "../../format/numbers.js";
import { elementWords, someOf } from "../../words/demands.js";
import type { NetworkRule } from "../rule.js";
import { exampleDemand } from "./example-demand.js";

export const failureOverloads: NetworkRule = {
  scope: "network",
  id: "failure-overloads",
  severity: "warning",
  ofResults: true,
  title: "What moves when something fails must fit where it goes",
  checks:
    "For every hop the failure of one hop, site or card that brings most committed traffic to it, against what it carries at the share of time that its own demands ask, else in clear air.",
  why: "A ring that carries everything when whole and half of it when broken protects nobody.",
  fix: "More capacity on the way round, a second route stated elsewhere, or less committed.",
  source: "common practice, no source",
  good: exampleDemand(["committed 100 Mbit/s"]),
  bad: `${exampleDemand(["committed 300 Mbit/s"])}\n\n${exampleDemand([], { more: "" })
    .split("\n\ndemand")[0]!
    .replace("hop KELD-TARN", "hop KELD-TARN-B")
    .replace("/ 4", "/ 8")
    .replace("128QAM", "QPSK")}`,
  check({ demands, report }) {
    for (const { hop, worst, carriedBps } of demands?.hops.values() ?? []) {
      if (!worst?.overloaded) continue;
      // Told where most comes from: that is the demand to move or to make smaller.
      const bpsOf = (name: string) => demands!.demands.get(name)!.taken.committedBps;
      const first = worst.demands.reduce((most, name) => (bpsOf(name) > bpsOf(most) ? name : most));
      report({
        at: address("demand", first),
        about: hop,
        message: `without ${elementWords(worst.element)}, ${hop} has ${bitRate(worst.committedBps)} committed to carry, it carries ${bitRate(carriedBps!)}; ${someOf(worst.demands)} ${worst.demands.length === 1 ? "comes" : "come"} to it`,
        related: [{ at: address("hop", hop), message: `carries ${bitRate(carriedBps!)}` }],
      });
    }
  },
};
