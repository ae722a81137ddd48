import { address } from "../../design/address.js";
import { apart, outage } from "../../format/numbers.js";
import { someOf } from "../../words/demands.js";
import { exampleHop } from "../example-preamble.js";
import type { NetworkRule } from "../rule.js";
import { exampleDemand } from "./example-demand.js";

/** Over two hops, of which the second takes less than its half. */
function chain(loss: string): string {
  const beyond = exampleHop().replaceAll("TARN", "MOSS").replace("/ 4", "/ 8");
  return `site MOSS {\n  at 47.46 -30.41\n  structure mast 60 m\n}\n\n${beyond}\n\n${exampleDemand(
    ["committed 100 Mbit/s", "availability 99.99 %"],
    { keld: `antenna DISH60-18 at 40 m\n    transmits high${loss}` },
  ).replace("from KELD", "from MOSS")}`;
}

export const objectiveShare: NetworkRule = {
  scope: "network",
  id: "objective-share",
  severity: "warning",
  ofResults: true,
  title: "A hop with an objective should hold the stricter of that and its demands' share",
  checks:
    "Of hops that state an objective and are asked more by a demand, whose share goes by length along its route: what the hop takes of the year in the mode that carries the demand, against that share. Where the demand is missed, that is told of the demand.",
  why: "The demand holds because other hops on its way are better than they need be. Change one of them, and it falls.",
  fix: "More margin on this hop, a stricter objective for it, or an acceptance that says which hop makes up for it.",
  source: "shares by length are common practice, no source",
  good: chain(""),
  bad: chain("\n    extra-loss 3 dB"),
  check({ demands, report }) {
    for (const { hop, share } of demands?.hops.values() ?? []) {
      if (share?.ownPercent === undefined) continue;
      const { ownPercent } = share;
      // What exceeds its own objective too is told of that.
      const all = share.exceeded.filter(
        (one) => one.othersMakeUp && one.leftPercent < ownPercent && one.outagePercent <= ownPercent,
      );
      const [most] = all;
      if (most === undefined) continue;
      const [takes, left] = apart(outage, most.outagePercent, most.leftPercent);
      const [, own] = apart(outage, most.outagePercent, ownPercent);
      const others =
        all.length === 1 ? "" : `; the same holds for ${someOf(all.slice(1).map(({ demand }) => demand))}`;
      report(
        {
          at: address("hop", hop, "objective"),
          message: `${most.demand} leaves it ${left} by length, stricter than the ${own} of its objective, and it takes ${takes} with ${most.modulation}, which carries that demand${others}; other hops make up for it`,
          related: all.slice(0, 4).map(({ demand }) => ({
            at: address("demand", demand, "availability"),
            message: `${demand} asks for it`,
          })),
        },
        hop,
      );
    }
  },
};
