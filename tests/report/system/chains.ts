/** Chains of designs written as a user writes them. */
import type { Design, Hop } from "../../../shared/design/design.js";
import { sitePlans } from "../../../shared/equipment/site-plan.js";
import { siteWiring } from "../../../shared/equipment/wiring/site-wiring.js";
import type { HopResult } from "../../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../../shared/evaluate/hop.js";
import { inverse } from "../../../shared/geodesy/geodesic.js";
import type { HopChain } from "../../../shared/report/draw/system/chain/chain.js";
import { hopChain } from "../../../shared/report/draw/system/chain/hop-chain.js";
import { levelGround } from "../../evaluate/builders.js";

export interface Chained {
  readonly hop: Hop;
  readonly result: HopResult;
  readonly chain: HopChain;
}

export function chainsIn(design: Design): readonly Chained[] {
  const plans = sitePlans(design);
  return [...design.hops.values()].map((hop) => {
    const result = evaluateHop(hop, groundOf(hop));
    const [one, other] = hop.ends.map(({ site }) => plans.get(site.name));
    const chain = hopChain(hop, result, [one && siteWiring(one), other && siteWiring(other)]);
    return { hop, result, chain };
  });
}

function groundOf({ ends }: Hop) {
  const [a, b] = ends.map(({ site }) => site.position);
  return levelGround(a && b ? inverse({ from: a, to: b }).distanceM : 1);
}
