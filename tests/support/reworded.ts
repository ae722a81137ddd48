/**
 * Generated designs: the samples with their figures written otherwise, each quantity near its own value, with decimals
 * of its own and in any decimal unit of its dimension. Frequencies keep their value, since channels and bands hang on it.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { type Dimension, findUnit } from "../../shared/units/units.js";
import { randomNumbers } from "../bench/random.js";

const SAMPLES = join(import.meta.dirname, "../../samples");

/** Path below the samples and text of each `.hop` file. */
export const SAMPLE_TEXTS: ReadonlyMap<string, string> = new Map(
  readdirSync(SAMPLES, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".hop"))
    .map((path) => [path.replaceAll("\\", "/"), readFileSync(join(SAMPLES, path), "utf8")]),
);

const UNITS_WRITTEN: Partial<Record<Dimension, readonly string[]>> = {
  length: ["m", "ft", "cm", "mm", "km"],
  frequency: ["MHz", "GHz", "kHz"],
  "power level": ["dBm", "dBW"],
  gain: ["dBi", "dBd"],
  "bit rate": ["Mbit/s", "Gbit/s", "kbit/s"],
  temperature: ["degC"],
  "loss per length": ["dB/m", "dB/100m"],
  consumption: ["W", "kW"],
  mass: ["kg", "t"],
};

const QUANTITY = /(?<![\w.°'"/-])(-?\d+(?:\.\d+)?) ([A-Za-z%][\w/%-]*)/g;

export function reworded(text: string, seed: number): string {
  const random = randomNumbers(seed);
  return text.replace(QUANTITY, (written: string, digits: string, symbol: string) => {
    // W stands for a consumption in the samples, power levels are in dBm.
    const found = findUnit(symbol, "consumption");
    if (!found || random() < 0.2) return written;
    const units = UNITS_WRITTEN[found.dimension] ?? [symbol];
    const unit = findUnit(units[Math.floor(random() * units.length)]!, found.dimension)!.unit;
    const moved = found.dimension === "frequency" ? 1 : 1 - random() / 20;
    const zero = unit.toBase(0);
    const value = (found.unit.toBase(Number(digits) * moved) - zero) / (unit.toBase(1) - zero);
    const decimals =
      found.dimension === "frequency" ? 9 : Math.floor(random() * 3) + (Math.abs(value) < 1 ? 3 : 0);
    return `${Number(value.toFixed(decimals))} ${unit.symbol}`;
  });
}
