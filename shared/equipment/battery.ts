/** How long a battery carries a site. */
import { figures, negative, notPositive, type Outcome, outside, refuse } from "../propagation/outcome.js";

export interface BatteryInputs {
  /** Rated capacity, Ah, > 0. */
  readonly capacityAh: number;
  /** Nominal voltage, > 0; 48 V when left out. */
  readonly nominalV?: number;
  /** Share of the capacity that may be taken, 0..1; 0.8 when left out (common practice, lead-acid). */
  readonly depthOfDischarge?: number;
  /** 0..1; 1 when left out. */
  readonly temperatureFactor?: number;
  /** Share of the rated capacity left at the end of its life, 0..1; 0.8 when left out (common practice, lead-acid). */
  readonly endOfLifeFactor?: number;
  /** 0..1; 1 when left out. */
  readonly efficiency?: number;
  /** Load, W, > 0. */
  readonly loadW: number;
}

/** Where nothing is stated. Shares by common practice, lead-acid. */
export const USUAL_BATTERY = {
  nominalV: 48,
  depthOfDischarge: 0.8,
  temperatureFactor: 1,
  endOfLifeFactor: 0.8,
  efficiency: 1,
} as const;

/**
 * Hours of autonomy: C V DoD kT kAge eff / P. Discharge faster than the rated one gives less: put in the capacity at
 * the rate of the load.
 *
 * @see energy balance
 * @example batteryAutonomy({ capacityAh: 100, loadW: 300 }) // 10.24 h
 */
export function batteryAutonomy(inputs: BatteryInputs): Outcome<{ readonly hours: number }> {
  const { capacityAh, loadW } = inputs;
  const {
    nominalV = USUAL_BATTERY.nominalV,
    depthOfDischarge = USUAL_BATTERY.depthOfDischarge,
    temperatureFactor = USUAL_BATTERY.temperatureFactor,
    endOfLifeFactor = USUAL_BATTERY.endOfLifeFactor,
    efficiency = USUAL_BATTERY.efficiency,
  } = inputs;
  const shares = { depthOfDischarge, temperatureFactor, endOfLifeFactor, efficiency };
  const unusable = notPositive({ capacityAh, loadW, nominalV }) ?? negative(shares) ?? outside(shares, 0, 1);
  if (unusable) return refuse(unusable);
  const energyWh =
    capacityAh * nominalV * depthOfDischarge * temperatureFactor * endOfLifeFactor * efficiency;
  return figures({ hours: energyWh / loadW });
}
