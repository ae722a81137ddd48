import fc from "fast-check";
import { expect, test } from "vitest";
import { canonicalHeights } from "../../shared/terrain/plausible.js";
import { VOID_INT16 } from "../../shared/terrain/raster.js";

/** Longer than what is looked at together, so that heights, voids and the ends of blocks all meet. */
const LENGTH = 10_000;

const noData = fc.constantFrom(undefined, VOID_INT16, -9999, 0, 700, 1.5, Number.NaN);
const oddities = fc.array(
  fc.tuple(
    fc.nat(LENGTH - 1),
    fc.constantFrom(VOID_INT16, -9999, -501, -500, -11_100, -11_101, 0, 700, 9000, 9001, 32_767),
  ),
  { maxLength: 20 },
);

test("whole metres are sifted as any other heights are", () => {
  fc.assert(
    fc.property(noData, oddities, (noData, odd) => {
      const stored = new Int16Array(LENGTH).map((_, i) => i % 900);
      for (const [at, value] of odd) stored[at] = value;
      const meaning = { noData, scale: 1, offsetM: 0 };
      // The same values in another type take the loop that tests each of them.
      const expected = canonicalHeights(Int32Array.from(stored), meaning);
      const { heightsM, implausible } = canonicalHeights(stored, meaning);
      expect(implausible).toBe(expected.implausible);
      const differs = heightsM.findIndex(
        (height, i) => !Object.is(height === VOID_INT16 ? Number.NaN : height, expected.heightsM[i]),
      );
      expect(differs).toBe(-1);
    }),
  );
});
