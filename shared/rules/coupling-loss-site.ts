import { address, nth } from "../design/address.js";
import type { Design } from "../design/design.js";
import type { CouplingLoss } from "../design/interference.js";
import { decibels } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";

export const couplingLossSite: NetworkRule = {
  scope: "network",
  id: "coupling-loss-site",
  severity: "error",
  title: "A coupling loss is of two hops that end at its site",
  checks:
    "Whether both hops of a `coupling-loss` end at the site, are two, and have one loss between them; a hop that cannot be judged yet is let pass.",
  why: "A loss that is of other antennas would excuse what nobody measured.",
  fix: "Name the two hops of this site between whose antennas it was measured.",
  source: "common practice",
  good: exampleHop(),
  bad: `${exampleHop()}
site MOSS {
  at 47.48 -30.48
  structure mast 60 m
  coupling-loss KELD-TARN KELD-TARN 60 dB
}`,
  check({ design, report }) {
    for (const [site, { couplingLosses = [] }] of design.interferenceAt ?? []) {
      const known = new Map<string, number>();
      for (const [index, one] of couplingLosses.entries()) {
        const fault = faultOf(site, one, known, design);
        if (fault !== undefined)
          report({ at: address("site", site, nth("coupling-loss", index)), message: `${site}: ${fault}` });
      }
    }
  },
};

/** @param known losses of pairs that stand before it, to which it is added */
function faultOf(
  site: string,
  { hops, lossDb }: CouplingLoss,
  known: Map<string, number>,
  design: Design,
): string | undefined {
  const [one, other] = hops;
  if (one === other) return `a coupling loss is between two hops, not of ${one} alone`;
  const elsewhere = hops.find((name) => {
    const hop = design.hops.get(name);
    return hop !== undefined && !hop.ends.some((end) => end.site.name === site);
  });
  if (elsewhere !== undefined) return `${elsewhere} does not end here, and has no coupling loss here`;
  const pair = [...hops].sort().join(" ");
  const before = known.get(pair);
  known.set(pair, before ?? lossDb);
  if (before === undefined) return undefined;
  return `the coupling loss of ${one} and ${other} is stated twice; ${decibels(before)} counts`;
}
