/** What a change does to the demands of a network, in the words of its text. */
import { afterAll, expect, test } from "vitest";
import { diffMarkdown } from "../../server/cli/print/diff-markdown.js";
import type { ChangeSet } from "../../shared/compare/change-set.js";
import { loadChanges } from "../../shared/compare/demand-loads.js";
import { demandChanges, isOpenOnLoad } from "../../shared/compare/demands.js";
import type { DemandsResult } from "../../shared/demands/result.js";
import { network } from "../demands/networks.js";
import { files, hop } from "./network.js";
import { TestRepository } from "./repository.js";

const DEMANDS = `demand SCHOOL "School" {
  from KELD to TARN
  committed 200 Mbit/s
  latency 5 ms
  route via KELD-MOSS, PEAK
}

demand HALL {
  from FELL to handover
  committed 20 Mbit/s
}
`;

const repository = TestRepository.create();
afterAll(() => repository.remove());
repository.write({ ...files(), "demands.hop": DEMANDS });
const base = repository.commit("base");

/** What is told of demands and of traffic, a line a decision. */
function told({ shared }: ChangeSet): string[] {
  return shared.flatMap(({ entry, status, decisions }) =>
    decisions.length === 0
      ? [`${entry} ${status}`]
      : decisions.map(
          ({ was, is, from }) => `${entry}: ${was ?? "–"} -> ${is ?? "–"}${from ? ` (${from})` : ""}`,
        ),
  );
}

async function changed(edited: Readonly<Record<string, string>>): Promise<string[]> {
  repository.write(edited);
  try {
    return told(await repository.changes(base, undefined));
  } finally {
    repository.git("checkout", "-q", "--", ".");
    repository.git("clean", "-fdq");
  }
}

const edit = (from: string, to: string) => ({ "demands.hop": DEMANDS.replace(from, to) });

test.each([
  ["200 Mbit/s", "300 Mbit/s", ["demand SCHOOL: committed 200 Mbit/s -> committed 300 Mbit/s"]],
  ["to TARN", "to MOSS", ["demand SCHOOL: from KELD to TARN -> from KELD to MOSS"]],
  ["to handover", "to KELD", ["demand HALL: from FELL to handover -> from FELL to KELD"]],
  [
    "KELD-MOSS, PEAK",
    "PEAK, KELD-MOSS",
    ["demand SCHOOL: route via KELD-MOSS, PEAK -> route via PEAK, KELD-MOSS"],
  ],
  ["  latency 5 ms\n", "", ["demand SCHOOL: latency 5 ms -> –"]],
  // The same, written otherwise.
  ["200 Mbit/s", "0.2 Gbit/s", []],
  ["latency 5 ms", "latency 5000us", []],
  ["KELD-MOSS, PEAK", "KELD-MOSS,PEAK", []],
])("%j for %j", async (from, to, expected) => {
  expect(await changed(edit(from, to))).toEqual(expected);
});

test("one that comes, one that goes", async () => {
  const found = await changed(
    edit(DEMANDS.slice(DEMANDS.indexOf("demand HALL")), "demand MILL {\n  from PEAK to KELD\n}\n"),
  );
  expect(found.filter((line) => !line.includes("->")).sort()).toEqual([
    "demand HALL removed",
    "demand MILL added",
  ]);
});

test("one that comes and asks for more than there is counts as a demand that got worse; one that fits does not", async () => {
  const added = async (committed: string) => {
    repository.write({ "more.hop": `demand MILL {\n  from FELL to KELD\n  committed ${committed}\n}\n` });
    const compared = await repository.compare(base, undefined);
    const page = [...(await diffMarkdown.print(compared))].join("");
    compared.dispose();
    const changes = await repository.changes(base, undefined);
    repository.git("clean", "-fdq");
    return { changes, page };
  };
  const fits = (await added("1 Mbit/s")).changes;
  expect([fits.counts.demandsWorse, fits.demands]).toEqual([0, []]);
  const greedy = await added("900 Mbit/s");
  expect(greedy.changes.counts.demandsWorse).toBe(1);
  expect(greedy.changes.demands).toMatchObject([{ demand: "MILL", worse: true, because: ["demand MILL"] }]);
  expect(greedy.page).toMatch(/1 demand worse/);
});

