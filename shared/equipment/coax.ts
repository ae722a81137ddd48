/** Attenuation of coaxial cable, as an IF cable needs it: conductors grow with sqrt(f), the dielectric with f. */
import { figures, negative, notPositive, type Outcome, refuse } from "../propagation/outcome.js";

/** A(f) = conductor sqrt(f) + dielectric f, in dB a metre with f in Hz; both >= 0. */
export interface CoaxModel {
  readonly conductorDbPerMPerSqrtHz: number;
  readonly dielectricDbPerMPerHz: number;
}

/** Growth of the conductor part: half of copper's 0.00393 per kelvin, since it goes with sqrt of the resistivity. */
const CONDUCTOR_PER_K = 0.00393 / 2;

const REFERENCE_K = 293.15;

/**
 * Loss of a cable of some length.
 *
 * @param inputs.frequencyHz > 0
 * @param inputs.lengthM >= 0
 * @param inputs.temperatureK of the cable, > 0; 20 degrees Celsius when left out
 * @see skin effect and loss tangent; nominal figures, not guaranteed ones
 */
export function coaxLoss(
  model: CoaxModel,
  inputs: { readonly frequencyHz: number; readonly lengthM: number; readonly temperatureK?: number },
): Outcome<{ readonly lossDb: number; readonly lossDbPerM: number }> {
  const { frequencyHz, lengthM, temperatureK = REFERENCE_K } = inputs;
  const unusable = notPositive({ frequencyHz, temperatureK }) ?? negative({ lengthM });
  if (unusable) return refuse(unusable);
  const warmer = 1 + CONDUCTOR_PER_K * (temperatureK - REFERENCE_K);
  const lossDbPerM =
    model.conductorDbPerMPerSqrtHz * Math.sqrt(frequencyHz) * warmer +
    model.dielectricDbPerMPerHz * frequencyHz;
  return figures({ lossDb: lossDbPerM * lengthM, lossDbPerM });
}

/**
 * The model that fits a catalogue's points with least relative error. One point, or points that would make a part
 * negative, give a cable of conductor loss alone.
 *
 * @param points loss per metre > 0 at frequencies > 0
 * @returns refusal without a usable point
 */
export function fitCoax(
  points: readonly { readonly lossDbPerM: number; readonly frequencyHz: number }[],
): Outcome<{ readonly model: CoaxModel; readonly greatestErrorPercent: number }> {
  if (points.length === 0) return refuse({ code: "no-loss-points" });
  for (const { lossDbPerM, frequencyHz } of points) {
    const unusable = notPositive({ lossDbPerM, frequencyHz });
    if (unusable) return refuse(unusable);
  }
  const model = leastSquares(points);
  const errors = points.map(({ lossDbPerM, frequencyHz }) => {
    const fitted =
      model.conductorDbPerMPerSqrtHz * Math.sqrt(frequencyHz) + model.dielectricDbPerMPerHz * frequencyHz;
    return Math.abs(fitted / lossDbPerM - 1) * 100;
  });
  return figures({ model, greatestErrorPercent: Math.max(...errors) });
}

/** Normal equations of a sqrt(f)/A + b f/A = 1 over all points. */
function leastSquares(
  points: readonly { readonly lossDbPerM: number; readonly frequencyHz: number }[],
): CoaxModel {
  let rr = 0;
  let rs = 0;
  let ss = 0;
  let r1 = 0;
  let s1 = 0;
  for (const { lossDbPerM, frequencyHz } of points) {
    // MHz keep both unknowns of like size.
    const mhz = frequencyHz / 1e6;
    const r = Math.sqrt(mhz) / lossDbPerM;
    const s = mhz / lossDbPerM;
    rr += r * r;
    rs += r * s;
    ss += s * s;
    r1 += r;
    s1 += s;
  }
  const determinant = rr * ss - rs * rs;
  const both =
    points.length > 1 && determinant > 1e-9 * rr * ss
      ? { a: (r1 * ss - s1 * rs) / determinant, b: (s1 * rr - r1 * rs) / determinant }
      : undefined;
  const { a, b } = both && both.a >= 0 && both.b >= 0 ? both : { a: r1 / rr, b: 0 };
  return { conductorDbPerMPerSqrtHz: a / 1e3, dielectricDbPerMPerHz: b / 1e6 };
}
