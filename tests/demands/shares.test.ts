/** What demands ask of a hop beside its own objective, and growth in failures; every figure worked by hand. */
import { describe, expect, it } from "vitest";
import { demandChanges } from "../../shared/compare/demands.js";
import { demandCapacity } from "../../shared/rules/demands/demand-capacity.js";
import { objectiveShare } from "../../shared/rules/demands/objective-share.js";
import { network } from "./networks.js";

const site = (name: string) => ({ site: name });
const losing = (rain: number) => [{ bps: 100e6, multipath: 0, rain }];

describe("two hops of 10 and 30 km for one demand of 99.96 %", () => {
  // 0.04 % may be lost: 0.01 % on the first, 0.03 % on the second, by length.
  const chain = (first: number, second: number, objective?: number) =>
    network(
      {
        "A-B": { km: 10, modes: losing(first), ...(objective !== undefined && { objective }) },
        "B-C": { km: 30, modes: losing(second) },
      },
      { D: { from: "A", to: site("C"), committedBps: 1e6, availabilityPercent: 99.96 } },
    );
  const shareOf = (...of: Parameters<typeof chain>) => chain(...of).hops.get("A-B")!.share!;

  it("leaves each its part by length, beside its own objective", () => {
    expect(shareOf(0.005, 0.02)).toMatchObject({ demand: "D", stricter: "demand" });
    expect(shareOf(0.005, 0.02).leftPercent).toBeCloseTo(0.01, 9);
    expect(chain(0, 0).hops.get("B-C")!.share!.leftPercent).toBeCloseTo(0.03, 9);
    expect(shareOf(0.005, 0.02, 99.995)).toMatchObject({ stricter: "objective" });
    expect(shareOf(0.005, 0.02, 99.98)).toMatchObject({ stricter: "demand" });
    expect(shareOf(0.005, 0.02, 99.98).ownPercent).toBeCloseTo(0.02, 9);
  });

  it("tells what is exceeded, and whether other hops make up for it", () => {
    expect(shareOf(0.01, 0.03).exceeded).toEqual([]);
    // 0.015 of 0.01 %, and 0.02 of 0.03 %: together 0.035 of 0.04 %.
    expect(shareOf(0.015, 0.02).exceeded).toMatchObject([{ demand: "D", othersMakeUp: true }]);
    // 0.015 and 0.03: 0.045 of 0.04 %.
    expect(shareOf(0.015, 0.03).exceeded).toMatchObject([{ demand: "D", othersMakeUp: false }]);
    expect(shareOf(0.015, 0.03).exceeded[0]!.outagePercent).toBeCloseTo(0.015, 9);
  });

  it("counts a second route with the square root of what may be lost", () => {
    const { hops } = network(
      { "A-B": { modes: losing(0) }, "A-B/2": { km: 20, modes: losing(0) } },
      {
        D: {
          from: "A",
          to: site("B"),
          committedBps: 1e6,
          availabilityPercent: 99.99,
          secondRoute: { disjoint: "hop" },
        },
      },
    );
    // Of 1e-4 each may lose 1e-2, which is 1 %.
    for (const hop of ["A-B", "A-B/2"]) expect(hops.get(hop)!.share!.leftPercent).toBeCloseTo(1, 9);
  });

  it("is told by a comparison when one overtakes the other", () => {
    const nothing = { hops: [], shared: [] };
    const renames = { hops: new Map(), entries: new Map() } as unknown as Parameters<typeof demandChanges>[2];
    const told = (was: ReturnType<typeof chain> | undefined, is: ReturnType<typeof chain>) =>
      demandChanges(was, is, renames, nothing).flatMap(({ demand, figures }) =>
        figures.map(({ label, was: then, is: now }) => `${demand}: ${label}: ${then} -> ${now}`),
      );
    const [by, own] = ["the share of D, 99.99 %", "its own objective, 99.995 %"];
    expect(told(chain(0, 0, 99.98), chain(0, 0, 99.995))).toEqual([`D: Holds on A-B: ${by} -> ${own}`]);
    expect(told(chain(0, 0, 99.995), chain(0, 0, 99.98))).toEqual([`D: Holds on A-B: ${own} -> ${by}`]);
    expect(told(chain(0, 0, 99.98), chain(0, 0, 99.97))).toEqual([]);
    expect(told(undefined, chain(0, 0, 99.98))).toEqual([
      "D: Holds on A-B: its own objective, 99.98 % -> the share of D, 99.99 %",
    ]);
  });
});

describe("several demands over a hop with an objective", () => {
  // Each of 99.96 % over 40 km leaves the first 10 km 0.01 %; NEAR of 99.99 % over these alone leaves them as much.
  const told = (first: number, second: number) =>
    network(
      { "A-B": { km: 10, modes: losing(first), objective: 99.98 }, "B-C": { km: 30, modes: losing(second) } },
      {
        FAR: { from: "A", to: site("C"), committedBps: 1e6, availabilityPercent: 99.96 },
        FAR2: { from: "A", to: site("C"), committedBps: 1e6, availabilityPercent: 99.961 },
        NEAR: { from: "A", to: site("B"), committedBps: 1e6, availabilityPercent: 99.992 },
      },
    );
  const findings = (result: ReturnType<typeof told>) => {
    const found: string[] = [];
    const report = ({ message }: { readonly message: string }) => found.push(message);
    const { check } = objectiveShare as unknown as { check(on: unknown): void };
    check({ demands: result, report });
    return found;
  };

  it("those that others make up for are told, though the one that exceeds it most is missed", () => {
    const result = told(0.015, 0.02);
    const { exceeded } = result.hops.get("A-B")!.share!;
    expect(exceeded.map(({ demand, othersMakeUp }) => [demand, othersMakeUp])).toEqual([
      ["NEAR", false],
      ["FAR2", true],
      ["FAR", true],
    ]);
    expect(findings(result)).toEqual([
      "FAR2 leaves it 0.0098 % by length, stricter than the 0.02 % of its objective, and it takes 0.015 % with MODE 1, which carries that demand; the same holds for FAR; other hops make up for it",
    ]);
  });

  it("nothing is told where its own objective is missed too", () => {
    expect(findings(told(0.021, 0))).toEqual([]);
  });
});