test("terms of the network, and defaults where a demand states nothing", async () => {
  expect(await changed({ "more.hop": "traffic {\n  switching 50 ms\n}\n" })).toContain("traffic added");
  const found = await changed({ "more.hop": "defaults demand {\n  latency 9 ms\n}\n" });
  expect(found.join("\n")).toContain("latency 9 ms");
  expect(found.join("\n")).not.toContain("demand SCHOOL: latency");
});

test("a hop with less margin harms the demand over it: told with the cause, and worse", async () => {
  const asked = DEMANDS.replace("latency 5 ms", "availability 99.99 %").replace(
    "  route via KELD-MOSS, PEAK\n",
    "",
  );
  repository.write({ "demands.hop": asked });
  const before = repository.commit("asked");
  const north = repository.read("hops/north.hop");
  repository.write({
    "hops/north.hop": north.replace("transmits high", "transmits high\n    extra-loss 12 dB"),
  });
  const changes = await repository.changes(before, undefined);
  const [school, ...others] = changes.demands;
  expect(others).toEqual([]);
  expect(school).toMatchObject({ demand: "SCHOOL", worse: true, because: ["hop KELD-TARN"] });
  expect(school!.figures).toMatchObject([{ kind: "availability", verdict: "worse" }]);
  expect(school!.figures[0]!.by).toBeLessThan(0);
  expect(school!.figures[0]!.difference).toMatch(/out a year$/);
  const told = changes.shared.find(({ entry }) => entry === "demand SCHOOL")!;
  expect(told.decisions).toEqual([]);
  expect(told.findings.map(({ status, rule }) => `${status} ${rule}`)).toEqual(["new demand-availability"]);
  expect(changes.newFindings).toBe(true);
  expect(changes.counts.demandsWorse).toBe(1);
  const compared = await repository.compare(before, undefined);
  const page = [...(await diffMarkdown.print(compared))].join("");
  compared.dispose();
  expect(page).toContain("What is carried");
  expect(page).toMatch(/demand SCHOOL, because of hop KELD-TARN: SCHOOL is available/);
  expect(page).toMatch(/1 demand worse/);
  repository.git("checkout", "-q", "--", ".");
});

test("a hop that goes takes the route with it: what was judged on it before is not mended", async () => {
  // It misses this with the hop already.
  repository.edit("demands.hop", "availability 99.99 %", "availability 99.9999 %");
  const before = repository.commit("more asked");
  repository.write({
    "hops/north.hop": repository.read("hops/north.hop").replace(/hop KELD-TARN [\s\S]*?\n}\n/, ""),
  });
  const changes = await repository.changes(before, undefined);
  const school = changes.demands.find(({ demand }) => demand === "SCHOOL")!;
  expect(school.because).toContain("hop KELD-TARN removed");
  expect(school.figures.find(({ kind }) => kind === "route")).toMatchObject({
    verdict: "worse",
    was: "KELD-TARN",
  });
  const { findings } = changes.shared.find(({ entry }) => entry === "demand SCHOOL")!;
  expect(findings).toMatchObject([
    { rule: "demand-route", status: "new", severity: "error" },
    { rule: "demand-availability", status: "no longer judged" },
  ]);
  repository.git("checkout", "-q", "--", ".");
});

test("a change far from every demand, and one of a name alone, tell nothing of demands", async () => {
  const before = repository.commit("as it is");
  repository.edit("demands.hop", '"School"', '"The school"');
  const changes = await repository.changes(before, undefined);
  expect(changes.demands).toEqual([]);
  expect(changes.worse).toBe(false);
  repository.git("checkout", "-q", "--", ".");
});

