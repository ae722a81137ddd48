import { MAP_PRODUCTS, type MapFact } from "../../shared/propagation/maps.js";

export const product = (fact: MapFact) => MAP_PRODUCTS.find((one) => one.fact === fact)!;

/** The text of a map of the right shape; `value` says what stands at each of its places. */
export function invented(
  fact: MapFact,
  value: (latitudeDeg: number, longitudeDeg: number) => number,
  comma = false,
) {
  const { rows, columns, ...first } = product(fact).shape;
  const lines = Array.from({ length: rows }, (_, row) =>
    Array.from({ length: columns }, (_, column) =>
      value(
        first.firstLatitudeDeg + row * first.latitudeStepDeg,
        first.firstLongitudeDeg + column * first.longitudeStepDeg,
      ).toFixed(5),
    ).join(comma ? "," : "  "),
  );
  return `${lines.join("\n")}\n`;
}
