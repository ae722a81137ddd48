/** Availability of series and of two routes, against every state that their hops can be in, and against chance. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { type HopShare, protectedOutage, routeOutage } from "../../shared/demands/route-outage.js";
import { randomNumbers } from "../bench/random.js";

/** Rain and failures alone: hops fail by themselves, and every state is counted with its share. */
const share = fc.record({
  rainFraction: fc.double({ min: 0, max: 0.2, noNaN: true }),
  equipmentFraction: fc.double({ min: 0, max: 0.2, noNaN: true }),
});
const hops = fc
  .array(share, { maxLength: 2 })
  .map((all): HopShare[] => all.map((one) => ({ ...one, multipathFraction: 0, fadeMarginDb: 30 })));

/** Share of all states in which neither route is whole. */
function byStates(shared: readonly HopShare[], one: readonly HopShare[], other: readonly HopShare[]): number {
  const parts = [...shared, ...one, ...other].map(({ rainFraction }) => rainFraction);
  let down = 0;
  for (let state = 0; state < 2 ** parts.length; state++) {
    const isUp = (k: number) => (state >> k) % 2 === 0;
    const share = parts.reduce((product, p, k) => product * (isUp(k) ? 1 - p : p), 1);
    const whole = (from: number, count: number) =>
      Array.from({ length: count }, (_, k) => from + k).every(isUp);
    const [s, a, b] = [shared.length, one.length, other.length];
    if (!(whole(0, s) && (whole(s, a) || whole(s + a, b)))) down += share;
  }
  return down;
}

it("rain on each hop by itself takes what all states say", () => {
  fc.assert(
    fc.property(hops, hops, hops, (shared, one, other) => {
      expect(protectedOutage(shared, one, other).rainIndependent).toBeCloseTo(
        byStates(shared, one, other),
        12,
      );
      expect(routeOutage([...shared, ...one]).rainIndependent).toBeCloseTo(
        byStates([...shared, ...one], [], []),
        12,
      );
    }),
  );
});

it("a second route never makes it worse, nor does one hop less; nothing is lost in small shares", () => {
  fc.assert(
    fc.property(hops, hops, hops, (shared, one, other) => {
      const alone = routeOutage([...shared, ...one]);
      const both = protectedOutage(shared, one, other);
      for (const of of ["rainIndependent", "rainTogether", "equipment"] as const)
        expect(both[of]).toBeLessThanOrEqual(alone[of] + 1e-15);
      expect(routeOutage(shared).all).toBeLessThanOrEqual(alone.all + 1e-15);
    }),
  );
  const tiny = { multipathFraction: 0, fadeMarginDb: 30, rainFraction: 1e-12, equipmentFraction: 0 };
  expect(routeOutage([tiny, tiny]).rainIndependent).toBeCloseTo(2e-12, 20);
});

it("two routes of two hops lose as much as when they fail by chance, rain and equipment apart", () => {
  const hop = (rainFraction: number, equipmentFraction: number): HopShare => ({
    multipathFraction: 0,
    fadeMarginDb: 30,
    rainFraction,
    equipmentFraction,
  });
  const [shared, one, other] = [[hop(0.01, 0.02)], [hop(0.05, 0.03), hop(0.1, 0)], [hop(0.2, 0.05)]];
  const random = randomNumbers(17);
  const runs = 400_000;
  let down = 0;
  for (let run = 0; run < runs; run++) {
    const whole = (of: readonly HopShare[]) =>
      of.every(
        ({ rainFraction, equipmentFraction = 0 }) =>
          random() >= rainFraction && random() >= equipmentFraction,
      );
    const [s, a, b] = [whole(shared), whole(one), whole(other)];
    if (!(s && (a || b))) down++;
  }
  const { rainIndependent, equipment, mixed } = protectedOutage(shared, one, other);
  // Causes are summed, as is usual for small shares; here they are large, so that what counts double is allowed for.
  const found = rainIndependent + equipment + mixed;
  const spread = 4 * Math.sqrt((found * (1 - found)) / runs);
  const twice = 0.01 * 0.02 + 0.03 * 0.05 + 0.05 * 0.2;
  expect(found).toBeGreaterThan(down / runs - spread);
  expect(found - down / runs).toBeLessThan(spread + twice);
});
