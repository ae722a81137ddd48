import { wavelengthM } from "../constants.js";
import type { MethodReference } from "../method.js";
import { figures, negative, notPositive, type Outcome, outside, refuse } from "../outcome.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "6.1",
  title: "Effective surface reflection coefficient",
  status: "read in implementations",
  note: "Fresnel's equations with a roughness factor in the handbook form, read in a university course.",
  checked: {
    by: "limits of Fresnel's equations",
    tolerance: "1e-9",
  },
};

export interface ReflectionCoefficientSteps {
  /** |R| of the smooth, flat surface. */
  readonly smooth: number;
  /** Parameter g of roughness, radians. */
  readonly g: number;
  readonly roughnessFactor: number;
}

/**
 * Magnitude of the effective reflection: Fresnel coefficient times divergence times roughness factor.
 *
 *     |R| D exp(-g^2/2),   g = 4 pi s sin psi/lambda
 *
 * psi is the grazing angle, s the roughness, lambda in the unit of s.
 * @param inputs.grazingMrad psi, > 0, up to a right angle (500 pi mrad)
 * @param inputs.relativePermittivity of the ground er, >= 1
 * @param inputs.conductivitySPerM of the ground sigma, >= 0
 * @param inputs.roughnessM s, standard deviation of the surface heights, >= 0
 * @param inputs.divergence D, 0..1 (section 6.1)
 * @returns coefficient 0..1
 * @see Rec. ITU-R P.530-18 section 6.1. Read in one course, see METHOD.
 */
export function effectiveReflection(inputs: {
  readonly frequencyHz: number;
  readonly grazingMrad: number;
  readonly polarization: "horizontal" | "vertical";
  readonly relativePermittivity: number;
  readonly conductivitySPerM: number;
  readonly roughnessM: number;
  readonly divergence: number;
}): Outcome<{ readonly coefficient: number; readonly steps: ReflectionCoefficientSteps }> {
  const { frequencyHz, grazingMrad, polarization, relativePermittivity, conductivitySPerM, roughnessM } =
    inputs;
  const { divergence } = inputs;
  const unusable =
    notPositive({ frequencyHz, grazingMrad }) ??
    outside({ grazingMrad }, 0, 500 * Math.PI) ??
    outside({ relativePermittivity }, 1, 1000) ??
    negative({ conductivitySPerM, roughnessM }) ??
    outside({ divergence }, 0, 1);
  if (unusable) return refuse(unusable);
  const lambdaM = wavelengthM(frequencyHz);
  const sine = Math.sin(grazingMrad / 1000);
  const smooth = fresnelMagnitude(sine, relativePermittivity, 60 * conductivitySPerM * lambdaM, polarization);
  const g = (4 * Math.PI * roughnessM * sine) / lambdaM;
  const roughnessFactor = Math.exp(-(g ** 2) / 2);
  return figures({
    coefficient: smooth * divergence * roughnessFactor,
    steps: { smooth, g, roughnessFactor },
  });
}

/**
 * |R| for the complex permittivity e = er - j ei, ei = 60 sigma lambda.
 *
 *     horizontal:  R = (sin psi - z)/(sin psi + z)
 *     vertical:    R = (e sin psi - z)/(e sin psi + z)
 *     z^2 = e - cos^2 psi
 */
function fresnelMagnitude(
  sine: number,
  er: number,
  ei: number,
  polarization: "horizontal" | "vertical",
): number {
  const [zRe, zIm] = complexRoot(er - 1 + sine ** 2, -ei);
  const [aRe, aIm] = polarization === "horizontal" ? [sine, 0] : [er * sine, -ei * sine];
  return Math.hypot(aRe - zRe, aIm - zIm) / Math.hypot(aRe + zRe, aIm + zIm);
}

/** Principal square root of a complex number. */
function complexRoot(re: number, im: number): [number, number] {
  const modulus = Math.hypot(re, im);
  return [Math.sqrt((modulus + re) / 2), Math.sign(im) * Math.sqrt(Math.max(modulus - re, 0) / 2)];
}
