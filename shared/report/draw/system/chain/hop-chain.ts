import type { Hop } from "../../../../design/design.js";
import { sidesOf } from "../../../../equipment/branches.js";
import { branchesAt } from "../../../../equipment/stands.js";
import { unitsOf } from "../../../../equipment/units.js";
import type { Wiring } from "../../../../equipment/wiring/wiring.js";
import type { HopResult } from "../../../../evaluate/account/result.js";
import { withinReason } from "../../../../evaluate/reason.js";
import { factsAt } from "../../../../radio/arrangement-pairs.js";
import type { Air, ChainEnd, ChainLack, ChainLine, HopChain } from "./chain.js";
import { withFigures } from "./figures.js";
import { joinedWay } from "./walk.js";

/** @param wirings of the sites of both ends, in their order; undefined: nothing is known of the site */
export function hopChain(
  hop: Hop,
  result: HopResult,
  wirings: readonly [Wiring | undefined, Wiring | undefined],
): HopChain {
  const built = [factsAt(hop, hop.ends[0]), factsAt(hop, hop.ends[1])] as const;
  const lacks: ChainLack[] = [
    ...(built.includes(undefined) ? (["arrangement"] as const) : []),
    ...(hop.radio === undefined ? (["radio"] as const) : []),
    ...(result.directions.length < 2 ? (["level"] as const) : []),
  ];
  const bare = ([0, 1] as const).map((at): ChainEnd => {
    const end = hop.ends[at];
    const facts = built[at];
    if (facts === undefined) return { site: end.site.name, lines: [] };
    const units = unitsOf(hop, end, facts);
    const wiring = wirings[at];
    const lines = branchesAt(end, facts, sidesOf(hop)[at]).map((branch, index): ChainLine => {
      const unit = units[index]!;
      const way = wiring ? joinedWay(wiring, { hop: hop.name, branch, unit }) : { steps: [], lacks: [] };
      const pair = Math.floor(index / 2) + 1;
      return {
        branch,
        unit,
        ...way,
        ...(pair <= facts.xpicPairs && !facts.hotStandby && { xpicPair: pair }),
      };
    });
    return { site: end.site.name, lines };
  });
  const ends = [bare[0]!, bare[1]!] as const;
  return {
    hop: hop.name,
    ends: withFigures(withinReason(hop).hop, result, ends, built),
    air: airOf(result),
    lacks,
  };
}

function airOf({ directions }: HopResult): Air[] {
  return directions.map(({ from, to, frequencyHz, levels }) => ({
    from,
    to,
    frequencyHz,
    losses: levels.flatMap(({ passes, site, changeDb }) =>
      site === undefined ? [{ passes, changeDb }] : [],
    ),
  }));
}
