/** From the worst month to the average year. Rec. ITU-R P.452-18 section 3.2.1 (number from memory); eq (1), (1a). */
import type { MethodReference } from "../method.js";
import { figures, notPositive, type Outcome, outside, refuse } from "../outcome.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.452-18",
  section: "3",
  title: "Share of the worst month as one of the average year, for interference",
  status: "read in implementations",
  note: "Read in one implementation, the lower limit of a twelfth too; the section's number is from memory.",
  usedByNoFigure: true,
  checked: { by: "a scratch computation", vectors: ["p452-functions"], tolerance: "1e-9 relative" },
};

/**
 * Share of the average year for which an objective of the worst month stands.
 *
 *     GL = sqrt(1.1 + |cos 2 phi|^0.7) for |phi| <= 45, sqrt(1.1 - |cos 2 phi|^0.7) above                (1a)
 *     p = 10^[(log pw + log GL - 0.186 omega - 0.444)/(0.816 + 0.078 omega)], at least pw/12              (1)
 *
 * @param inputs.worstMonthPercent pw, > 0 to 50
 * @param inputs.latitudeDeg phi of the middle of the path, -90 to 90
 * @param inputs.omega share of the path over sea, 0 to 1
 * @returns timePercent p, unlimitedPercent before the limit; p may lie outside 0.001 to 50 %
 * @see Rec. ITU-R P.452-18 section 3; eq (1), (1a). Read in one implementation, see METHOD
 * @nofigure
 */
export function yearOfWorstMonth(inputs: {
  readonly worstMonthPercent: number;
  readonly latitudeDeg: number;
  readonly omega: number;
}): Outcome<{ readonly timePercent: number; readonly unlimitedPercent: number; readonly GL: number }> {
  const { worstMonthPercent, latitudeDeg, omega } = inputs;
  const unusable =
    notPositive({ worstMonthPercent }) ??
    outside({ worstMonthPercent }, 0, 50) ??
    outside({ latitudeDeg }, -90, 90) ??
    outside({ omega }, 0, 1);
  if (unusable) return refuse(unusable);
  const bend = Math.abs(Math.cos((2 * latitudeDeg * Math.PI) / 180)) ** 0.7;
  const GL = Math.sqrt(Math.abs(latitudeDeg) <= 45 ? 1.1 + bend : 1.1 - bend);
  const exponent =
    (Math.log10(worstMonthPercent) + Math.log10(GL) - 0.186 * omega - 0.444) / (0.816 + 0.078 * omega);
  const unlimitedPercent = 10 ** exponent;
  return figures({ timePercent: Math.max(unlimitedPercent, worstMonthPercent / 12), unlimitedPercent, GL });
}
