/** Speed of light in vacuum, m/s (exact by the definition of the metre). */
export const SPEED_OF_LIGHT_M_PER_S = 299_792_458;

/** Mean Earth radius, m, as the ITU-R propagation Recommendations take it. */
export const MEAN_EARTH_RADIUS_M = 6_371_000;

/** Wavelength in vacuum, m, of a frequency in Hz (> 0). */
export function wavelengthM(frequencyHz: number): number {
  return SPEED_OF_LIGHT_M_PER_S / frequencyHz;
}
