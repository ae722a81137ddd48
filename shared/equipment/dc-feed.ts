/** Direct current to an outdoor unit: a switching converter takes constant power, so its current rises as voltage falls. */
import { figures, negative, notFinite, notPositive, type Outcome, refuse } from "../propagation/outcome.js";

/**
 * Lowest voltage at the input of -48 V equipment in normal service, interface "A" of ETSI EN 300 132-2. From memory,
 * not checked against the standard.
 */
export const LOWEST_SERVICE_V = 40.5;

export interface Feed {
  readonly loadV: number;
  readonly currentA: number;
  readonly dropV: number;
  /** Lost in the line. */
  readonly lossW: number;
  /** The most the line could deliver, Vs^2/(4R). */
  readonly greatestPowerW: number;
}

/**
 * Voltage at a load of constant power: (Vs + sqrt(Vs^2 - 4 P R))/2.
 *
 * @param inputs.sourceV > 0
 * @param inputs.loadW >= 0
 * @param inputs.loopOhm both conductors, >= 0
 * @returns refusal when the line cannot deliver that power at all
 * @see Ohm's law
 * @example feedOf({ sourceV: 48, loadW: 45, loopOhm: 2.2988 }) // 45.74 V, 0.984 A
 */
export function feedOf(inputs: {
  readonly sourceV: number;
  readonly loadW: number;
  readonly loopOhm: number;
}): Outcome<Feed, { readonly greatestPowerW: number }> {
  const { sourceV, loadW, loopOhm } = inputs;
  const unusable = notPositive({ sourceV }) ?? negative({ loadW, loopOhm }) ?? notFinite({ loadW });
  if (unusable) return refuse(unusable);
  const under = sourceV ** 2 - 4 * loadW * loopOhm;
  // A line without resistance delivers any power: then the load itself is the most that is asked.
  const greatestPowerW = loopOhm > 0 ? sourceV ** 2 / (4 * loopOhm) : loadW;
  if (under < 0) return refuse({ code: "line-cannot-deliver" }, { greatestPowerW });
  const loadV = (sourceV + Math.sqrt(under)) / 2;
  const currentA = loadW / loadV;
  return figures({ loadV, currentA, dropV: sourceV - loadV, lossW: currentA ** 2 * loopOhm, greatestPowerW });
}
