/** Share of mutants that the tests find, with the interval in which that of all lies, by what a sample says. */

export interface Score {
  readonly killed: number;
  readonly of: number;
  /** 0 to 1. */
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/** Two-sided 95 %: the quantile of the standard normal distribution at 0.975. */
const Z = 1.959_964;

/**
 * Wilson's score interval, which holds for small samples and near 1, where the plain one leaves 0..1.
 *
 *     (p + z^2/2n +- z sqrt(p (1 - p)/n + z^2/4n^2)) / (1 + z^2/n)
 *
 * @param of mutants judged, > 0
 * @see E. B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209-212
 */
export function scoreOf(killed: number, of: number): Score {
  const share = killed / of;
  const z2 = Z * Z;
  const middle = share + z2 / (2 * of);
  const half = Z * Math.sqrt((share * (1 - share)) / of + z2 / (4 * of * of));
  const scale = 1 + z2 / of;
  return {
    killed,
    of,
    share,
    low: Math.max(0, (middle - half) / scale),
    high: Math.min(1, (middle + half) / scale),
  };
}
