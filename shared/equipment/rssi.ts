/** The test voltage that an outdoor unit shows for its received level. */
import { figures, notFinite, type Outcome, refuse } from "../propagation/outcome.js";

export interface RssiPoint {
  readonly levelDbm: number;
  readonly voltageV: number;
}

/**
 * Voltage for a level: straight lines between the catalogue's points, whichever way they slope. Outside them no
 * figure is given. Beside it the two points that it lies between.
 *
 * @param points at least two, of different levels, in any order
 * @see data of the equipment
 */
export function rssiVoltage(
  points: readonly RssiPoint[],
  levelDbm: number,
): Outcome<{ readonly voltageV: number; readonly from: RssiPoint; readonly to: RssiPoint }> {
  const unusable = notFinite({ levelDbm });
  if (unusable) return refuse(unusable);
  const curve = [...points].sort((a, b) => a.levelDbm - b.levelDbm);
  const above = curve.findIndex((point) => point.levelDbm >= levelDbm);
  const to = curve[above];
  const from = curve[Math.max(0, above - 1)];
  if (curve.length < 2 || to === undefined || from === undefined || curve[0]!.levelDbm > levelDbm) {
    return refuse({ code: "level-off-curve" });
  }
  const width = to.levelDbm - from.levelDbm;
  const share = width > 0 ? (levelDbm - from.levelDbm) / width : 0;
  return figures({ voltageV: from.voltageV + share * (to.voltageV - from.voltageV), from, to });
}
