/** Who is named where a demand, or the load of a hop, is other than before: its own edit first, and nobody by chance. */
import { describe, expect, test } from "vitest";
import type { HopChange, SharedChange } from "../../shared/compare/change-set.js";
import type { HopOffer } from "../../shared/compare/demand-causes.js";
import { loadChanges } from "../../shared/compare/demand-loads.js";
import { demandChanges } from "../../shared/compare/demands.js";
import type { FindingChange } from "../../shared/compare/findings.js";
import type { DemandsResult } from "../../shared/demands/result.js";
import { type MadeHop, network } from "../demands/networks.js";

const NO_RENAMES = { hops: new Map(), entries: new Map() };

function edited(demand: string, word: string, ...findings: FindingChange[]): SharedChange {
  const decisions = word === "" ? [] : [{ word, was: `${word} 1`, is: `${word} 2` }];
  return { entry: `demand ${demand}`, status: "changed", decisions, findings, usedBy: 0, affects: 0 };
}

function found(rule: string, demand: string, about?: string): FindingChange {
  const is = { rule, severity: "warning", message: "", at: `demand ${demand}`, about } as const;
  return { status: "new", rule, severity: "warning", message: "", is };
}

function changedHop(hop: string, status: HopChange["status"] = "changed"): HopChange {
  const decisions = [{ word: "coupler", was: "coupler A", is: "coupler B" }];
  return { hop, status, edited: true, decisions, figures: [], causes: [], findings: [], worse: false };
}

function offering(bps: number, rainPercent = 0): HopOffer {
  const step = {
    modulation: "M",
    bps,
    fadeMarginDb: 30,
    multipathFraction: 0,
    rainFraction: rainPercent / 100,
  };
  return { capacity: [step] };
}

interface Changed {
  readonly hops?: readonly HopChange[];
  readonly shared?: readonly SharedChange[];
  readonly offers?: Readonly<Record<string, readonly [HopOffer | undefined, HopOffer | undefined]>>;
}

function because(was: DemandsResult, is: DemandsResult, changed: Changed): Record<string, readonly string[]> {
  const { hops = [], shared = [], offers = {} } = changed;
  const beside = {
    hops,
    shared,
    offers: (hop: string) => offers[hop] ?? ([offering(1e9), offering(1e9)] as const),
  };
  return Object.fromEntries([
    ...demandChanges(was, is, NO_RENAMES, beside).map((one) => [one.demand, one.because] as const),
    ...loadChanges(was, is, NO_RENAMES, beside).map((one) => [one.hop, one.because] as const),
  ]);
}

const A_TO_B = { from: "A", to: { site: "B" } } as const;

/** A-B fails, and all goes round by C, where A-C carries 100 Mbit/s. */
function ring(committedBps: number): DemandsResult {
  const hops = { "A-B": { modes: [{ bps: 900e6 }] }, "A-C": { modes: [{ bps: 100e6 }] }, "B-C": {} };
  return network(hops, { X: { ...A_TO_B, committedBps }, Y: { ...A_TO_B, committedBps: 1e6 } });
}

describe("more committed", () => {
  const [was, is] = [ring(200e6), ring(300e6)];
  const shared = [edited("X", "committed", found("failure-overloads", "X", "A-C"))];

  test("is the cause of what is found of the demand, whatever else was done to the hops", () => {
    const hops = [changedHop("A-C"), changedHop("A-B")];
    expect(because(was, is, { hops, shared })).toEqual({ X: ["demand X"], "A-C": ["demand X"] });
  });

  test("and a hop that carries less now is one beside it", () => {
    const hops = [changedHop("A-C"), changedHop("A-B")];
    const offers = { "A-C": [offering(200e6), offering(100e6)] } as const;
    expect(because(was, is, { hops, shared, offers })).toEqual({
      X: ["demand X", "hop A-C"],
      "A-C": ["demand X", "hop A-C"],
    });
  });

  test("is the cause of what is found of another that goes the same way", () => {
    const others = [edited("X", "committed"), edited("Y", "", found("failure-overloads", "Y", "A-C"))];
    expect(because(was, is, { hops: [changedHop("A-C")], shared: others }).Y).toEqual(["demand X"]);
  });

  test("is the cause there though one that brings what it brought was edited too", () => {
    const others = [edited("X", "committed"), edited("Y", "", found("failure-overloads", "Y", "A-C"))];
    expect(because(was, is, { shared: [...others, edited("Z", "latency")] }).Y).toEqual(["demand X"]);
    const hops = [changedHop("A-C")];
    const offers = { "A-C": [offering(200e6), offering(100e6)] } as const;
    const slower = [edited("X", "latency"), others[1]!];
    expect(because(was, was, { hops, offers, shared: slower }).Y).toEqual(["hop A-C"]);
  });

  test("and is none of what the text of another says of itself", () => {
    const others = [edited("X", ""), edited("Y", "accept", found("acceptance-unused", "Y"))];
    expect(because(was, is, { hops: [changedHop("A-C")], shared: others }).Y).toEqual(["demand Y"]);
    const slip = [edited("X", "committed"), edited("Y", "", found("demand-rate", "Y"))];
    expect(because(was, is, { hops: [changedHop("A-B", "added")], shared: slip }).Y).toEqual([]);
  });
});

