import type { SitePlan } from "../site-plan.js";
import { Assembly } from "./assembly.js";
import { addBaluns, addContacts, addRack, addTraffic } from "./indoor.js";
import { addEnd, servedBy } from "./outdoor.js";
import { addPlant, joinFeeds } from "./supply.js";
import type { Wiring } from "./wiring.js";

const wirings = new WeakMap<SitePlan, Wiring>();

/** What is joined to what at a site, stated or proposed. A plan is immutable: it is made once. */
export function siteWiring(plan: SitePlan): Wiring {
  let known = wirings.get(plan);
  if (known === undefined) wirings.set(plan, (known = make(plan)));
  return known;
}

function make(plan: SitePlan): Wiring {
  const to = new Assembly();
  addBaluns(plan, to);
  addRack(plan, to);
  const fused = addPlant(plan, to);
  joinFeeds(fused, "chassis", to);
  addContacts(plan, to);
  const served = servedBy(plan);
  const units = plan.ends.flatMap((end) => addEnd(end, served, to));
  joinFeeds(fused, "hop", to);
  addTraffic(plan, units, to);
  return to.wiring(plan.site.name);
}
