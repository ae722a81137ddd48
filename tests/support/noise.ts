/** Digits that nobody wrote: 55.00000000000001 for 55, 0.30000000000000004 for 0.3, 24.999999999999996 for 25. */
const NOISE = /(?<![\d.])\d+\.\d*?(?:0{6,}[1-9]\d{0,2}|9{6,}\d{0,2})(?!\d)(?:e-?\d+)?/g;

/** Fewer digits than these are a small figure, and no rounding of a double. */
const DIGITS_OF_A_DOUBLE = 15;

/** Every figure of a text that ends in the rounding of a double. */
export function noiseIn(text: string): string[] {
  return (text.match(NOISE) ?? []).filter(
    (figure) => figure.replace(/^[0.]+|\.|e.*$/g, "").length >= DIGITS_OF_A_DOUBLE,
  );
}

/** The same of numbers and texts anywhere in plain data, each with its path. */
export function noiseOf(value: unknown, path = ""): string[] {
  if (typeof value === "number") return noiseIn(String(value)).map((figure) => `${path}: ${figure}`);
  if (typeof value === "string")
    return noiseIn(value).map((figure) => `${path}: ${figure} in ${value.slice(0, 200)}`);
  if (value === null || typeof value !== "object") return [];
  const parts = value instanceof Map ? [...value] : Object.entries(value);
  return parts.flatMap(([key, part]) => noiseOf(part, `${path}.${String(key)}`));
}
