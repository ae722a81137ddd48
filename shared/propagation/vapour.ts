/** Water vapour by its pressure and by its density. Rec. ITU-R P.676-13 eq (4), P.835-6, P.453-14. Lean: no checks. */

const GM3_K_PER_HPA = 216.7;

/** `e = rho T/216.7`, hPa, of a density rho at a temperature T. */
export function vapourPressureOfDensityHPa(densityGm3: number, temperatureK: number): number {
  return (densityGm3 * temperatureK) / GM3_K_PER_HPA;
}

/** `rho = 216.7 e/T`, g/m3, of a pressure e at a temperature T. */
export function vapourDensityOfPressureGm3(vapourPressureHPa: number, temperatureK: number): number {
  return (GM3_K_PER_HPA * vapourPressureHPa) / temperatureK;
}
