/** The interval of a share, against figures of the literature; and what a seed draws. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { drawn, type Mutant } from "./sample.js";
import { scoreOf } from "./score.js";

it("is Wilson's interval, as R. G. Newcombe, Statist. Med. 17 (1998) 857-872, table I, method 3 has it", () => {
  // 81 of 263, 15 of 148, 0 of 20, 1 of 29; from memory of that table.
  for (const [killed, of, low, high] of [
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ] as const) {
    const score = scoreOf(killed, of);
    expect(score.low).toBeCloseTo(low, 4);
    expect(score.high).toBeCloseTo(high, 4);
  }
});

it("a seed draws the same of the same mutants in whatever order, each once", () => {
  const mutant = fc.record<Mutant>({
    file: fc.constantFrom("a.ts", "b.ts"),
    location: fc.record({
      start: fc.record({ line: fc.nat(9), column: fc.nat(9) }),
      end: fc.record({ line: fc.nat(9), column: fc.nat(9) }),
    }),
    mutatorName: fc.constantFrom("EqualityOperator", "ConditionalExpression"),
    replacement: fc.constantFrom("true", "false", "a < b"),
  });
  fc.assert(
    fc.property(
      fc.uniqueArray(mutant, { selector: (one) => JSON.stringify(one) }),
      fc.nat(5),
      (all, seed) => {
        const order = drawn(all, seed);
        expect(drawn(all.toReversed(), seed)).toEqual(order);
        expect(new Set(order)).toEqual(new Set(all));
      },
    ),
  );
});
