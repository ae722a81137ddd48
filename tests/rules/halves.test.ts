/** What the rule of one half a site says of a whole network. */
import { expect, test } from "vitest";
import type { Hop } from "../../shared/design/design.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { end, KELD, makeHop } from "../evaluate/builders.js";

/** @param first what the first site transmits; undefined: open */
function hop(from: string, to: string, first?: "high" | "low", more: Partial<Hop> = {}): Hop {
  const at = (name: string, half: "high" | "low") => {
    const one = end({ ...KELD, name }, half);
    return first === undefined ? { ...one, transmits: undefined, transmitFrequencyHz: undefined } : one;
  };
  const other = first === "high" ? "low" : "high";
  return makeHop({ name: `${from}-${to}`, ends: [at(from, first ?? "high"), at(to, other)], ...more });
}

function told(...hops: readonly Hop[]) {
  const design = { terrain: [], sites: new Map(), hops: new Map(hops.map((one) => [one.name, one])) };
  return judgeNetwork(design, new Map(), "2026-06-01").filter(({ rule }) => rule === "site-high-and-low");
}

test("each finding names the fewest hops to exchange, wherever they are", () => {
  const found = told(
    hop("A", "B", "high"),
    hop("B", "C", "high"),
    hop("C", "D", "high"),
    hop("D", "E", "low"),
  );
  expect(found.map(({ at }) => at)).toEqual(["hop A-B / B / transmits", "hop B-C / C / transmits"]);
  for (const { help } of found)
    expect(help).toBe(
      "Exchange high and low of B-C: the fewest hops that settle all that hangs together in R18.",
    );
});

test("a ring of an odd number of hops is named with its hops and where it opens", () => {
  const [found] = told(
    hop("A", "B", "high"),
    hop("B", "C", "low"),
    hop("C", "A", "high"),
    hop("A", "D", "high"),
  );
  expect(found?.help).toMatch(
    /^B-C, C-A and A-B are a ring of 3 hops in R18, an odd number, which no halves settle: put any of them in another band\.( With|$)/,
  );
  const both = told(
    hop("A", "B", "high"),
    hop("B", "C", "low"),
    hop("C", "A", "high"),
    hop("B", "D", "low"),
    hop("D", "A", "high"),
  );
  // A-B is of both rings.
  expect(both[0]?.help).toContain("put A-B in another band");
});

test("a ring that is still open is a warning, on a hop whose halves are not stated", () => {
  const open = [hop("A", "B", "high"), hop("B", "C"), hop("C", "A")];
  expect(told(...open)).toMatchObject([
    {
      severity: "warning",
      at: "hop B-C",
      message:
        "B-C is in a ring of 3 hops in R18, an odd number: whatever their halves, one of its sites transmits both",
    },
  ]);
  expect(told(...open.slice(1))).toEqual([]);
  const accepts = [{ rule: "site-high-and-low", reason: "filters are fitted" }];
  expect(told(open[0]!, open[1]!, { ...open[2]!, accepts })).toEqual([]);
});

test("what is built is exchanged last", () => {
  const state = { word: "built" } as const;
  const [found] = told(hop("A", "B", "high", { state }), hop("B", "C", "high"), hop("B", "D", "high"));
  expect(found?.help).toMatch(/^Exchange high and low of B-C and B-D:/);
  const [against] = told(hop("A", "B", "high", { state }), hop("B", "C", "high", { state }));
  expect(against?.help).toMatch(/^Exchange high and low of (A-B, of which A-B|B-C, of which B-C) is built:/);
});

test("a channel whose number is open belongs to its plan", () => {
  const channel = { plan: "F.595", bandwidthHz: 55e6, number: 3, standing: "memory" } as const;
  const openChannel = { plan: "F.595", bandwidthHz: 55e6, number: 1, count: 17, lowestHz: 17.7e9 };
  expect(told(hop("A", "B", "high", { channel }), hop("B", "C", "high", { openChannel }))).toHaveLength(1);
});

test("of many hops in the other half three are named, and the rest counted", () => {
  const messages = (others: number) =>
    told(
      hop("HUB", "X", "low"),
      ...Array.from({ length: others }, (_, i) => hop("HUB", `N${i}`, "high")),
    ).map(({ at, message, related }) => [at, message, related?.length]);
  const at = "hop HUB-X / HUB / transmits";
  expect(messages(3)).toEqual([[at, "HUB transmits low here and high in HUB-N0, HUB-N1, HUB-N2 (R18)", 3]]);
  expect(messages(5)).toEqual([
    [at, "HUB transmits low here and high in HUB-N0, HUB-N1, HUB-N2 and 2 more (R18)", 3],
  ]);
});
