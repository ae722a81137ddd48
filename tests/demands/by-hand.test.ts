/** Networks small enough to be worked on paper; every figure that is expected is written out. */
import { describe, expect, it } from "vitest";
import { network } from "./networks.js";

const site = (name: string) => ({ site: name });

describe("a tail", () => {
  // One hop of 10 km; multipath of both directions 2 x 0.001 %, rain of the worse 0.002 %: 0.004 % lost.
  const hop = { "A-B": { km: 10, modes: [{ bps: 200e6, multipath: 0.001, rain: 0.002 }], equipment: 0.003 } };

  it("carries what it is asked, or not", () => {
    const { demands, hops } = network(hop, {
      SMALL: { from: "A", to: site("B"), committedBps: 150e6, availabilityPercent: 99.995 },
      LARGE: { from: "A", to: site("B"), committedBps: 60e6 },
    });
    expect(demands.get("SMALL")!.verdicts).toEqual({ availability: "met" });
    expect(demands.get("SMALL")!.outage!.propagationPercent).toBeCloseTo(0.004, 9);
    // Behind the first there are 50 of 200 Mbit/s left.
    expect(demands.get("LARGE")!.short).toEqual(["A-B"]);
    expect(hops.get("A-B")).toMatchObject({ committedBps: 210e6, demands: ["LARGE", "SMALL"] });
  });

  it("is judged with equipment where that is asked", () => {
    const asking = (percent: number) =>
      network(hop, {
        D: { from: "A", to: site("B"), availabilityWithEquipmentPercent: percent },
      }).demands.get("D")!.verdicts.availabilityWithEquipment;
    // 0.004 + 0.003 = 0.007 %.
    expect(asking(99.9929)).toBe("met");
    expect(asking(99.9931)).toBe("missed");
  });

  it("needs 10 km at the speed of light, two switches, a pair of radios and the frame", () => {
    const { demands } = network(hop, {
      D: { from: "A", to: site("B"), committedBps: 1e6, latencyS: 0.0003 },
    });
    const { latency } = demands.get("D")!.route!;
    // 10 000 / 299 792 458 = 33.356 us; 200 us; 2 x 20 us; 512 x 8 / 200e6 = 20.48 us.
    expect(latency.pathS * 1e6).toBeCloseTo(33.356, 3);
    expect(latency.totalS * 1e6).toBeCloseTo(33.356 + 200 + 40 + 20.48, 3);
    expect(demands.get("D")!.verdicts.latency).toBe("met");
  });

  it("sends frames in its lowest mode at worst, whatever it carries, and fills packets of TDM", () => {
    const modes = [
      { bps: 40e6, multipath: 0, rain: 0 },
      { bps: 400e6, multipath: 0, rain: 0.01 },
    ];
    const latencyOf = (committedBps: number, tdm = {}) =>
      network({ "A-B": { modes } }, { D: { from: "A", to: site("B"), committedBps, ...tdm } }).demands.get(
        "D",
      )!.route!.latency;
    // 512 x 8 / 40e6 = 102.4 us.
    for (const committedBps of [1e6, 300e6])
      expect(latencyOf(committedBps).framesS * 1e6).toBeCloseTo(102.4, 6);
    // 256 x 8 / 2.048e6 = 1 ms.
    expect(latencyOf(1e6, { e1: 1, tdmPacketBytes: 256 }).packetS).toBe(1e-3);
    expect(latencyOf(1e6, { e1: 1 }).packetS).toBe(0);
  });

  it.each([
    ["no mode with figures", { modes: [] }, ["capacity"], ["open", "open"]],
    ["no outage", { modes: [{ bps: 200e6 }] }, ["outage"], ["open", "met"]],
    ["no failures", { modes: [{ bps: 200e6, multipath: 0, rain: 0 }] }, ["equipment"], ["met", "met"]],
  ] as const)("of which too little is known is open, never met: %s", (_, hop, lacks, [available, late]) => {
    const { open, verdicts } = network(
      { "A-B": hop },
      {
        D: {
          from: "A",
          to: site("B"),
          committedBps: 1e6,
          availabilityPercent: 99,
          availabilityWithEquipmentPercent: 99,
          latencyS: 1,
        },
      },
    ).demands.get("D")!;
    expect(open).toEqual([{ hop: "A-B", lacks: [...lacks] }]);
    expect(verdicts).toEqual({ availability: available, availabilityWithEquipment: "open", latency: late });
  });

  it("with two modes has the lower for longer", () => {
    const modes = [
      { bps: 100e6, multipath: 0, rain: 0.001 },
      { bps: 200e6, multipath: 0, rain: 0.01 },
    ];
    const at = (committedBps: number) =>
      network(
        { "A-B": { modes } },
        { D: { from: "A", to: site("B"), committedBps, availabilityPercent: 99.995 } },
      ).demands.get("D")!;
    expect(at(100e6).verdicts.availability).toBe("met");
    expect(at(101e6).verdicts.availability).toBe("missed");
    expect(at(101e6).hops[0]).toMatchObject({ modulation: "MODE 2", bps: 200e6 });
  });
});

