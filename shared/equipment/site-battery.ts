/** How long the battery of a site carries all that it draws. */
import { batteryAutonomy, USUAL_BATTERY } from "./battery.js";
import { siteLoad } from "./power.js";
import type { SitePlan } from "./site-plan.js";

/** @returns undefined without a battery, and without a load: then there is nothing to carry */
export function siteBattery(plan: SitePlan) {
  const battery = plan.equipment?.battery;
  if (battery === undefined) return undefined;
  const { capacityAh, nominalV, depthOfDischarge = USUAL_BATTERY.depthOfDischarge } = battery;
  const { totalW: loadW, unknown } = siteLoad(plan);
  const found = batteryAutonomy({ capacityAh, nominalV, depthOfDischarge, loadW });
  return found.ok ? { ...battery, depthOfDischarge, loadW, unknown, hours: found.hours } : undefined;
}