test("another name of a hop is no new finding on what a failure brings to it", async () => {
  repository.write({
    "demands.hop": DEMANDS.replace("  route via KELD-MOSS, PEAK\n", ""),
    // Round over PEAK, where less goes through than is committed.
    "hops/round.hop": `${hop("KELD-PEAK", "KELD", "PEAK", 10, { more: "mode 55 MHz QPSK", heightM: 20 })}\n${hop("PEAK-TARN", "PEAK", "TARN", 12, { heightM: 30 })}`,
  });
  const before = repository.commit("round");
  repository.edit("hops/round.hop", "hop KELD-PEAK", "hop WEST");
  const changes = await repository.changes(before, undefined);
  // It is there on both sides, or this would show nothing.
  expect(
    changes.hops.flatMap(({ findings }) => findings.map(({ rule, status }) => `${status} ${rule}`)),
  ).toContain("still there coupling-loss-missing");
  expect(changes.hops.map(({ hop, renamedFrom }) => [hop, renamedFrom])).toEqual([["WEST", "KELD-PEAK"]]);
  expect([changes.shared, changes.counts.newFindings, changes.counts.fixedFindings]).toEqual([[], 0, 0]);
  repository.git("checkout", "-q", "--", ".");
});

test.each([
  ["comes", `${DEMANDS}\ndemand MILL {\n  from FELL to TARN\n}\n`, "demand MILL", "added"],
  ["ends elsewhere", DEMANDS.replace("to handover", "to TARN"), "demand HALL", "changed"],
])(
  "a hop that carries something now does so because of the demand that %s",
  async (_, text, entry, status) => {
    repository.write({ "hops/round.hop": "", "demands.hop": DEMANDS });
    const before = repository.commit("nothing over FELL-TARN");
    repository.write({ "demands.hop": text });
    const whole = repository.commit("carried");
    for (const [was, is, came] of [
      [before, whole, "fixed"],
      [whole, before, "new"],
    ] as const) {
      const { hops } = await repository.changes(was, is);
      const carried = hops.find(({ hop }) => hop === "FELL-TARN")!;
      expect(carried.findings).toMatchObject([{ status: came, rule: "hop-carries-nothing" }]);
      const turned = status === "added" && came === "new" ? "removed" : status;
      expect(carried.causes).toMatchObject([{ kind: "network", text: entry, status: turned }]);
    }
    repository.git("reset", "-q", "--hard", before);
  },
);

const NO_RENAMES = { hops: new Map(), entries: new Map() };

/** Demand or hop, figure, was, is, difference. */
function figuresBetween(was: DemandsResult, is: DemandsResult): string[] {
  const nothing = { hops: [], shared: [] };
  const of = [
    ...demandChanges(was, is, NO_RENAMES, nothing).map(({ demand, figures }) => ({ of: demand, figures })),
    ...loadChanges(was, is, NO_RENAMES, nothing).map(({ hop, figures }) => ({ of: hop, figures })),
  ];
  return of.flatMap(({ of: whose, figures }) =>
    figures.map(({ label, was, is, difference = "" }) => [whose, label, was, is, difference].join(" | ")),
  );
}

