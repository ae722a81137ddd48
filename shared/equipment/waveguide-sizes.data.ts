/**
 * Sizes of rectangular waveguide. Dimensions and usual bands of the EIA sizes: read in two public tables that agree.
 * IEC names of R40 to R180: read; IEC names of R220 to R900 and RCSC names of WG20 to WG27: from memory, not checked
 * against IEC 60153-2.
 */
export interface WaveguideSize {
  readonly iec: string;
  readonly eia: string;
  readonly rcsc: string;
  /** Inner sides, m. */
  readonly widthM: number;
  readonly heightM: number;
  /** Usual band, EIA. */
  readonly band: { readonly fromHz: number; readonly toHz: number };
}

export const WAVEGUIDE_SIZES: readonly WaveguideSize[] = [
  size("R40", "WR229", "WG11A", 58.166, 29.083, 3.3, 4.9),
  size("R48", "WR187", "WG12", 47.5488, 22.1488, 3.95, 5.85),
  size("R58", "WR159", "WG13", 40.386, 20.193, 4.9, 7.05),
  size("R70", "WR137", "WG14", 34.8488, 15.7988, 5.85, 8.2),
  size("R84", "WR112", "WG15", 28.4988, 12.6238, 7.05, 10),
  size("R100", "WR90", "WG16", 22.86, 10.16, 8.2, 12.4),
  size("R120", "WR75", "WG17", 19.05, 9.525, 10, 15),
  size("R140", "WR62", "WG18", 15.7988, 7.8994, 12.4, 18),
  size("R180", "WR51", "WG19", 12.954, 6.477, 15, 22),
  size("R220", "WR42", "WG20", 10.668, 4.318, 18, 26.5),
  size("R260", "WR34", "WG21", 8.636, 4.318, 22, 33),
  size("R320", "WR28", "WG22", 7.112, 3.556, 26.5, 40),
  size("R400", "WR22", "WG23", 5.6896, 2.8448, 33, 50),
  size("R500", "WR19", "WG24", 4.7752, 2.3876, 40, 60),
  size("R620", "WR15", "WG25", 3.7592, 1.8796, 50, 75),
  size("R740", "WR12", "WG26", 3.0988, 1.5494, 60, 90),
  size("R900", "WR10", "WG27", 2.54, 1.27, 75, 110),
];

function size(
  iec: string,
  eia: string,
  rcsc: string,
  widthMm: number,
  heightMm: number,
  fromGHz: number,
  toGHz: number,
): WaveguideSize {
  return {
    iec,
    eia,
    rcsc,
    widthM: widthMm / 1000,
    heightM: heightMm / 1000,
    band: { fromHz: fromGHz * 1e9, toHz: toGHz * 1e9 },
  };
}
