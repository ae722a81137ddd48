/** A quantity in the other units of its dimension. */
import { type Dimension, UNITS, type Unit } from "../../shared/units/units.js";

/** `79.2 ft, 0.0246 km`: those in which the figure can be read, not the one it is written in. */
export function inOtherUnits(base: number, dimension: Dimension, written: string): readonly string[] {
  return UNITS[dimension].flatMap((unit) => {
    if (unit.symbol === written) return [];
    const value = fromBase(unit, base);
    const readable = value === 0 || (Math.abs(value) >= 1e-3 && Math.abs(value) < 1e7);
    return readable ? [`${Number(value.toPrecision(6))} ${unit.symbol}`] : [];
  });
}

/** The inverse of `toBase`, for scales, scales with an offset (degC) and powers (W to dBm). */
export function fromBase(unit: Unit, base: number): number {
  const zero = unit.toBase(0);
  if (Number.isFinite(zero)) return (base - zero) / (unit.toBase(1) - zero);
  return 10 ** ((base - unit.toBase(1)) / (unit.toBase(10) - unit.toBase(1)));
}