test("which demand or objective holds on a hop is told of the demand that took it over or let go", () => {
  const A_TO_B = { from: "A", to: { site: "B" }, committedBps: 1e6 };
  const on = (availability: Readonly<Record<string, number>>) =>
    network(
      { "A-B": { objective: 99.9, modes: [{ bps: 100e6 }] } },
      Object.fromEntries(
        Object.entries(availability).map(([name, availabilityPercent]) => [
          name,
          { ...A_TO_B, availabilityPercent },
        ]),
      ),
    );
  // Of one hop a demand may lose there all that it may lose: 0.01 % is stricter than the objective's 0.1 %.
  expect(figuresBetween(on({ X: 99.99 }), on({ X: 99.5, Y: 99.8 }))).toMatchInlineSnapshot(`
    [
      "X | Holds on A-B | the share of X, 99.99 % | its own objective, 99.9 % | ",
    ]
  `);
  expect(figuresBetween(on({ X: 99.5 }), on({ X: 99.5, Y: 99.99 }))).toMatchInlineSnapshot(`
    [
      "Y | Holds on A-B | its own objective, 99.9 % | the share of Y, 99.99 % | ",
    ]
  `);
  // The demand that held is gone.
  expect(figuresBetween(on({ X: 99.99, Y: 99.5 }), on({ Y: 99.5 }))).toMatchInlineSnapshot(`
    [
      "Y | Holds on A-B | the share of X, 99.99 % | its own objective, 99.9 % | ",
    ]
  `);
  expect(figuresBetween(on({ X: 99.5 }), on({ X: 99.8 }))).toEqual([]);
});

test("a hop that a failure overloads still says by how much more or less", () => {
  // A-B fails, and all goes round by C, where 100 Mbit/s are carried.
  const ring = (committedBps: number) =>
    network(
      {
        "A-B": { modes: [{ bps: 900e6 }] },
        "A-C": { modes: [{ bps: 100e6 }] },
        "B-C": { modes: [{ bps: 500e6 }] },
      },
      { X: { from: "A", to: { site: "B" }, committedBps } },
    );
  expect(figuresBetween(ring(300e6), ring(200e6))).toMatchInlineSnapshot(`
    [
      "A-C | Committed in its worst failure | 300 Mbit/s of 100 Mbit/s | 200 Mbit/s of 100 Mbit/s | -100 Mbit/s",
    ]
  `);
  expect(figuresBetween(ring(200e6), ring(300e6))).toMatchInlineSnapshot(`
    [
      "A-C | Committed in its worst failure | 200 Mbit/s of 100 Mbit/s | 300 Mbit/s of 100 Mbit/s | +100 Mbit/s",
    ]
  `);
});

test("a site is a reason for a demand that wants a clock only by what it says of clocks", () => {
  const wanted = (bps: number) =>
    network(
      { "A-B": { modes: [{ bps: 100e6 }] }, "B-C": { modes: [{ bps: 100e6 }] } },
      { X: { from: "A", to: { site: bps > 1e6 ? "C" : "B" }, committedBps: bps, clock: "one-feed" } },
    );
  const because = (word: string) => {
    const decisions = [{ word, was: undefined, is: word }];
    const site = {
      entry: "site B",
      status: "changed",
      decisions,
      findings: [],
      usedBy: 0,
      affects: 0,
    } as const;
    return demandChanges(wanted(1e6), wanted(2e6), NO_RENAMES, { hops: [], shared: [site] }).map(
      (change) => change.because,
    );
  };
  expect([because("clock-source"), because("handover"), because("plant")]).toEqual(
    [["site B"], ["site B"], []].map((one) => [one]),
  );
});

test("growth within what a hop carries is judged though a failure overloads it", () => {
  const load = { hop: "A-B", demands: ["X"], committedBps: 1e6, peakBps: 1e6, carriedBps: 2e6 };
  const worst = {
    element: { kind: "hop", name: "A-C" } as const,
    committedBps: 3e6,
    demands: ["Y"],
    overloaded: true,
  };
  const open = (of: Parameters<typeof isOpenOnLoad>[1]) =>
    ["failure-overloads", "demand-growth", "failure-growth"].filter((rule) => isOpenOnLoad(rule, of));
  expect(open(load)).toEqual([]);
  expect(open({ ...load, worst })).toEqual(["failure-growth"]);
  expect(open({ ...load, committedBps: 3e6 })).toEqual([
    "failure-overloads",
    "demand-growth",
    "failure-growth",
  ]);
});
