/** Water vapour by its pressure and by its density. Rec. ITU-R P.676-13 eq (4), P.835-6, P.453-14. Lean: no checks. */

const GM3_K_PER_HPA = 216.7;

/** e, hPa, of a density at a temperature. */
export function vapourPressureOfDensityHPa(densityGm3: number, temperatureK: number): number {
  return (densityGm3 * temperatureK) / GM3_K_PER_HPA;
}

/** Density, g/m3, of a pressure e at a temperature. */
export function vapourDensityOfPressureGm3(vapourPressureHPa: number, temperatureK: number): number {
  return (GM3_K_PER_HPA * vapourPressureHPa) / temperatureK;
}
