/** An invented catalogue of some sixty entries: for each band a radio, antennas, a coupler and a feeder. */

export interface Band {
  /** What its entries are named after. */
  readonly id: string;
  readonly lowGHz: number;
  readonly highGHz: number;
  readonly plan: string;
  readonly widthMHz: number;
  readonly channels: number;
  readonly duplexMHz: number;
  readonly powerDbm: number;
  /** The longest hop that takes it. */
  readonly reachKm: number;
  readonly diametersM: readonly number[];
}

/** Ascending by reach. */
export const BANDS: readonly Band[] = [
  band("38", 37, 39.5, "BENCH38", 56, 20, 1260, 20, 4.5, [0.3, 0.6]),
  band("23", 21.2, 23.6, "F.637", 56, 20, 1232, 24, 8, [0.3, 0.6, 0.9]),
  band("18", 17.7, 19.7, "F.595", 55, 17, 1010, 25, 12, [0.3, 0.6, 0.9, 1.2]),
  band("15", 14.5, 15.35, "F.636-14500-15350-420", 56, 7, 420, 26, 16, [0.6, 0.9, 1.2]),
  band("13", 12.75, 13.25, "F.497", 28, 8, 266, 26, 19, [0.6, 0.9, 1.2, 1.8]),
  band("11", 10.7, 11.7, "ERC1206-490", 28, 17, 490, 27, 23, [0.9, 1.2, 1.8]),
  band("8", 7.725, 8.275, "ECC0206-7725-8275", 28, 9, 283.5, 29, 27, [1.2, 1.8, 2.4]),
  band("6", 5.925, 6.425, "F.383", 29.65, 8, 252.04, 30, 31, [1.8, 2.4, 3]),
];

export function catalogueFiles(): Map<string, string> {
  return new Map([
    ["radios.hop", declarations(BANDS.map(radio))],
    [
      "antennas.hop",
      declarations(BANDS.flatMap((of) => of.diametersM.map((diameterM) => antenna(of, diameterM)))),
    ],
    ["branching.hop", declarations(BANDS.flatMap((of) => [coupler(of), feeder(of)]))],
    ["plans.hop", declarations([PLAN])],
  ]);
}

export const radioName = (of: Band) => `R${of.id}`;
export const couplerName = (of: Band) => `H${of.id}`;
export const feederName = (of: Band) => `W${of.id}`;
export const antennaName = (of: Band, diameterM: number) => `DISH${Math.round(diameterM * 100)}-${of.id}`;

/** Declarations in the canonical layout: a blank line between them. */
export function declarations(texts: readonly string[]): string {
  return `${texts.join("\n\n")}\n`;
}

const PLAN = `plan BENCH38 "own raster at 38 GHz" {
  centre 38.25 GHz
  row 56 MHz go -1220 MHz return 40 MHz channels 1 to 20
}`;

/** Bits a symbol, and power and threshold against QPSK, dB. */
const MODULATIONS = [
  ["QPSK", 2, 0, 0],
  ["16QAM", 4, -1, 7],
  ["64QAM", 6, -2, 13],
  ["128QAM", 7, -3, 16.5],
  ["256QAM", 8, -3, 19],
  ["512QAM", 9, -4, 22.5],
  ["1024QAM", 10, -5, 25],
] as const;

function radio(of: Band): string {
  const middle = (of.lowGHz + of.highGHz) / 2;
  const widths = [...new Set([of.widthMHz, of.widthMHz / 2])];
  const modes = widths.flatMap((width) =>
    MODULATIONS.map(([modulation, bits, power, threshold]) => {
      const rate = Math.round((width * bits * 0.75) / 5) * 5;
      const qpskDbm = -84 - Math.round(20 * Math.log10(56 / width)) / 2;
      return `  mode ${width} MHz ${modulation} rate ${rate} Mbit/s power ${of.powerDbm + power} dBm threshold ${qpskDbm + threshold} dBm`;
    }),
  );
  return `radio ${radioName(of)} "${of.id} GHz unit" {
  tuning ${of.lowGHz} GHz to ${of.highGHz} GHz
  low-half ${of.lowGHz} GHz to ${round(middle)} GHz
  high-half ${round(middle)} GHz to ${of.highGHz} GHz
  duplex ${of.duplexMHz} MHz
  noise-figure 6 dB
  overload -20 dBm
${modes.join("\n")}
}`;
}

function antenna(of: Band, diameterM: number): string {
  // 55 % efficiency; the pattern is a smooth envelope.
  const gain = (ghz: number) => (20 * Math.log10(diameterM * ghz) + 17.8).toFixed(1);
  const gainDb = Number(gain(of.lowGHz));
  const pattern = [5, 10, 20, 40, 90, 180].map((angle) => {
    const below = Math.min(gainDb + 15, gainDb - 28 + 25 * Math.log10(angle)).toFixed(0);
    return `  pattern ${angle} deg ${below} dB cross ${Number(below) + 8} dB`;
  });
  return `antenna ${antennaName(of, diameterM)} "${diameterM} m parabolic, ${of.id} GHz" {
  band ${of.lowGHz} GHz to ${of.highGHz} GHz
  diameter ${diameterM} m
  gain ${gain(of.lowGHz)} dBi at ${of.lowGHz} GHz
  gain ${gain(of.highGHz)} dBi at ${of.highGHz} GHz
  beamwidth ${(21 / (of.lowGHz * diameterM)).toFixed(1)} deg
  front-to-back ${(gainDb + 20).toFixed(0)} dB
  xpd 30 dB
  polarizations single
${pattern.join("\n")}
}`;
}

function coupler(of: Band): string {
  return `coupler ${couplerName(of)} "${of.id} GHz unequal hybrid" {
  band ${of.lowGHz} GHz to ${of.highGHz} GHz
  kind hybrid
  main-loss 1.6 dB
  standby-loss 6.4 dB
}`;
}

function feeder(of: Band): string {
  return `feeder ${feederName(of)} "flexible waveguide, ${of.id} GHz" {
  kind flexible
  loss ${(0.05 * of.lowGHz).toFixed(2)} dB/m at ${of.lowGHz} GHz
}`;
}

function round(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}

function band(
  id: string,
  lowGHz: number,
  highGHz: number,
  plan: string,
  widthMHz: number,
  channels: number,
  duplexMHz: number,
  powerDbm: number,
  reachKm: number,
  diametersM: readonly number[],
): Band {
  return { id, lowGHz, highGHz, plan, widthMHz, channels, duplexMHz, powerDbm, reachKm, diametersM };
}
