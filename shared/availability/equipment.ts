import type { MethodReference } from "../propagation/method.js";
import { figures, negative, notPositive, type Outcome, outside, refuse } from "../propagation/outcome.js";
import type { RefusalReason } from "../propagation/remark.js";
import { MINUTES_A_YEAR } from "../units/year.js";

export const METHOD: MethodReference = {
  recommendation: "Reliability algebra",
  section: "",
  title: "Availability of equipment from MTBF and MTTR",
  status: "verified",
  note: "Elementary: repairable units that fail and are repaired independently. A hop has two terminals in series.",
  checked: {
    by: "by hand and by enumeration",
    vectors: ["equipment-availability"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

/**
 * Unavailability of one repairable unit.
 *
 *     U = MTTR/(MTBF + MTTR),   A = 1 - U
 *
 * @param inputs.mtbfHours mean time between failures, > 0
 * @param inputs.mttrHours mean time to repair, travel included, >= 0
 * @returns fractions 0..1; minutes of a year of 365.25 days
 */
export function unitUnavailability(inputs: {
  readonly mtbfHours: number;
  readonly mttrHours: number;
}): Outcome<{
  readonly unavailability: number;
  readonly availability: number;
  readonly minutesPerYear: number;
}> {
  const { mtbfHours, mttrHours } = inputs;
  const unusable = notPositive({ mtbfHours }) ?? negative({ mttrHours });
  if (unusable) return refuse(unusable);
  const unavailability = mttrHours / (mtbfHours + mttrHours);
  return figures({
    unavailability,
    availability: 1 - unavailability,
    minutesPerYear: unavailability * MINUTES_A_YEAR,
  });
}

/**
 * Units in series, all needed; an empty chain never fails.
 *
 *     U = 1 - product (1 - U_i),   about sum U_i
 */
export function seriesUnavailability(
  units: readonly number[],
): Outcome<{ readonly unavailability: number; readonly sumApproximation: number }> {
  const unusable = checkUnits(units);
  if (unusable) return refuse(unusable);
  // log1p and expm1 keep the digits of unavailabilities that vanish beside 1.
  const logAvailability = units.reduce((sum, unavailability) => sum + Math.log1p(-unavailability), 0);
  const unavailability = units.includes(1) ? 1 : 0 - Math.expm1(logAvailability);
  return figures({ unavailability, sumApproximation: units.reduce((sum, unit) => sum + unit, 0) });
}

/**
 * Hot standby 1 + 1: two equal units of which one is enough, in series with what both share (switch, coupler,
 * antenna, feeder, power).
 *
 *     U = 1 - (1 - U1^2) (1 - Ucommon)
 */
export function hotStandby(inputs: {
  readonly unitUnavailability: number;
  readonly commonUnavailability: number;
}): Outcome<{ readonly unavailability: number; readonly pairUnavailability: number }> {
  const pairUnavailability = inputs.unitUnavailability ** 2;
  const whole = seriesUnavailability([pairUnavailability, inputs.commonUnavailability]);
  const unusable = checkUnits([inputs.unitUnavailability]);
  if (unusable) return refuse(unusable);
  return whole.ok ? figures({ unavailability: whole.unavailability, pairUnavailability }) : whole;
}

/**
 * Unavailability of one of n working channels that share one standby channel; u that of one unit.
 *
 *     U = sum_{j=2..n+1} C(n+1, j) u^j (1 - u)^(n+1-j) (j - 1)/n,   about (n + 1)/2 u^2
 *
 * Of j units that are down one is carried by the standby: the others hit j - 1 of the n channels.
 * @param inputs.channels n, a whole number from 1 to 50
 */
export function nPlusOne(inputs: {
  readonly channels: number;
  readonly unitUnavailability: number;
}): Outcome<{ readonly unavailability: number; readonly approximation: number }> {
  const { channels, unitUnavailability: u } = inputs;
  const unusable = outside({ channels }, 1, 50) ?? checkUnits([u]);
  if (unusable) return refuse(unusable);
  if (!Number.isInteger(channels))
    return refuse({ code: "input-unusable", input: "channels", value: channels, wanted: "whole" });
  let unavailability = 0;
  // C(n+1, j), from the one before.
  let ways = channels + 1;
  for (let j = 2; j <= channels + 1; j++) {
    ways = (ways * (channels + 2 - j)) / j;
    unavailability += (ways * u ** j * (1 - u) ** (channels + 1 - j) * (j - 1)) / channels;
  }
  return figures({ unavailability, approximation: ((channels + 1) / 2) * u ** 2 });
}

function checkUnits(units: readonly number[]): RefusalReason | undefined {
  for (const unavailability of units) {
    const unusable = outside({ unavailability }, 0, 1);
    if (unusable) return unusable;
  }
  return undefined;
}