describe("a chain of five", () => {
  const hops = Object.fromEntries(
    ["A-B", "B-C", "C-D", "D-E", "E-F"].map((name) => [
      name,
      { km: 20, modes: [{ bps: 100e6, multipath: 0, rain: 0.002 }] },
    ]),
  );

  it("loses what its hops lose, if it rains on each by itself, and what one loses, if on all at once", () => {
    const {
      outage,
      hops: passed,
      verdicts,
    } = network(hops, {
      D: { from: "A", to: site("F"), committedBps: 50e6, availabilityPercent: 99.99 },
    }).demands.get("D")!;
    // 1 - (1 - 2e-5)^5 = 9.9996e-5.
    expect(outage!.rainIndependentPercent).toBeCloseTo(0.0099996, 8);
    expect(outage!.rainTogetherPercent).toBeCloseTo(0.002, 12);
    expect(verdicts.availability).toBe("met");
    // Of 0.01 % a fifth each.
    for (const { sharePercent } of passed) expect(sharePercent).toBeCloseTo(0.002, 12);
  });

  it("counts multipath of neighbours by P.530 section 2.3.7 (from memory)", () => {
    // Margins of 30 dB: C = 1. Each way 5e-6, both 1e-5; PT = 2e-5 - 1e-10.
    const two = { modes: [{ bps: 100e6, multipath: 0.0005, rain: 0, marginDb: 30 }] };
    const { outage } = network({ "A-B": two, "B-C": two }, { D: { from: "A", to: site("C") } }).demands.get(
      "D",
    )!;
    expect(outage!.multipathPercent / 100).toBeCloseTo(2e-5 - 1e-10, 15);
  });

  it("gives each hop the longer its larger share", () => {
    const { hops: passed } = network(
      { "A-B": { km: 30 }, "B-C": { km: 10 } },
      { D: { from: "A", to: site("C"), availabilityPercent: 99.96 } },
    ).demands.get("D")!;
    expect(passed.map(({ sharePercent }) => sharePercent!.toFixed(4))).toEqual(["0.0300", "0.0100"]);
  });
});

describe("a ring", () => {
  const ring = { "A-B": {}, "B-C": {}, "C-D": {}, "A-D": {} };
  const demand = { from: "B", to: site("A"), committedBps: 100e6 };

  it("is seen and named in turn", () => {
    const { rings, meshes } = network({ ...ring, "D-E": {} }, {});
    expect(rings).toEqual([{ sites: ["A", "B", "C", "D"], hops: ["A-B", "B-C", "C-D", "A-D"] }]);
    expect(meshes).toEqual([]);
  });

  it("with one break carries everything the other way round", () => {
    const { failures, hops, demands } = network(ring, { D: demand, E: { ...demand, from: "C" } });
    // B over one hop, C over B (two hops either way, the earlier name).
    expect(demands.get("E")!.route!.hops).toEqual(["B-C", "A-B"]);
    const broken = failures.find(({ element }) => element.name === "A-B")!;
    expect(broken).toMatchObject({ lost: [], moved: ["D", "E"], overloaded: [] });
    expect(hops.get("C-D")!.worst).toMatchObject({ element: { name: "A-B" }, committedBps: 200e6 });
    expect(demands.get("D")!.singlePoints).toEqual([]);
  });

  it("loses it all where nothing is rerouted", () => {
    const { failures, demands } = network(ring, { D: demand }, { terms: { rerouting: "none" } });
    expect(failures.find(({ element }) => element.name === "A-B")!.lost).toEqual(["D"]);
    expect(demands.get("D")!.singlePoints).toEqual([{ kind: "hop", name: "A-B" }]);
  });

  it("tells which failure overloads a hop", () => {
    const { failures, hops } = network(
      { ...ring, "C-D": { modes: [{ bps: 150e6, multipath: 0, rain: 0 }] } },
      { D: demand, E: { ...demand, from: "C" } },
    );
    expect(failures.find(({ element }) => element.name === "A-B")!.overloaded).toEqual([
      { hop: "C-D", committedBps: 200e6, carriedBps: 150e6 },
    ]);
    expect(hops.get("C-D")!.worst!.overloaded).toBe(true);
  });

  it("of two on one site each stands by itself, and the site is what both hang on", () => {
    const two = { ...ring, "A-X": {}, "X-Y": {}, "A-Y": {} };
    const { rings, demands } = network(two, { D: { from: "X", to: site("C"), committedBps: 1e6 } });
    expect(rings.map(({ sites }) => sites.join(""))).toEqual(["ABCD", "AXY"]);
    expect(demands.get("D")!.singlePoints).toEqual([{ kind: "site", name: "A" }]);
  });
});

