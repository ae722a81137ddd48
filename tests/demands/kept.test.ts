/** What is kept up to date is what a fresh look gives, and a failure leaves the network as it would be without its element. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { Demands } from "../../shared/demands/demands.js";
import type { Demand } from "../../shared/design/demand.js";
import { inputs, type MadeHop } from "./networks.js";

const SITES = ["A", "B", "C", "D", "E", "F"];
const made = fc.record<MadeHop>({
  km: fc.integer({ min: 1, max: 60 }),
  modes: fc.constantFrom(
    [{ bps: 100e6, multipath: 0.001, rain: 0.001 }],
    [
      { bps: 50e6, multipath: 0, rain: 0.001 },
      { bps: 200e6, multipath: 0.01, rain: 0.02 },
    ],
    [],
  ),
});
const site = fc.constantFrom(...SITES);
const hops = fc.dictionary(
  fc
    .tuple(site, site)
    .filter(([a, b]) => a !== b)
    .map(([a, b]) => `${a}-${b}`),
  made,
  { minKeys: 3, maxKeys: 9 },
);
const demand = fc.record<Omit<Demand, "name" | "accepts">>(
  {
    from: site,
    to: fc.oneof(
      site.map((name) => ({ site: name })),
      fc.constant("handover" as const),
    ),
    committedBps: fc.constantFrom(10e6, 60e6, 150e6),
    availabilityPercent: fc.constantFrom(99, 99.99, 99.999),
    priority: fc.constantFrom(1, 2),
    growthPercent: fc.constantFrom(5, 20),
    growthYears: fc.constantFrom(3, 10),
    clock: fc.constantFrom("one-feed", "two-feeds"),
    latencyS: fc.constantFrom(1e-3, 1e-2),
    secondRoute: fc.record({ disjoint: fc.constantFrom("hop", "site", "structure") }),
  },
  { requiredKeys: ["from", "to"] },
);
const networks = fc.tuple(
  hops,
  fc.dictionary(fc.constantFrom("D1", "D2", "D3", "D4"), demand, { minKeys: 1 }),
  fc.record({
    terms: fc.record({ rerouting: fc.constantFrom("any", "none") }, { requiredKeys: [] }),
    at: fc.dictionary(site, fc.constantFrom({ handover: true }, { handover: true, clockSource: true }), {
      maxKeys: 2,
    }),
  }),
);

it("after any edits the results are those of a fresh look", () => {
  fc.assert(
    fc.property(fc.array(networks, { minLength: 2, maxLength: 4 }), (states) => {
      const kept = new Demands();
      for (const state of states) {
        const now = inputs(...(state as Parameters<typeof inputs>));
        expect(kept.of(now)).toEqual(new Demands().of(now));
      }
    }),
  );
});

it("broken off at any step and asked again with anything else, it gives what a fresh look gives", () => {
  const step = fc.tuple(networks, fc.integer({ min: 0, max: 12 }));
  fc.assert(
    fc.property(fc.array(step, { minLength: 1, maxLength: 4 }), networks, (broken, last) => {
      const kept = new Demands();
      for (const [state, steps] of broken) {
        const looking = kept.inSteps(inputs(...(state as Parameters<typeof inputs>)));
        for (let step = 0; step < steps; step++) if (looking.next().done) break;
      }
      const now = inputs(...(last as Parameters<typeof inputs>));
      expect(kept.of(now)).toEqual(new Demands().of(now));
    }),
  );
});

it("no figure is none, and every load is the sum of what passes", () => {
  fc.assert(
    fc.property(networks, (state) => {
      const { demands, hops: loads } = new Demands().of(inputs(...(state as Parameters<typeof inputs>)));
      const text = JSON.stringify([[...demands.values()], [...loads.values()]], (_, value) =>
        typeof value === "number" && !Number.isFinite(value) ? "NOT A NUMBER" : value,
      );
      expect(text).not.toContain("NOT A NUMBER");
      for (const [hop, { committedBps }] of loads) {
        const passing = [...demands.values()].filter(({ route }) => route?.hops.includes(hop));
        expect(committedBps).toBeCloseTo(
          passing.reduce((sum, { taken }) => sum + taken.committedBps, 0),
          0,
        );
      }
    }),
  );
});

it("what is open says which hop lacks what, and of a mode without figures nothing is met", () => {
  fc.assert(
    fc.property(networks, (state) => {
      const { demands } = new Demands().of(inputs(...(state as Parameters<typeof inputs>)));
      for (const { hops: passed, open, verdicts } of demands.values()) {
        const { availability, latency } = verdicts;
        if (availability === "open" || latency === "open") expect(open).not.toEqual([]);
        if (passed.some(({ bps, outagePercent }) => bps === undefined && outagePercent === undefined))
          for (const verdict of [availability, latency]) expect(verdict).not.toBe("met");
      }
    }),
  );
});

it("what a failed hop loses has no way in the network without it, and what moves has", () => {
  fc.assert(
    fc.property(networks, ([all, asked, { at }]) => {
      // Second routes go their own way; here it is about the network.
      const plain = Object.fromEntries(
        Object.entries(asked).map(([name, { secondRoute: _, ...rest }]) => [name, rest]),
      );
      const more = { at } as Parameters<typeof inputs>[2];
      const { failures } = new Demands().of(inputs(all, plain, more));
      for (const { element, lost, moved } of failures) {
        if (element.kind !== "hop") continue;
        const { [element.name]: _, ...rest } = all;
        const { demands } = new Demands().of(inputs(rest, plain, more));
        for (const name of lost)
          expect(demands.get(name)!.route, `${name} without ${element.name}`).toBeUndefined();
        for (const name of moved)
          expect(demands.get(name)!.route, `${name} without ${element.name}`).toBeDefined();
      }
    }),
  );
});
