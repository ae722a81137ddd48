/** What is remembered row by row is what is made of each row, and only of others than before. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { Memory } from "../../shared/network/memory.js";

const STEP = {};
const ROWS = Array.from({ length: 1000 }, (_, n) => ({ n }));

const rows = fc.array(fc.nat(11), { maxLength: 12 }).map((places) => places.map((n) => ROWS[n]!));

test("each row has what is made of it, whatever rows came, went or changed places", () => {
  fc.assert(
    fc.property(fc.array(rows, { minLength: 2, maxLength: 6 }), (rounds) => {
      const memory = new Memory();
      let before: readonly (typeof ROWS)[number][] = [];
      let made: readonly { readonly n: number }[] = [];
      for (const now of rounds) {
        const anew: number[] = [];
        const outcomes = memory.each(STEP, now, (row) => {
          anew.push(row.n);
          return { n: row.n };
        });
        expect(outcomes.map(({ n }) => n)).toEqual(now.map(({ n }) => n));
        for (const [place, row] of now.entries()) {
          if (before[place] === row) expect(outcomes[place]).toBe(made[place]);
          // Where some came or went, none that was there is made again.
          if (before.length !== now.length && before.includes(row)) expect(anew).not.toContain(row.n);
        }
        if (
          now.length > 0 &&
          before.length === now.length &&
          now.every((row, place) => row === before[place])
        )
          expect(outcomes).toBe(made);
        [before, made] = [now, outcomes];
      }
    }),
  );
});

test("what is made of a thing is made once, also where nothing came of it", () => {
  for (const outcome of [{}, 0, undefined]) {
    const memory = new Memory();
    let made = 0;
    const make = () => {
      made++;
      return outcome;
    };
    for (const row of [ROWS[0]!, ROWS[0]!, ROWS[1]!, ROWS[0]!])
      expect(memory.of(STEP, row, make)).toBe(outcome);
    expect(made).toBe(2);
  }
});

test("steps are remembered apart, and many rows that are made anew let other work in", () => {
  const memory = new Memory();
  expect(memory.each(STEP, ROWS, ({ n }) => n + 1)[0]).toBe(1);
  expect(memory.each({}, ROWS, ({ n }) => n + 2)[0]).toBe(2);
  const stopsOf = (making: Generator<void, readonly number[]>) => [...making].length;
  expect(stopsOf(memory.eachInSteps({}, ROWS, ({ n }) => n))).toBe(3);
  expect(stopsOf(memory.eachInSteps(STEP, ROWS.toSpliced(5, 1, { n: 0 }), ({ n }) => n))).toBe(0);
});