describe("a hub with two ways out", () => {
  const hops = { "H-N": { km: 10 }, "H-S": { km: 30 }, "H-V": {} };
  const at = { N: { handover: true as const }, S: { handover: true as const } };

  it("ends at the nearer handover, and at the other when that fails", () => {
    const { demands, failures } = network(
      hops,
      { D: { from: "V", to: "handover", committedBps: 1e6 } },
      { at },
    );
    expect(demands.get("D")!.route!.sites).toEqual(["V", "H", "N"]);
    const of = (name: string) => failures.find(({ element }) => element.name === name)!;
    expect(of("N").moved).toEqual(["D"]);
    expect(of("H-N").moved).toEqual(["D"]);
    expect(of("H").lost).toEqual(["D"]);
  });

  it("has a second route to the other handover, apart but for the hub", () => {
    const both = (disjoint: "hop" | "site") =>
      network(hops, { D: { from: "H", to: "handover", secondRoute: { disjoint } } }, { at }).demands.get(
        "D",
      )!;
    expect(both("site").second!.sites).toEqual(["H", "S"]);
    const { demands } = network(
      hops,
      { D: { from: "V", to: "handover", secondRoute: { disjoint: "site" } } },
      { at },
    );
    expect(demands.get("D")!.secondProblem).toEqual({ code: "none-apart" });
  });

  it("has its clock from there", () => {
    const clock = (of: "one-feed" | "two-feeds", from: string, clockHops?: number) => {
      const { demands } = network(
        hops,
        { D: { from, to: "handover", clock: of } },
        { at, ...(clockHops !== undefined && { terms: { clockHops } }) },
      );
      const { clock: feed, verdicts } = demands.get("D")!;
      return [feed?.source, feed?.hops, verdicts.clock];
    };
    expect(clock("one-feed", "V")).toEqual(["N", 2, "met"]);
    expect(clock("one-feed", "V", 1)).toEqual(["N", 2, "missed"]);
    expect(clock("two-feeds", "V")).toEqual(["N", 2, "missed"]);
    expect(clock("two-feeds", "H")).toEqual(["N", 1, "met"]);
  });
});

describe("two routes", () => {
  const mode = (percent: number) => ({
    modes: [{ bps: 100e6, multipath: 0, rain: percent }],
    equipment: 0.01,
  });

  it("lose the product of both by themselves, and the smaller where it rains on both at once", () => {
    const { outage } = network(
      { "A-B": mode(0.1), "A-C": mode(0.2), "B-C": mode(0) },
      { D: { from: "A", to: site("B"), secondRoute: { disjoint: "hop" } } },
    ).demands.get("D")!;
    // 1e-3 x 2e-3; the smaller of 1e-3 and 2e-3.
    expect(outage!.rainIndependentPercent).toBeCloseTo(2e-4, 12);
    expect(outage!.rainTogetherPercent).toBeCloseTo(0.1, 12);
    // 1e-4 x (1 - (1 - 1e-4)^2).
    expect(outage!.equipmentPercent! / 100).toBeCloseTo(1e-4 * (1 - (1 - 1e-4) ** 2), 12);
  });
});

describe("the second route of a trap", () => {
  // The shortest way from A to F passes C and D and stands in the way of any second; the pair goes round it.
  const hops = {
    "A-C": {},
    "C-D": {},
    "D-F": {},
    "A-B": {},
    "B-D": { km: 50 },
    "C-E": { km: 50 },
    "E-F": {},
  };

  it("is found by giving up the shortest", () => {
    const { route, second } = network(hops, {
      D: { from: "A", to: site("F"), secondRoute: { disjoint: "site" } },
    }).demands.get("D")!;
    expect([route!.sites.join(""), second!.sites.join("")].sort()).toEqual(["ABDF", "ACEF"]);
  });
});

