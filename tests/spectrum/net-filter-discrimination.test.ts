/** Net filter discrimination, of raised cosines and of masks. */
import fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import type { FilterShape, MaskPoint } from "../../shared/spectrum/filter-shape.js";
import {
  DEFAULT_CAP_DB,
  filterPair,
  netFilterDiscriminationDb,
} from "../../shared/spectrum/net-filter-discrimination.js";
import { must } from "../p530/support.js";
import { loadVectors, testRows } from "../support/vectors.js";

type Row = [
  txMBd: number,
  txRollOff: number,
  rxMBd: number,
  rxRollOff: number,
  offsetMHz: number,
  totalDb: number,
  relativeDb: number,
];
const file = loadVectors<{ source: string; columns: string[]; rows: Row[] }>(
  "spectrum/net-filter-discrimination.json",
);
/** Four decimals are printed. */
const PRINTED = { absolute: 6e-5 };

function raisedCosine(megabaud: number, rollOff: number): FilterShape {
  return { kind: "raised-cosine", symbolRateHz: megabaud * 1e6, rollOff };
}
function nfd(transmit: FilterShape, receive: FilterShape, capDb?: number) {
  const { pair } = must(filterPair(transmit, receive, capDb));
  return (offsetHz: number) => netFilterDiscriminationDb(pair, offsetHz);
}

testRows("raised cosine into its root, unequal bandwidths", file.source, file.rows, (row, is) => {
  const [tx, txRollOff, rx, rxRollOff, offsetMHz, totalDb, relativeDb] = row;
  const at = nfd(raisedCosine(tx, txRollOff), raisedCosine(rx, rxRollOff), 300);
  is.close("total", at(offsetMHz * 1e6), totalDb, PRINTED);
  is.close("relative to co-channel", at(offsetMHz * 1e6) - at(0), relativeDb, { absolute: 1.2e-4 });
});

const points = (...list: [offsetMHz: number, attenuationDb: number][]): FilterShape => ({
  kind: "points",
  points: list.map(([offsetMHz, attenuationDb]): MaskPoint => ({ offsetHz: offsetMHz * 1e6, attenuationDb })),
});

describe("masks", () => {
  it("a rectangle into a rectangle is the overlap", () => {
    const at = nfd(points([14, 0]), points([7, 0], [7, 60]), 100);
    // By hand: the filter passes half of it, and a millionth of the rest.
    expect(at(0)).toBeCloseTo(-10 * Math.log10(0.5 + 0.5e-6), 10);
    // One channel of 21 MHz beside: the filter's band begins where the emission ends.
    expect(at(21e6)).toBeCloseTo(60, 10);
    expect(at(14e6)).toBeCloseTo(-10 * Math.log10(0.25 + 0.75e-6), 10);
  });

  it("a skirt straight in dB, by its integral in closed form", () => {
    // 1 to 10 MHz, then 100 dB down to 20 MHz, into a filter that is flat: nothing is kept out.
    expect(nfd(points([10, 0], [20, 100]), points([500, 0]))(0)).toBeCloseTo(0, 12);
    // The same into a filter of +-10 MHz: the skirt, 2 * 10 MHz/(10 ln 10) of density, is kept out by 200 dB.
    const skirtMHz = (2 * 10 * (1 - 1e-10)) / (10 * Math.LN10);
    const at = nfd(points([10, 0], [20, 100]), points([10, 0], [10, 200]));
    expect(at(0)).toBeCloseTo(10 * Math.log10((20 + skirtMHz) / 20), 11);
  });

  it("ends at the cap where a mask is silent", () => {
    expect(nfd(raisedCosine(25, 0.15), raisedCosine(25, 0.15))(60e6)).toBe(DEFAULT_CAP_DB);
    expect(nfd(points([14, 0]), raisedCosine(25, 0.15), 65)(200e6)).toBe(65);
    expect(nfd(points([14, 0]), points([14, 0], [20, 42]), 65)(200e6)).toBeCloseTo(42, 9);
    expect(nfd(points([14, 0]), raisedCosine(25, 0.15))(Number.NaN)).toBe(50);
    // Also where the last point of a selectivity would be held.
    const held = nfd(points([14, 0]), points([14, 0], [20, 42]), 65);
    expect([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY].map(held)).toEqual([65, 65, 65]);
  });

  it("what is none is refused with the reason", () => {
    const good = raisedCosine(25, 0.2);
    expect(filterPair(points([14, 0], [7, 10]), good)).toMatchObject({
      refusal: { code: "points-not-rising" },
    });
    expect(filterPair(points([0, 0]), good)).toMatchObject({ refusal: { code: "points-without-width" } });
    expect(filterPair(good, points())).toMatchObject({ refusal: { code: "points-without-width" } });
    expect(filterPair(good, points([7, Number.NaN]))).toMatchObject({ refusal: { code: "input-outside" } });
    expect(filterPair(raisedCosine(0, 0.2), good)).toMatchObject({ refusal: { code: "input-unusable" } });
    expect(filterPair(good, raisedCosine(25, 1.2))).toMatchObject({ refusal: { code: "input-outside" } });
    expect(filterPair(good, good, Number.NaN)).toMatchObject({ refusal: { code: "input-unusable" } });
  });
});

const cosine = fc
  .tuple(fc.double({ min: 0.5, max: 500, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }))
  .map(([rate, rollOff]) => raisedCosine(rate, rollOff));
/** Falls away from the centre, as masks do. */
const mask = fc
  .array(fc.tuple(fc.double({ min: 0, max: 60, noNaN: true }), fc.double({ min: 0, max: 30, noNaN: true })), {
    minLength: 1,
    maxLength: 8,
  })
  .map((steps): FilterShape => {
    let offsetMHz = 1;
    let attenuationDb = 0;
    return points(
      ...steps.map(([further, lower]): [number, number] => {
        const point: [number, number] = [(offsetMHz += further), attenuationDb];
        attenuationDb += lower;
        return point;
      }),
    );
  });
const shape = fc.oneof(cosine, mask);

test("grows with the offset, is even, and lies from 0 to the cap", () => {
  const offset = fc.double({ min: 0, max: 700e6, noNaN: true });
  fc.assert(
    fc.property(shape, shape, offset, offset, (transmit, receive, a, b) => {
      const at = nfd(transmit, receive);
      const nearer = at(Math.min(a, b));
      const farther = at(Math.max(a, b));
      expect(at(-a)).toBe(at(a));
      expect(nearer).toBeGreaterThanOrEqual(0);
      expect(farther).toBeLessThanOrEqual(50);
      expect(farther - nearer).toBeGreaterThanOrEqual(-1e-9);
    }),
  );
});
