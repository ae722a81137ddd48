/** A quantity in the other units of its dimension. */
import { type Dimension, UNITS, type Unit } from "../../shared/units/units.js";

/** Lengths of the two systems, for what is as long as a structure is high and for what is as long as a hop. */
const LENGTHS = { short: ["m", "ft"], long: ["km", "mi"] } as const;
const LONG_M = 1000;

/** `79.2 ft`: those in which somebody would read the figure, not the one it is written in. */
export function inOtherUnits(base: number, dimension: Dimension, written: string): readonly string[] {
  const lengths: readonly string[] = Math.abs(base) < LONG_M ? LENGTHS.short : LENGTHS.long;
  return UNITS[dimension].flatMap((unit) => {
    if (unit.symbol === written || (dimension === "length" && !lengths.includes(unit.symbol))) return [];
    const value = fromBase(unit, base);
    const readable = value === 0 || (Math.abs(value) >= 0.01 && Math.abs(value) < 1e6);
    return readable ? [`${Number(value.toPrecision(6))} ${unit.symbol}`] : [];
  });
}

/** The inverse of `toBase`, for scales, scales with an offset (degC) and powers (W to dBm). */
export function fromBase(unit: Unit, base: number): number {
  const zero = unit.toBase(0);
  if (Number.isFinite(zero)) return (base - zero) / (unit.toBase(1) - zero);
  return 10 ** ((base - unit.toBase(1)) / (unit.toBase(10) - unit.toBase(1)));
}