it("a hop that carries too little on the second route alone is named as of that", () => {
  const narrow = { km: 20, modes: [{ bps: 50e6, multipath: 0, rain: 0 }] };
  const told = (first: object, second: object) => {
    const demands = network(
      { "A-B": first, "A-B/2": second },
      { D: { from: "A", to: site("B"), committedBps: 80e6, secondRoute: { disjoint: "hop" } } },
    );
    const found: string[] = [];
    const { check } = demandCapacity as unknown as { check(on: unknown): void };
    check({ demands, report: ({ message }: { readonly message: string }) => found.push(message) });
    return found;
  };
  const wide = { km: 10, modes: losing(0) };
  expect(told(wide, narrow)).toEqual([
    expect.stringMatching(/^D: A-B\/2, on its second route, carries 50 Mbit\/s/),
  ]);
  expect(told({ ...narrow, km: 10 }, { ...wide, km: 20 })).toEqual([
    expect.stringMatching(/^D: A-B carries 50 Mbit\/s/),
  ]);
});

describe("growth", () => {
  // A triangle; each hop carries 100 Mbit/s. Without A-B its 40 Mbit/s come to A-C with the 40 that are there.
  const triangle = (growthPercent: number, growthYears: number) =>
    network(Object.fromEntries(["A-B", "B-C", "A-C"].map((name) => [name, { modes: losing(0) }])), {
      ONE: { from: "A", to: site("B"), committedBps: 40e6, growthPercent, growthYears },
      TWO: { from: "A", to: site("C"), committedBps: 40e6, growthPercent, growthYears },
    }).hops.get("A-C")!;

  it("outgrows a hop in the first year of a failure, long before it does so as the network is", () => {
    // 80 x 1.1^2 = 96.8, 80 x 1.1^3 = 106.5; 40 x 1.1^9 = 94.3, 40 x 1.1^10 = 103.7 Mbit/s.
    expect(triangle(10, 8)).toMatchObject({ outgrownWithout: { year: 3, element: { name: "A-B" } } });
    expect(triangle(10, 8).outgrownWithout!.committedBps / 1e6).toBeCloseTo(106.48, 6);
    expect(triangle(10, 8).outgrown).toBeUndefined();
    expect(triangle(10, 12).outgrown).toMatchObject({ year: 10 });
    expect(triangle(10, 12).outgrownWithout).toMatchObject({ year: 3 });
  });

  it("is told of the demand that adds most, and not in failures where one overloads the hop today", () => {
    const both = (of: { readonly ONE: [number, number]; readonly TWO: [number, number] }) =>
      network(Object.fromEntries(["A-B", "B-C", "A-C"].map((name) => [name, { modes: losing(0) }])), {
        ONE: { from: "A", to: site("B"), committedBps: of.ONE[0], growthPercent: of.ONE[1], growthYears: 9 },
        TWO: { from: "A", to: site("C"), committedBps: of.TWO[0], growthPercent: of.TWO[1], growthYears: 9 },
      }).hops.get("A-C")!;
    expect(both({ ONE: [20e6, 20], TWO: [60e6, 1] }).outgrownWithout).toMatchObject({ mostBy: "ONE" });
    expect(both({ ONE: [20e6, 1], TWO: [60e6, 10] }).outgrownWithout).toMatchObject({ mostBy: "TWO" });
    const today = both({ ONE: [50e6, 10], TWO: [60e6, 10] });
    expect(today.worst).toMatchObject({ overloaded: true });
    expect(today.outgrownWithout).toBeUndefined();
    expect(today.outgrown).toMatchObject({ year: 6 });
  });

  it("is of Ethernet alone: E1 and STM-1 stay as they are, with what packets add", () => {
    // 200 of frames of 512 + 8 bytes are 203.125; 10 E1 in packets of 256 bytes 20.48 (1 + 34/256) = 23.2 Mbit/s.
    const of = (demand: Record<string, unknown>) =>
      network(
        { "A-B": { modes: [{ bps: 300e6, multipath: 0, rain: 0 }] } },
        {
          D: { from: "A", to: site("B"), growthPercent: 10, growthYears: 5, ...demand },
        },
      ).hops.get("A-B")!.outgrown;
    expect(of({ e1: 100, growthPercent: 20 })).toBeUndefined();
    expect(of({ stm1: 1, growthPercent: 50 })).toBeUndefined();
    const mixed = of({ committedBps: 200e6, frameOverheadBytes: 8, e1: 10, tdmPacketBytes: 256 });
    // Year 3: 203.125 x 1.331 + 23.2 = 293.6; year 4: 203.125 x 1.4641 + 23.2 = 320.6.
    expect(mixed).toMatchObject({ year: 4 });
    expect(mixed!.committedBps / 1e6).toBeCloseTo(203.125 * 1.4641 + 23.2, 6);
  });

  it("is not told where the horizon ends before, where it shrinks, and where it is too much today", () => {
    expect(triangle(10, 2).outgrownWithout).toBeUndefined();
    expect(triangle(-10, 10).outgrownWithout).toBeUndefined();
    expect(triangle(0, 10).outgrownWithout).toBeUndefined();
  });
});
