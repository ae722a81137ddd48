import { address, nth } from "../design/address.js";
import type { Design } from "../design/design.js";
import type { CouplingLoss } from "../design/interference.js";
import { decibels } from "../format/numbers.js";
import { inverse } from "../geodesy/geodesic.js";
import { NEAR_M } from "../interference/search.js";
import { listed } from "../words/lists.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";

export const couplingLossSite: NetworkRule = {
  scope: "network",
  id: "coupling-loss-site",
  severity: "error",
  title: "A coupling loss is of two hops that end at its site",
  checks:
    "Whether both hops of a `coupling-loss` end at the site, or one of them within 100 m of it, are two, and have one loss between them; whether that of a `coupling-loss-others` ends there. A hop that cannot be judged yet is let pass.",
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
      const counts = new Map<string, number>();
      for (const one of couplingLosses) {
        const what = one.hops.length === 1 ? "coupling-loss-others" : "coupling-loss";
        const index = counts.get(what) ?? 0;
        counts.set(what, index + 1);
        const fault = faultOf(site, one, known, design);
        if (fault !== undefined)
          report({ at: address("site", site, nth(what, index)), message: `${site}: ${fault}` });
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
  const endsHere = hops.map((name) => endsAt(name, site, design));
  const elsewhere = hops.find((_, i) => endsHere[i] === "elsewhere");
  if (elsewhere !== undefined) return `${elsewhere} does not end here, and has no coupling loss here`;
  if (endsHere.every((where) => where === "near")) return `${listed(hops)} end near, and not here`;
  const pair = [...hops].sort().join(" ");
  const before = known.get(pair);
  known.set(pair, before ?? lossDb);
  if (before === undefined) return undefined;
  return `the coupling loss of ${one} and ${other ?? "others"} is stated twice; ${decibels(before)} counts`;
}

/** At the site, at another of the same place, or elsewhere; a hop or place that is not known is let pass. */
function endsAt(name: string, site: string, { hops, sites }: Design): "here" | "near" | "elsewhere" {
  const hop = hops.get(name);
  if (hop === undefined || hop.ends.some((end) => end.site.name === site)) return "here";
  const position = sites.get(site)?.position;
  if (position === undefined) return "elsewhere";
  const isNear = hop.ends.some(
    (end) =>
      end.site.position !== undefined &&
      inverse({ from: position, to: end.site.position }).distanceM < NEAR_M,
  );
  return isNear ? "near" : "elsewhere";
}
