/** Inverse complementary cumulative normal distribution. Rec. ITU-R P.452-18 Attachment 3; eq (172). */

/**
 *     I(x) = xi(x) - T(x),   T = sqrt(-2 ln x)
 *     xi = [(0.010328 T + 0.802853) T + 2.515516698]/{[(0.001308 T + 0.189269) T + 1.432788] T + 1}
 *
 * @param x > 0 to 0.5; below 1e-6 as 1e-6
 * @returns negative; -1.3e-9 at 0.5
 * @see Rec. ITU-R P.452-18 section 4.2 and Attachment 3; eq (172)
 */
export function inverseNormal(x: number): number {
  const T = Math.sqrt(-2 * Math.log(Math.max(x, 1e-6)));
  const above = (0.010328 * T + 0.802853) * T + 2.515516698;
  const below = ((0.001308 * T + 0.189269) * T + 1.432788) * T + 1;
  return above / below - T;
}