test("the load of a hop is told of the hop", () => {
  expect(loadChanges(ring(200e6), ring(300e6), NO_RENAMES, { hops: [], shared: [] })).toMatchObject([
    { hop: "A-C", worse: true, figures: [{ kind: "load", label: "Committed in its worst failure" }] },
  ]);
  expect(demandChanges(ring(200e6), ring(300e6), NO_RENAMES, { hops: [], shared: [] })).toEqual([]);
});

test("what one demand is asked to last for is no cause of what another lasts for", () => {
  const asking = (availabilityPercent: number) =>
    network(
      { "A-B": {} },
      {
        X: { ...A_TO_B, committedBps: 1e6, availabilityPercent },
        Y: { ...A_TO_B, committedBps: 2e6, availabilityPercent },
      },
    );
  const shared = ["X", "Y"].map((name) => edited(name, "availability", found("demand-availability", name)));
  expect(because(asking(99.9), asking(99.99), { shared })).toEqual({ X: ["demand X"], Y: ["demand Y"] });
});

test("what a hop carries for the one that asks most of it is not due to one that asks less", () => {
  const modes = [
    { bps: 100e6, multipath: 0, rain: 0.001 },
    { bps: 400e6, multipath: 0, rain: 0.02 },
  ];
  const asking = (x: number, y: number) => {
    const grown = { ...A_TO_B, committedBps: 90e6, growthPercent: 10, growthYears: 5 };
    const demands = {
      X: { ...A_TO_B, committedBps: 1e6, availabilityPercent: x },
      Y: { ...grown, availabilityPercent: y },
    };
    return network({ "A-B": { modes } }, demands);
  };
  const shared = [
    edited("X", "availability"),
    edited("Y", "availability", found("demand-growth", "Y", "A-B")),
  ];
  expect(because(asking(99.9, 99.9), asking(99.995, 99.99), { shared }).Y).toEqual(["demand Y", "demand X"]);
  expect(because(asking(99.9, 99.9), asking(99.99, 99.995), { shared }).Y).toEqual(["demand Y"]);
});

test("of hops that are edited on one way the one is named that the demand is down for", () => {
  const chain = (first: number, second: number) => {
    const losing = (rain: number): MadeHop => ({ modes: [{ bps: 400e6, multipath: 0, rain }] });
    const hops = { "A-B": losing(first), "B-C": losing(second) };
    return network(hops, { X: { from: "A", to: { site: "C" }, committedBps: 1e6 } });
  };
  const hops = [changedHop("A-B"), changedHop("B-C")];
  const offers = {
    "A-B": [offering(400e6, 0.001), offering(400e6, 0.00101)],
    "B-C": [offering(400e6, 0.001), offering(400e6, 0.01)],
  } as const;
  expect(because(chain(0.001, 0.001), chain(0.00101, 0.01), { hops, offers })).toEqual({ X: ["hop B-C"] });
});

test("a demand that has a higher mode to itself since another lost its way has that from the hop that went", () => {
  const modes = [
    { bps: 100e6, multipath: 0, rain: 0.001 },
    { bps: 400e6, multipath: 0, rain: 0.01 },
  ];
  const demands = {
    X: { ...A_TO_B, committedBps: 90e6, priority: 2 },
    Y: { from: "C", to: { site: "B" }, committedBps: 90e6, priority: 1 },
  };
  const hop: MadeHop = { modes };
  const [was, is] = [network({ "A-B": hop, "C-A": hop }, demands), network({ "A-B": hop }, demands)];
  const offer: HopOffer = {
    capacity: [
      { modulation: "1", bps: 100e6, fadeMarginDb: 30, multipathFraction: 0, rainFraction: 1e-5 },
      { modulation: "2", bps: 400e6, fadeMarginDb: 30, multipathFraction: 0, rainFraction: 1e-4 },
    ],
  };
  const hops = [changedHop("C-A", "removed"), changedHop("A-B")];
  const told = because(was, is, { hops, offers: { "A-B": [offer, offer] } });
  expect(told.X).toEqual(["hop C-A removed"]);
});
