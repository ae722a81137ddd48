import { over, plus, times } from "./as-written.js";
import { HOURS_A_YEAR } from "./year.js";

/**
 * Dimensions and their units. The language accepts any unit of a dimension and keeps it as written;
 * everything behind it works in the unit named first here (SI where the field uses SI, otherwise the
 * field's own: dBm, dBi, hPa, mm/h).
 */

export type Dimension =
  | "length"
  | "frequency"
  | "power level"
  | "gain"
  | "ratio"
  | "bit rate"
  | "angle"
  | "temperature"
  | "pressure"
  | "vapour density"
  | "rain rate"
  | "percentage"
  | "refractivity gradient"
  | "refractivity increase"
  | "loss per length"
  | "Fresnel fraction"
  | "duration"
  | "time"
  | "frame size"
  | "delay"
  | "consumption"
  | "voltage"
  | "current"
  | "charge"
  | "mass"
  | "force"
  | "speed"
  | "resistance per length"
  | "mass per length"
  | "area"
  | "rack height";

export interface Unit {
  readonly symbol: string;
  /** Other spellings that are understood; the formatter writes the symbol. */
  readonly aliases?: readonly string[];
  /** A decimal stays one: 30 cm are 0.3 m, however 0.01 is held. */
  toBase(value: number): number;
}

const scale = (symbol: string, factor: number, ...aliases: readonly string[]): Unit => ({
  symbol,
  aliases,
  toBase: (value) => times(value, factor),
});

/** A unit of which so many make one of the base unit, where one of it is no decimal of that. */
const part = (symbol: string, many: number, ...aliases: readonly string[]): Unit => ({
  symbol,
  aliases,
  toBase: (value) => over(value, many),
});

/** A unit that counts from elsewhere. */
const shifted = (symbol: string, by: number, ...aliases: readonly string[]): Unit => ({
  symbol,
  aliases,
  toBase: (value) => plus(value, by),
});

/** The first unit of each list is the base unit. */
export const UNITS: Readonly<Record<Dimension, readonly Unit[]>> = {
  length: [
    scale("m", 1),
    scale("km", 1000),
    scale("cm", 0.01),
    scale("mm", 0.001),
    scale("ft", 0.3048),
    scale("mi", 1609.344),
  ],
  frequency: [scale("Hz", 1), scale("kHz", 1e3), scale("MHz", 1e6), scale("GHz", 1e9)],
  "power level": [
    scale("dBm", 1),
    shifted("dBW", 30),
    { symbol: "W", toBase: (value) => 10 * Math.log10(value) + 30 },
    { symbol: "mW", toBase: (value) => 10 * Math.log10(value) },
  ],
  // 2.15 dB: gain of a half-wave dipole over the isotropic antenna, rounded as the trade does.
  gain: [scale("dBi", 1), shifted("dBd", 2.15)],
  ratio: [scale("dB", 1)],
  "bit rate": [
    scale("bit/s", 1, "bps"),
    scale("kbit/s", 1e3, "kbps"),
    scale("Mbit/s", 1e6, "Mbps"),
    scale("Gbit/s", 1e9, "Gbps"),
  ],
  angle: [scale("deg", 1, "°"), scale("mrad", 180 / Math.PI / 1000), scale("rad", 180 / Math.PI)],
  temperature: [scale("K", 1), shifted("degC", 273.15, "°C", "C")],
  pressure: [scale("hPa", 1, "mbar"), scale("kPa", 10), scale("Pa", 0.01)],
  "vapour density": [scale("g/m3", 1, "g/m³")],
  "rain rate": [scale("mm/h", 1)],
  percentage: [scale("%", 1)],
  "refractivity gradient": [scale("N/km", 1)],
  // Over the lowest 75 m; a gradient's unit is often written for it.
  "refractivity increase": [scale("N-units", 1, "N/km")],
  "loss per length": [scale("dB/m", 1), scale("dB/100m", 0.01)],
  "Fresnel fraction": [scale("F1", 1)],
  // A year of 365.25 days.
  duration: [
    scale("h", 1),
    part("min", 60),
    part("s", 3600),
    part("ms", 3.6e6),
    scale("d", 24),
    scale("y", HOURS_A_YEAR, "years", "year"),
  ],
  // What traffic takes and loses; a repair is counted in hours.
  time: [scale("s", 1), part("ms", 1e3), part("us", 1e6, "µs", "μs")],
  "frame size": [scale("B", 1, "bytes", "byte", "octets")],
  delay: [scale("ns", 1)],
  consumption: [scale("W", 1), scale("kW", 1000)],
  voltage: [scale("V", 1)],
  current: [scale("A", 1), scale("mA", 0.001)],
  charge: [scale("Ah", 1)],
  mass: [scale("kg", 1), scale("t", 1000)],
  force: [scale("N", 1), scale("kN", 1000)],
  speed: [scale("m/s", 1), part("km/h", 3.6)],
  "resistance per length": [scale("ohm/m", 1), scale("ohm/km", 0.001)],
  "mass per length": [scale("kg/m", 1), scale("kg/100m", 0.01), scale("kg/km", 0.001)],
  area: [scale("m2", 1, "m²"), scale("cm2", 1e-4, "cm²")],
  "rack height": [scale("U", 1)],
};

type FoundUnit = { readonly unit: Unit; readonly dimension: Dimension };

/** One symbol may stand for several dimensions: W is a power level and a consumption. */
const BY_SYMBOL: ReadonlyMap<string, readonly FoundUnit[]> = Map.groupBy(
  (Object.keys(UNITS) as Dimension[]).flatMap((dimension) =>
    UNITS[dimension].flatMap((unit) =>
      [unit.symbol, ...(unit.aliases ?? [])].map((symbol) => ({ symbol, unit, dimension })),
    ),
  ),
  ({ symbol }) => symbol,
);

/**
 * The unit written so (case matters: `mW` and `MW` differ), or undefined.
 * @param wanted dimension that goes first where a symbol has several
 */
export function findUnit(symbol: string, wanted?: Dimension): FoundUnit | undefined {
  const found = BY_SYMBOL.get(symbol);
  return found?.find(({ dimension }) => dimension === wanted) ?? found?.[0];
}

export function unitSymbols(dimension: Dimension): readonly string[] {
  return UNITS[dimension].map((unit) => unit.symbol);
}
