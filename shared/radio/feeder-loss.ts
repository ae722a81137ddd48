import type { Feeder } from "../design/catalogue.js";

/** A frequency this far (as a ratio) from the only loss point is worth a remark. */
const FAR_FROM_POINT = 1.1;

export interface FeederLoss {
  readonly lossDbPerM: number;
  /** From the nearest point of a catalogue that does not reach the frequency. */
  readonly ofNearestPoint?: true;
}

/**
 * Loss a of a metre of feeder at a frequency f (> 0): the catalogue's points, linear in log-log between two of them,
 *
 *     a = a1 (a2/a1)^(ln(f/f1)/ln(f2/f1));
 *
 * outside them the nearest point as it stands, and says so (a waveguide near its cut-off does
 * not follow any scaling, so nothing is extrapolated).
 * @returns undefined when the catalogue gives no loss
 */
export function feederLossPerM(feeder: Feeder, frequencyHz: number): FeederLoss | undefined {
  let below: Point | undefined;
  for (const point of feeder.loss) {
    if (point.frequencyHz === undefined) return { lossDbPerM: point.lossDbPerM };
    const here = { lossDbPerM: point.lossDbPerM, frequencyHz: point.frequencyHz };
    if (here.frequencyHz >= frequencyHz) return between(feeder, below, here, frequencyHz);
    below = here;
  }
  return below && between(feeder, below, undefined, frequencyHz);
}

type Point = { readonly lossDbPerM: number; readonly frequencyHz: number };

function between(
  feeder: Feeder,
  below: Point | undefined,
  above: Point | undefined,
  frequencyHz: number,
): FeederLoss {
  if (below && above) {
    const share = Math.log(frequencyHz / below.frequencyHz) / Math.log(above.frequencyHz / below.frequencyHz);
    // A point of no loss at all has no logarithm: then the straight line serves.
    const lossDbPerM =
      below.lossDbPerM > 0 && above.lossDbPerM > 0
        ? below.lossDbPerM * (above.lossDbPerM / below.lossDbPerM) ** share
        : below.lossDbPerM + share * (above.lossDbPerM - below.lossDbPerM);
    return { lossDbPerM };
  }
  const nearest = (below ?? above)!;
  const ratio = Math.max(frequencyHz / nearest.frequencyHz, nearest.frequencyHz / frequencyHz);
  const outside = feeder.loss.length > 1 ? ratio > 1 : ratio > FAR_FROM_POINT;
  return {
    lossDbPerM: nearest.lossDbPerM,
    ...(outside && { ofNearestPoint: true }),
  };
}
