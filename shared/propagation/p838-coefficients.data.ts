/**
 * Coefficients of the regression for k and alpha. Rec. ITU-R P.838-3 (03/2005) Tables 1 to 4. Read in two public
 * implementations with equal values, confirmed by the ITU-R Study Group 3 validation examples to 1e-14.
 */

/** value = sum a exp(-((log f - b)/c)^2) + m log f + constant, f in GHz. */
export interface Regression {
  /** Triples a, b, c. */
  readonly terms: readonly (readonly [a: number, b: number, c: number])[];
  readonly m: number;
  readonly constant: number;
}

/** Table 1: log10 of k, horizontal. */
export const LOG_K_HORIZONTAL: Regression = {
  terms: [
    [-5.3398, -0.10008, 1.13098],
    [-0.35351, 1.2697, 0.454],
    [-0.23789, 0.86036, 0.15354],
    [-0.94158, 0.64552, 0.16817],
  ],
  m: -0.18961,
  constant: 0.71147,
};

/** Table 2: log10 of k, vertical. */
export const LOG_K_VERTICAL: Regression = {
  terms: [
    [-3.80595, 0.56934, 0.81061],
    [-3.44965, -0.22911, 0.51059],
    [-0.39902, 0.73042, 0.11899],
    [0.50167, 1.07319, 0.27195],
  ],
  m: -0.16398,
  constant: 0.63297,
};

/** Table 3: alpha, horizontal. */
export const ALPHA_HORIZONTAL: Regression = {
  terms: [
    [-0.14318, 1.82442, -0.55187],
    [0.29591, 0.77564, 0.19822],
    [0.32177, 0.63773, 0.13164],
    [-5.3761, -0.9623, 1.47828],
    [16.1721, -3.2998, 3.4399],
  ],
  m: 0.67849,
  constant: -1.95537,
};

/** Table 4: alpha, vertical. */
export const ALPHA_VERTICAL: Regression = {
  terms: [
    [-0.07771, 2.3384, -0.76284],
    [0.56727, 0.95545, 0.54039],
    [-0.20238, 1.1452, 0.26809],
    [-48.2991, 0.791669, 0.116226],
    [48.5833, 0.791459, 0.116479],
  ],
  m: -0.053739,
  constant: 0.83433,
};
