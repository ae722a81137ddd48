import type { Design } from "../../shared/design/design.js";
import { stockOf } from "../resolve/stock.js";
import type { DesignModel } from "./design-model.js";

/** As much of the design as one hop's parts need: the hop, the pair of it, and what stands at its two sites. */
export function aroundHop(model: DesignModel, name: string): Design | undefined {
  const hop = model.hop(name)?.hop;
  if (!hop) return undefined;
  const pair = hop.pairedWith === undefined ? undefined : model.hop(hop.pairedWith)?.hop;
  const hops = [hop, ...(pair ? [pair] : [])];
  const sites = hop.ends.map(({ site }) => site);
  const equipment = new Map(
    sites.flatMap(({ name: site }) => {
      const stands = model.lookup.equipment(site);
      return stands ? [[site, stands] as const] : [];
    }),
  );
  return {
    terrain: [],
    sites: new Map(sites.map((site) => [site.name, site])),
    hops: new Map(hops.map((one) => [one.name, one])),
    ...stockOf(model.networkFacts(), equipment, model.lookup),
  };
}
