/** The air that has to flow through a chassis at the height of its site. */
import { airFlow } from "./heat.js";
import type { SitePlan } from "./site-plan.js";
import { standardAirDensity } from "./wind.js";

/** Warming of the cooling air. Common practice. */
const RISE_K = 10;

export function coolingAir(plan: SitePlan, heatW: number) {
  const airDensityKgPerM3 = densityAt(plan);
  const air = airFlow({ heatW, riseK: RISE_K, airDensityKgPerM3 });
  return air.ok ? { ...air, riseK: RISE_K, airDensityKgPerM3 } : air;
}

/** Thin air carries less; undefined where the site's height is not stated. */
function densityAt({ site }: SitePlan): number | undefined {
  const density = site.groundM === undefined ? undefined : standardAirDensity(site.groundM);
  return density?.ok ? density.airDensityKgPerM3 : undefined;
}
