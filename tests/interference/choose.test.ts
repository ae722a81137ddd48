/** Choices for several hops against every choice there is. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { choose } from "../../shared/interference/choose/choose.js";
import { type Actor, type Link, type Problem, Tally } from "../../shared/interference/choose/problem.js";

function run<T>(work: Generator<unknown, T>): T {
  for (let step = work.next(); ; step = work.next()) if (step.done) return step.value;
}

/** An assignment put together at once. */
function tallyOf(problem: Problem, chosen: ArrayLike<number>): Tally {
  const tally = new Tally(problem);
  for (let at = 0; at < chosen.length; at++) tally.move(at, chosen[at]!);
  tally.refresh();
  return tally;
}

const CHANNELS = ["P 1", "P 2", "P 3"];

function actor(name: string, channels: number, polarizations: number): Actor {
  return {
    name,
    choices: CHANNELS.slice(0, channels).flatMap((channel, numberAt) =>
      Array.from({ length: polarizations }, (_, polarizationAt) => ({
        channel,
        widthHz: 28e6,
        numberAt,
        polarizationAt,
      })),
    ),
  };
}

interface Drawn {
  readonly channels: number;
  readonly polarizations: number;
  readonly limit: number;
  readonly single: boolean;
}

/** Powers fall with the distance of two channels, and crossed polarizations take some off. */
function problemOf(hops: readonly Drawn[], powers: readonly number[]): Problem {
  const actors = hops.map(({ channels, polarizations }, at) => actor(`H${at}`, channels, polarizations));
  const links: Link[] = [];
  let at = 0;
  for (const [sender, sends] of hops.entries())
    for (const [receiver, hears] of hops.entries()) {
      const power = powers[at++ % powers.length]!;
      if (sender === receiver || power === 0) continue;
      const pairs = Array.from({ length: sends.polarizations * hears.polarizations }, (_, index) =>
        Math.floor(index / hears.polarizations) === index % hears.polarizations ? power : power / 30,
      );
      const all = Float64Array.from(pairs);
      const filter = Float64Array.from(
        { length: sends.channels * hears.channels },
        (_, index) => [1, 0.02, 0][Math.abs(Math.floor(index / hears.channels) - (index % hears.channels))]!,
      );
      const columns = { polarizations: hears.polarizations, numbers: hears.channels };
      links.push({ sender, receiver, sum: all, single: all, short: all, filter, ...columns });
    }
  return {
    actors,
    links,
    receivers: hops.map(({ limit, single }, index) => ({
      actor: index,
      sum: limit,
      ...(single && { single: limit / 2 }),
    })),
  };
}

const drawn = (most: number, channels: number): fc.Arbitrary<Problem> =>
  fc
    .tuple(
      fc.array(
        fc.record({
          channels: fc.integer({ min: 1, max: channels }),
          polarizations: fc.integer({ min: 1, max: 2 }),
          // No sum of the powers below comes to one of these: at the limit itself the order of a sum would decide.
          limit: fc.constantFrom(0.1003, 0.2607, 1.0031),
          single: fc.boolean(),
        }),
        { minLength: 1, maxLength: most },
      ),
      fc.array(fc.constantFrom(0, 0, 0.05, 0.2, 0.5, 3, 40), { minLength: 64, maxLength: 64 }),
    )
    .map(([hops, powers]) => problemOf(hops, powers));

/** Worked out without the tally, choice by choice. */
function costOf({ actors, receivers, links }: Problem, chosen: readonly number[]) {
  const at = (index: number) => actors[index]!.choices[chosen[index]!]!;
  let violations = 0;
  for (const [index, receiver] of receivers.entries()) {
    const own = at(receiver.actor);
    const powers = links
      .filter((link) => link.receiver === index)
      .map((link) => {
        const from = at(link.sender);
        return (
          link.filter[from.numberAt * link.numbers + own.numberAt]! *
          link.sum[from.polarizationAt * link.polarizations + own.polarizationAt]!
        );
      });
    const sum = powers.reduce((a, b) => a + b, 0);
    if (sum > receiver.sum! || powers.some((one) => receiver.single !== undefined && one > receiver.single))
      violations++;
  }
  const channels = new Set(actors.map((_, index) => at(index).channel));
  return { violations, spectrumHz: channels.size * 28e6 };
}

function* every(actors: readonly Actor[], from = 0): Generator<number[]> {
  if (from === actors.length) yield [];
  else
    for (const rest of every(actors, from + 1))
      for (const choice of actors[from]!.choices.keys()) yield [choice, ...rest];
}

function best(problem: Problem) {
  let least = { violations: Number.POSITIVE_INFINITY, spectrumHz: 0 };
  for (const chosen of every(problem.actors)) {
    const cost = costOf(problem, chosen);
    if (
      cost.violations < least.violations ||
      (cost.violations === least.violations && cost.spectrumHz < least.spectrumHz)
    )
      least = cost;
  }
  return least;
}

test.each([
  ["five hops, three channels", drawn(5, 3), 60],
  ["eight hops, two channels", drawn(8, 2), 25],
])("%s: no choice is better, and that is proven", (_, problems, numRuns) => {
  fc.assert(
    fc.property(problems, (problem) => {
      const { chosen, cost, least } = run(choose(problem));
      const told = { violations: cost.violations, spectrumHz: cost.spectrumHz };
      expect(costOf(problem, [...chosen])).toEqual(told);
      expect(told).toEqual(best(problem));
      expect(least).toEqual(told);
      // The same again.
      expect([...run(choose(problem)).chosen]).toEqual([...chosen]);
    }),
    { numRuns },
  );
});

test("of many hops nothing is told to be out of reach that a choice reaches", () => {
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom(0, 0, 0, 0.2, 3), { minLength: 97, maxLength: 97 }),
      fc.array(fc.nat(5), { minLength: 14, maxLength: 14 }),
      (powers, choices) => {
        const hop = { channels: 3, polarizations: 2, limit: 0.26, single: false };
        const problem = problemOf(
          Array.from({ length: 14 }, () => hop),
          powers,
        );
        const { chosen, cost, least } = run(choose(problem));
        expect(costOf(problem, [...chosen])).toEqual({
          violations: cost.violations,
          spectrumHz: cost.spectrumHz,
        });
        const drawnCost = costOf(problem, choices);
        for (const any of [cost, drawnCost]) {
          expect(any.violations).toBeGreaterThanOrEqual(least.violations);
          if (any.violations === least.violations)
            expect(any.spectrumHz).toBeGreaterThanOrEqual(least.spectrumHz);
        }
      },
    ),
    { numRuns: 40 },
  );
});

test("moves leave the cost that the assignment has afresh", () => {
  fc.assert(
    fc.property(
      drawn(6, 3),
      fc.array(fc.tuple(fc.nat(5), fc.integer({ min: -1, max: 5 })), { maxLength: 30 }),
      (problem, moves) => {
        const tally = tallyOf(problem, new Int32Array(problem.actors.length).fill(-1));
        for (const [actorAt, choice] of moves) {
          const choices = problem.actors[actorAt]?.choices.length ?? 0;
          if (choice < choices && choices > 0) tally.move(actorAt, choice);
        }
        const afresh = tallyOf(problem, tally.chosen);
        expect(tally.cost.violations).toBe(afresh.cost.violations);
        expect(tally.cost.spectrumHz).toBe(afresh.cost.spectrumHz);
        expect(tally.cost.degradationDb).toBeCloseTo(afresh.cost.degradationDb, 6);
      },
    ),
    { numRuns: 200 },
  );
});
