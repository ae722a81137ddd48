/** A comparison never says of demands that something is mended, where it only is not told or not known any more. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isOpenOn, isOpenOnLoad } from "../../shared/compare/demands.js";
import type { DemandsResult } from "../../shared/demands/result.js";
import { demandAvailability } from "../../shared/rules/demands/demand-availability.js";
import { demandCapacity } from "../../shared/rules/demands/demand-capacity.js";
import { demandGrowth } from "../../shared/rules/demands/demand-growth.js";
import { demandLatency } from "../../shared/rules/demands/demand-latency.js";
import { failureGrowth } from "../../shared/rules/demands/failure-growth.js";
import { failureOverloads } from "../../shared/rules/demands/failure-overloads.js";
import type { NetworkRule } from "../../shared/rules/rule.js";
import { type MadeHop, network } from "./networks.js";

const site = (name: string) => ({ site: name });

interface Told {
  readonly at: string;
  readonly about?: string;
}

function toldBy(rule: NetworkRule, demands: DemandsResult): readonly Told[] {
  const found: Told[] = [];
  const { check } = rule as unknown as { check(on: unknown): void };
  check({ demands, report: (one: Told) => found.push(one) });
  return found;
}

const mode = fc.record({
  bps: fc.constantFrom(40e6, 60e6, 100e6, 200e6),
  multipath: fc.constantFrom(0, 0.001, 0.02, undefined),
  rain: fc.constantFrom(0, 0.001, 0.02),
});
const hop = fc.record<MadeHop>({
  km: fc.constantFrom(5, 20),
  modes: fc.oneof(
    fc.constant([]),
    fc.array(mode, { minLength: 1, maxLength: 2 }).map((modes) => modes.sort((a, b) => a.bps - b.bps)),
  ) as fc.Arbitrary<MadeHop["modes"]>,
});
const NAMES = ["A-B", "B-C", "A-C", "C-D"] as const;
const hops = fc.record(Object.fromEntries(NAMES.map((name) => [name, hop])), {
  requiredKeys: ["A-B", "C-D"],
});
const asked = fc.record({
  committedBps: fc.constantFrom(20e6, 50e6, 90e6),
  availabilityPercent: fc.constantFrom(99.9, 99.99, 99.999),
  latencyS: fc.constantFrom(0.5e-3, 1e-3),
  growthPercent: fc.constantFrom(-5, 5, 15),
  growthYears: fc.constantFrom(2, 8),
});
const ENDS = { ONE: ["A", "B"], TWO: ["A", "C"], THREE: ["B", "D"] } as const;
const demands = fc.record({ ONE: asked, TWO: asked, THREE: asked });

type Asked = typeof demands extends fc.Arbitrary<infer T> ? T : never;

/** Each grown by so many years, as it states. */
function grown(all: Asked, year: number) {
  return Object.fromEntries(
    Object.entries(ENDS).map(([name, [from, to]]) => {
      const { committedBps, ...rest } = all[name as keyof typeof all];
      const factor = (1 + rest.growthPercent / 100) ** Math.min(year, rest.growthYears);
      return [name, { from, to: site(to), ...rest, committedBps: committedBps * factor }];
    }),
  );
}

/** Whether what is committed fits into what a hop carries: normally, or in each failure too. */
function fits(name: string, result: DemandsResult, carriedBps: number, inFailures: boolean): boolean {
  const { committedBps, worst } = result.hops.get(name)!;
  const most = inFailures ? Math.max(committedBps, worst?.committedBps ?? 0) : committedBps;
  return most <= carriedBps * (1 + 1e-5);
}

describe("two states of a network, each with any demands", () => {
  const states = fc.tuple(hops, demands, hops, demands);
  const both = (
    of: (was: DemandsResult, is: DemandsResult, years: (year: number) => DemandsResult) => void,
  ) =>
    fc.assert(
      fc.property(states, ([hopsWas, was, hopsIs, is]) => {
        const made = hopsIs as Record<string, MadeHop>;
        of(network(hopsWas as Record<string, MadeHop>, grown(was, 0)), network(made, grown(is, 0)), (year) =>
          network(made, grown(is, year)),
        );
      }),
      { numRuns: 300 },
    );

  it("growth and overload of a hop are mended where it fits in every year and failure, else not known", () => {
    both((was, is, years) => {
      for (const [rule, horizon, inFailures] of [
        [demandGrowth, 8, false],
        [failureGrowth, 8, true],
        [failureOverloads, 0, true],
      ] as const) {
        const now = new Set(toldBy(rule, is).map(({ about }) => about));
        for (const { about } of toldBy(rule, was)) {
          const load = is.hops.get(about!);
          if (now.has(about) || load === undefined || isOpenOnLoad(rule.id, load)) continue;
          for (let year = 0; year <= horizon; year++)
            expect(
              fits(about!, years(year), load.carriedBps!, inFailures),
              `${rule.id} of ${about} in ${year}`,
            ).toBe(true);
        }
      }
    });
  });

  it("availability, latency and capacity of a demand are mended where they are met, else not known", () => {
    both((was, is) => {
      for (const rule of [demandAvailability, demandLatency, demandCapacity]) {
        const now = new Set(toldBy(rule, is).map(({ at }) => at.split(" / ")[0]));
        for (const { at } of toldBy(rule, was)) {
          const owner = at.split(" / ")[0]!;
          const result = is.demands.get(owner.slice("demand ".length))!;
          if (now.has(owner) || isOpenOn(rule.id, result)) continue;
          const { verdicts, short, hops: passed } = result;
          if (rule === demandAvailability) expect(verdicts.availability).toBe("met");
          else if (rule === demandLatency) expect(verdicts.latency).toBe("met");
          else {
            expect(short).toEqual([]);
            for (const { bps, neededBps } of passed)
              expect(bps).toBeGreaterThanOrEqual(neededBps * (1 - 1e-5));
          }
        }
      }
    });
  });
});
