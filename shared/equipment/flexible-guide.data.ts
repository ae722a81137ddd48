/**
 * Usual loss of flexible, twistable waveguide, least and greatest, dB/m: two to four times that of rigid copper.
 * From memory, unconfirmed. Each band reaches up to the upper edge of its radio-frequency plans; what lies between two
 * bands counts to the next higher one. The last row is that of 38 GHz, taken up to 42 GHz; above, flexible guide is
 * practically not used.
 */
export const FLEXIBLE_GUIDE_LOSS: readonly {
  readonly band: string;
  readonly upToHz: number;
  readonly lossDbPerM: readonly [number, number];
}[] = [
  { band: "6 to 8 GHz", upToHz: 8.5e9, lossDbPerM: [0.15, 0.3] },
  { band: "11 to 13 GHz", upToHz: 13.25e9, lossDbPerM: [0.3, 0.5] },
  { band: "15 GHz", upToHz: 15.35e9, lossDbPerM: [0.4, 0.7] },
  { band: "18 to 23 GHz", upToHz: 23.6e9, lossDbPerM: [0.8, 1.3] },
  { band: "26 to 32 GHz", upToHz: 33.4e9, lossDbPerM: [1.3, 2.2] },
  { band: "38 GHz", upToHz: 42e9, lossDbPerM: [1.5, 2.5] },
];
