import type { Design, Hop } from "../../shared/design/design.js";
import { merged, type Part, partsOfEnd } from "../../shared/equipment/parts-list.js";
import { sitePlans } from "../../shared/equipment/site-plan.js";

/** Parts of a hop, both ends together. */
export function partsOfHop(hop: Hop, design: Design): readonly Part[] {
  const plans = sitePlans(design);
  return merged(
    hop.ends.flatMap((end) => {
      const plan = plans.get(end.site.name);
      const here = plan?.ends.find((one) => one.hop === hop);
      return plan && here ? partsOfEnd(here, plan, design) : [];
    }),
  );
}
