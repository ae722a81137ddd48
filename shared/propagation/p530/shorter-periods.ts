import type { MethodReference } from "../method.js";
import { figures, type Outcome, outside, refuse } from "../outcome.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.3.5",
  title: "Average worst month to shorter worst periods",
  status: "verified",
  note: "Read in two implementations that agree. For deep fades.",
  usedByNoFigure: true,
  checked: {
    by: "two independent computations of each step",
    vectors: ["shorter-periods"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

export type PathTerrain = "flat" | "hilly" | "hilly land";

/** Scale, power and floor of the factor. */
const COEFFICIENTS: Readonly<Record<PathTerrain, readonly [number, number, number]>> = {
  flat: [89.34, -0.854, 0.676],
  hilly: [119, -0.78, 0.295],
  "hilly land": [199.85, -0.834, 0.175],
};

/**
 * Share psw of the worst period of T hours in which a deep fade is exceeded.
 *
 *     relatively flat paths:  psw = pw (89.34 T^-0.854 + 0.676)
 *     hilly paths:            psw = pw (119 T^-0.78 + 0.295)
 *     hilly land paths:       psw = pw (199.85 T^-0.834 + 0.175)
 *
 * @param inputs.worstMonthPercent pw, share of the average worst month, 0..100 %
 * @param inputs.periodHours 1 <= T < 720; otherwise refused
 * @see Rec. ITU-R P.530-18 section 2.3.5. Verified.
 * @nofigure
 */
export function shorterPeriod(inputs: {
  readonly worstMonthPercent: number;
  readonly periodHours: number;
  readonly terrain: PathTerrain;
}): Outcome<{ readonly timePercent: number; readonly steps: { readonly factor: number } }> {
  const { worstMonthPercent, periodHours, terrain } = inputs;
  const unusable = outside({ worstMonthPercent }, 0, 100) ?? outside({ periodHours }, 1, 720);
  if (unusable) return refuse(unusable);
  if (periodHours === 720) return refuse({ code: "period-is-worst-month" });
  const [scale, power, floor] = COEFFICIENTS[terrain];
  const factor = scale * periodHours ** power + floor;
  const timePercent = factor * worstMonthPercent;
  if (timePercent > 100) return refuse({ code: "fade-too-frequent" });
  return figures({ timePercent, steps: { factor } });
}
