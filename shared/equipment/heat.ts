/** Heat of indoor equipment and the room it takes in a rack. */
import { figures, negative, notPositive, type Outcome, refuse } from "../propagation/outcome.js";

/** Dry air near sea level: kg/m3 and J/(kg K). */
const AIR_KG_PER_M3 = 1.2;
const AIR_J_PER_KG_K = 1005;

/**
 * Air that carries heat away, V = 3600 P/(rho cp dT): about 3 P/dT.
 *
 * @param inputs.heatW >= 0
 * @param inputs.riseK warming of the air, > 0
 * @param inputs.airDensityKgPerM3 > 0, near sea level when left out
 * @see energy balance
 */
export function airFlow(inputs: {
  readonly heatW: number;
  readonly riseK: number;
  readonly airDensityKgPerM3?: number;
}): Outcome<{ readonly flowM3PerH: number }> {
  const { heatW, riseK, airDensityKgPerM3 = AIR_KG_PER_M3 } = inputs;
  const unusable = negative({ heatW }) ?? notPositive({ riseK, airDensityKgPerM3 });
  if (unusable) return refuse(unusable);
  return figures({ flowM3PerH: (3600 * heatW) / (airDensityKgPerM3 * AIR_J_PER_KG_K * riseK) });
}
