/** Both sides of what decides about sub-bands and spares. */
import { expect, it } from "vitest";
import type { Part } from "../../shared/equipment/parts-list.js";
import { spareParts } from "../../shared/equipment/parts-list.js";
import { frequenciesOf, holds } from "../../shared/equipment/sub-band.js";
import { end, KELD, makeHop, TARN } from "../evaluate/builders.js";

const SUB_BAND = { name: "A", low: { fromHz: 10, toHz: 20 }, high: { fromHz: 110, toHz: 120 } };

it.each([
  [10, 110, true],
  [20, 120, true],
  [9.9, 110, false],
  [20.1, 110, false],
  [10, 109.9, false],
  [10, 120.1, false],
])("a sub-band of 10 to 20 and 110 to 120 holds %s and %s: %s", (lowHz, highHz, wanted) => {
  expect(holds(SUB_BAND, { lowHz, highHz })).toBe(wanted);
});

it("the frequencies of a hop are the lower and the higher of its ends, and none while one is not known", () => {
  expect(frequenciesOf(makeHop())).toEqual({ lowHz: 17.92e9, highHz: 18.93e9 });
  expect(frequenciesOf(makeHop({ ends: [end(TARN, "low"), end(KELD, "high")] }))).toEqual({
    lowHz: 17.92e9,
    highHz: 18.93e9,
  });
  const unknown = { transmitFrequencyHz: undefined };
  for (const ends of [
    [end(KELD, "high", unknown), end(TARN, "low")],
    [end(KELD, "high"), end(TARN, "low", unknown)],
  ] as const)
    expect(frequenciesOf(makeHop({ ends }))).toBeUndefined();
});

it("spares are a share of what is in use, rounded up, at least so many, and of cables as long as one on average", () => {
  const cable: Part = { kind: "cable", name: "C7", quantity: 4, lengthM: 100, estimated: false };
  const unit: Omit<Part, "quantity"> = { kind: "unit", name: "R18", estimated: false };
  const spares = (sharePercent: number, least: number, part: Part = cable) =>
    spareParts([part], [{ kind: part.kind, sharePercent, least }]).map(({ quantity, lengthM }) => [
      quantity,
      lengthM,
    ]);
  expect(spares(25, 0)).toEqual([[1, 25]]);
  expect(spares(26, 0)).toEqual([[2, 50]]);
  expect(spares(0, 3)).toEqual([[3, 75]]);
  expect(spares(0, 0)).toEqual([]);
  expect(spares(5, 0, { ...unit, quantity: 20 })).toEqual([[1, undefined]]);
  expect(spares(5, 0, { ...unit, quantity: 21 })).toEqual([[2, undefined]]);
  expect(spares(50, 1, { ...cable, toChoose: true })).toEqual([]);
});
