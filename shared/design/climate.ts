/** What is known of the climate of a hop, as stated. */

export interface Climate {
  /** Rain rate exceeded for `rainTimePercent` of the average year, 1 min integration. */
  readonly rainRateMmPerH?: number;
  readonly rainTimePercent?: number;
  /** Letter of the superseded rain zones (PN.837-1). */
  readonly rainZone?: string;
  /** log10 K and dN75 of P.530-18 section 2.3.1. */
  readonly logK?: number;
  readonly dN75?: number;
  /** Refractivity gradient not exceeded for 1 % of the year (P.530-17), N/km. */
  readonly dN1?: number;
  /** Median effective Earth radius factor. */
  readonly kFactor?: number;
  readonly temperatureK?: number;
  /** Total barometric pressure at the path's mean height. */
  readonly pressureHPa?: number;
  readonly waterVapourDensityGm3?: number;
  /** Which multipath method; undefined: the newest whose inputs are there. */
  readonly multipathMethod?: MultipathMethod;
  /** Standard deviation of the terrain heights around the path (P.530-17). */
  readonly terrainRoughnessM?: number;
  /** Mean rain height above sea level: 360 m above the mean 0 degC isotherm. */
  readonly rainHeightM?: number;
  /** Part of the average year in which it rains. */
  readonly rainProbabilityPercent?: number;
  /** Q1 and beta of P.841. */
  readonly worstMonthQ1?: number;
  readonly worstMonthBeta?: number;
  /** Whether methods count that are from memory, not checked against the Recommendation; default: use. */
  readonly uncheckedMethods?: "use" | "leave-out";
  /**
   * Rain in less than 0.001 % of the year, outside the range of its law; default: `estimate`, the law continued.
   * `bound`: no more than the Recommendation says, at most 0.001 %.
   */
  readonly rareRain?: "estimate" | "bound";
}

/** `current`: logK and dN75; `preceding`: dN1 and roughness; `quick`: dN1 alone, for early planning. */
type MultipathMethod = "current" | "preceding" | "quick";
