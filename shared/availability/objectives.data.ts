import type { MethodStatus } from "../propagation/method.js";

/**
 * Numbers of the objectives. All are from memory, not checked against the Recommendations: whoever owns a text can
 * mend the table, and a design may state its own objective instead.
 */
interface Sourced {
  readonly source: string;
  readonly status: MethodStatus;
}

const F1703: Sourced = { source: "Rec. ITU-R F.1703 (2005)", status: "from memory" };

export type Portion = "international or national long haul" | "national short haul" | "national access";

/** Coefficients of AR = 1 - (B L/LR + C) and of the outages a year, OI = D L/LR + E. */
export interface AvailabilityRow extends Sourced {
  readonly portion: Portion;
  /** Link lengths the row is for, km, upper end included. */
  readonly overKm: number;
  readonly upToKm: number;
  readonly B: number;
  readonly C: number;
  readonly D: number;
  readonly E: number;
}

const LONG_HAUL = "international or national long haul";

export const AVAILABILITY_ROWS: readonly AvailabilityRow[] = [
  { ...F1703, portion: LONG_HAUL, overKm: 0, upToKm: 250, B: 1.9e-3, C: 1.1e-4, D: 100, E: 55 },
  { ...F1703, portion: LONG_HAUL, overKm: 250, upToKm: 2500, B: 3e-3, C: 0, D: 150, E: 50 },
  { ...F1703, portion: "national short haul", overKm: 0, upToKm: 2500, B: 0, C: 4e-4, D: 0, E: 120 },
  { ...F1703, portion: "national access", overKm: 0, upToKm: 2500, B: 0, C: 5e-4, D: 0, E: 100 },
];

/** End-to-end error performance over 27 500 km; an absent ESR is not given. */
export interface ErrorPerformanceRow extends Sourced {
  readonly path: string;
  readonly esr?: number;
  readonly sesr: number;
  readonly bber: number;
}

const G826: Sourced = { source: "Rec. ITU-T G.826", status: "from memory" };
const G828: Sourced = { source: "Rec. ITU-T G.828", status: "from memory" };

export const ERROR_PERFORMANCE: readonly ErrorPerformanceRow[] = [
  { ...G826, path: "1.5 to 5 Mbit/s", esr: 0.04, sesr: 0.002, bber: 2e-4 },
  { ...G826, path: "over 5 to 15 Mbit/s", esr: 0.05, sesr: 0.002, bber: 2e-4 },
  { ...G826, path: "over 15 to 55 Mbit/s", esr: 0.075, sesr: 0.002, bber: 2e-4 },
  { ...G826, path: "over 55 to 160 Mbit/s", esr: 0.16, sesr: 0.002, bber: 2e-4 },
  { ...G826, path: "over 160 to 3500 Mbit/s", sesr: 0.002, bber: 1e-4 },
  { ...G828, path: "VC-11, VC-12", esr: 0.01, sesr: 0.002, bber: 5e-5 },
  { ...G828, path: "VC-2", esr: 0.01, sesr: 0.002, bber: 5e-5 },
  { ...G828, path: "VC-3", esr: 0.02, sesr: 0.002, bber: 5e-5 },
  { ...G828, path: "VC-4", esr: 0.04, sesr: 0.002, bber: 1e-4 },
  { ...G828, path: "VC-4-4c, VC-4-16c", sesr: 0.002, bber: 1e-4 },
  { ...G828, path: "VC-4-64c", sesr: 0.002, bber: 1e-3 },
];