describe("routes as stated", () => {
  const hops = { "A-B": {}, "B-C": {}, "C-D": {}, "A-D": {}, "E-F": {} };
  const of = (via: readonly ({ site: string } | { hop: string })[], to = "D") =>
    network(hops, { D: { from: "A", to: site(to), via } }).demands.get("D")!;

  it("pass sites and hops in their order", () => {
    expect(of([{ site: "B" }]).route!.sites.join("")).toBe("ABCD");
    expect(of([{ hop: "B-C" }]).route!.sites.join("")).toBe("ABCD");
    expect(of([{ hop: "C-D" }], "B").route!.sites.join("")).toBe("ADCB");
  });

  it("say what stands against them", () => {
    expect(of([{ site: "F" }]).problem).toEqual({ code: "unreached", point: "F" });
    expect(of([], "F").problem).toEqual({ code: "no-route" });
    expect(of([], "NOWHERE").problem).toEqual({ code: "off-network", site: "NOWHERE" });
    expect(
      network({ "A-B": {}, "B-C": {} }, { D: { from: "A", to: site("B"), via: [site("C")] } }).demands.get(
        "D",
      )!.problem,
    ).toEqual({
      code: "passed-twice",
      site: "B",
    });
    expect(network(hops, { D: { from: "A", to: "handover" } }).demands.get("D")!.problem).toEqual({
      code: "no-handover",
    });
  });
});

describe("growth", () => {
  it("outgrows a hop in the year in which the sum does", () => {
    // 100 Mbit/s and 10 % a year against 150: 1.1^4 = 1.46, 1.1^5 = 1.61.
    const hop = { "A-B": { modes: [{ bps: 150e6, multipath: 0, rain: 0 }] } };
    const growing = (growthYears: number) =>
      network(hop, {
        D: { from: "A", to: site("B"), committedBps: 100e6, growthPercent: 10, growthYears },
      }).hops.get("A-B")!.outgrown;
    expect(growing(4)).toBeUndefined();
    expect(growing(8)).toMatchObject({ year: 5, carriedBps: 150e6 });
    expect(growing(8)!.committedBps).toBeCloseTo(161.051e6, 0);
  });
});

describe("what is committed with growth", () => {
  const on = (demands: Record<string, [committedBps: number, growthPercent: number, growthYears: number]>) =>
    network(
      { "A-B": { modes: [{ bps: 300e6, multipath: 0, rain: 0 }] } },
      Object.fromEntries(
        Object.entries(demands).map(([name, [committedBps, growthPercent, growthYears]]) => [
          name,
          { from: "A", to: site("B"), committedBps, growthPercent, growthYears },
        ]),
      ),
    ).hops.get("A-B")!.grown;

  it("is that of the year with the most of it, which is the last where all grow", () => {
    // 100 x 1.1^8 = 214.36.
    const grown = on({ D: [100e6, 10, 8] })!;
    expect([grown.year, grown.committedBps / 1e6]).toEqual([8, expect.closeTo(214.358881, 6)]);
    // 100 x 1.2^2 + 50 x 1.1^5: the one stays at its horizon until that of the other.
    const both = on({ C: [100e6, 20, 2], D: [50e6, 10, 5] })!;
    expect([both.year, both.committedBps / 1e6]).toEqual([5, expect.closeTo(144 + 80.5255, 6)]);
  });

  it("has its greatest year between where one grows and another shrinks for longer", () => {
    // Year 2: 144 + 200 x 0.9^2 = 306; year 1: 120 + 180 = 300 = today; year 3: 172.8 + 145.8 = 318.6; year 4: 172.8 + 131.2.
    const grown = on({ C: [100e6, 20, 3], D: [200e6, -10, 6] })!;
    expect([grown.year, grown.committedBps / 1e6]).toEqual([3, expect.closeTo(318.6, 6)]);
  });

  it("is not told where nothing grows, or what shrinks outweighs it", () => {
    expect(on({ D: [100e6, 0, 5] })).toBeUndefined();
    expect(on({ D: [100e6, 10, 0] })).toBeUndefined();
    expect(on({ D: [100e6, -10, 5] })).toBeUndefined();
    expect(on({ C: [100e6, 1, 5], D: [100e6, -5, 5] })).toBeUndefined();
  });
});

describe("a card", () => {
  it("takes its hops with it", () => {
    const card = { kind: "card" as const, name: "A / 1 / 2", hops: ["A-B", "A-D"] };
    const { failures } = network(
      { "A-B": {}, "B-C": {}, "C-D": {}, "A-D": {} },
      { D: { from: "A", to: site("C") } },
      { cards: [card] },
    );
    expect(failures.find(({ element }) => element.kind === "card")).toMatchObject({
      element: card,
      lost: ["D"],
    });
  });
});
