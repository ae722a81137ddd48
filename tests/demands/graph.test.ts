/** Routes and what separates a network, against looking at all there is. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { across, type Graph, graphOf } from "../../shared/demands/graph.js";
import { ringOf, separationOf } from "../../shared/demands/separation.js";
import { Shortest, type Way } from "../../shared/demands/shortest.js";
import { twoWays } from "../../shared/demands/two-ways.js";

const HOP_M = 100_000_000;

/** Up to seven sites and eleven hops, some side by side. */
const graphs = fc
  .array(fc.tuple(fc.nat(6), fc.nat(6), fc.integer({ min: 1, max: 50_000 })), { minLength: 1, maxLength: 11 })
  .map((links) =>
    graphOf(
      links.flatMap(([a, b, lengthM], k) =>
        a === b ? [] : [{ name: `H${k}`, sites: [`S${a}`, `S${b}`] as const, lengthM }],
      ),
    ),
  )
  .filter(({ hops }) => hops.length > 0);

/** Every way without a site twice. */
function* allWays(graph: Graph, from: number, isGoal: (site: number) => boolean): Generator<Way> {
  const walk = function* (sites: number[], hops: number[]): Generator<Way> {
    const here = sites.at(-1)!;
    if (hops.length > 0 && isGoal(here)) yield { sites, hops };
    for (let k = graph.first[here]!; k < graph.first[here + 1]!; k++) {
      const to = across(graph, graph.at[k]!, here);
      if (!sites.includes(to)) yield* walk([...sites, to], [...hops, graph.at[k]!]);
    }
  };
  yield* walk([from], []);
}

const costOf = (graph: Graph, ways: readonly Way[]) =>
  ways.reduce((sum, { hops }) => sum + hops.reduce((all, hop) => all + HOP_M + graph.lengthM[hop]!, 0), 0);

/** Sites that reach each other without one hop or site. */
function parts(graph: Graph, without: { readonly hop?: number; readonly site?: number }): number {
  const seen = new Set<number>();
  let count = 0;
  for (let root = 0; root < graph.sites.length; root++) {
    if (seen.has(root) || root === without.site) continue;
    count++;
    const stack = [root];
    seen.add(root);
    while (stack.length > 0) {
      const site = stack.pop()!;
      for (let k = graph.first[site]!; k < graph.first[site + 1]!; k++) {
        const to = across(graph, graph.at[k]!, site);
        if (graph.at[k] === without.hop || to === without.site || seen.has(to)) continue;
        seen.add(to);
        stack.push(to);
      }
    }
  }
  return count;
}

describe("the shortest way", () => {
  it("is the least of all, to the nearest of several goals", () => {
    fc.assert(
      fc.property(
        graphs,
        fc.nat(6),
        fc.array(fc.nat(6), { minLength: 1, maxLength: 3 }),
        (graph, a, goals) => {
          const from = a % graph.sites.length;
          const isGoal = (site: number) =>
            site !== from && goals.some((goal) => goal % graph.sites.length === site);
          const found = new Shortest(graph).find(from, isGoal);
          const all = [...allWays(graph, from, isGoal)];
          if (all.length === 0) {
            expect(found).toBeUndefined();
            return;
          }
          expect(costOf(graph, [found!])).toBe(Math.min(...all.map((way) => costOf(graph, [way]))));
          expect(found!.hops.map((hop, k) => across(graph, hop, found!.sites[k]!))).toEqual(
            found!.sites.slice(1),
          );
        },
      ),
    );
  });

  it("does not remember an earlier search", () => {
    fc.assert(
      fc.property(
        graphs,
        fc.array(fc.tuple(fc.nat(6), fc.nat(6)), { minLength: 2, maxLength: 6 }),
        (graph, asked) => {
          const one = new Shortest(graph);
          for (const [a, b] of asked) {
            const [from, to] = [a % graph.sites.length, b % graph.sites.length];
            const find = (search: Shortest) => search.find(from, (site) => site === to);
            expect(find(one)).toEqual(find(new Shortest(graph)));
          }
        },
      ),
    );
  });
});

describe("what separates a network", () => {
  it("are the hops and sites without which it has more parts", () => {
    fc.assert(
      fc.property(graphs, (graph) => {
        const { bridge, cutSite } = separationOf(graph);
        const whole = parts(graph, {});
        for (let hop = 0; hop < graph.hops.length; hop++)
          expect(bridge[hop], graph.hops[hop]).toBe(parts(graph, { hop }) > whole ? 1 : 0);
        for (let site = 0; site < graph.sites.length; site++)
          expect(cutSite[site], graph.sites[site]).toBe(parts(graph, { site }) > whole ? 1 : 0);
      }),
    );
  });

  it("leaves blocks that hold every other hop once, of which those with as many sites as hops are rings", () => {
    fc.assert(
      fc.property(graphs, (graph) => {
        const { bridge, blocks } = separationOf(graph);
        const inBlocks = blocks.flatMap(({ hops }) => hops).sort((a, b) => a - b);
        expect(inBlocks).toEqual([...bridge.keys()].filter((hop) => bridge[hop] === 0));
        for (const block of blocks) {
          const ring = ringOf(graph, block);
          expect(ring === undefined).toBe(block.hops.length !== block.sites.length);
          if (ring === undefined) continue;
          expect([...ring.sites].sort((a, b) => a - b)).toEqual(block.sites);
          expect([...ring.hops].sort((a, b) => a - b)).toEqual(block.hops);
          for (const [k, hop] of ring.hops.entries())
            expect(across(graph, hop, ring.sites[k]!)).toBe(ring.sites[(k + 1) % ring.sites.length]);
        }
      }),
    );
  });

  it("is found in a chain of a hundred thousand hops", () => {
    const name = (k: number) => `S${String(k).padStart(6, "0")}`;
    const graph = graphOf(
      Array.from({ length: 100_000 }, (_, k) => ({ name: `H${k}`, sites: [name(k), name(k + 1)] as const })),
    );
    const { bridge, cutSite } = separationOf(graph);
    expect(bridge.every((one) => one === 1)).toBe(true);
    expect(cutSite.reduce((sum, one) => sum + one, 0)).toBe(99_999);
  });
});

describe("two ways apart", () => {
  for (const disjoint of ["hop", "site"] as const)
    for (const sharedGoal of [true, false])
      it(`are the least of all pairs: ${disjoint}s, ${sharedGoal ? "to one goal" : "to a goal each"}`, () => {
        fc.assert(
          fc.property(
            graphs,
            fc.nat(6),
            fc.array(fc.nat(6), { minLength: 1, maxLength: 3 }),
            (graph, a, ends) => {
              const from = a % graph.sites.length;
              const goals = new Set(
                ends.map((end) => end % graph.sites.length).filter((end) => end !== from),
              );
              // Where both may end at one, there is one.
              if (sharedGoal && goals.size > 1) return;
              const isGoal = (site: number) => goals.has(site);
              const first = new Shortest(graph).find(from, isGoal);
              if (first === undefined) return;
              const all = [...allWays(graph, from, isGoal)];
              const pairs = all.flatMap((one) =>
                all.flatMap((other) =>
                  areApart(one, other, disjoint, sharedGoal) ? [[one, other] as const] : [],
                ),
              );
              const found = twoWays(graph, first, isGoal, disjoint, sharedGoal);
              if (pairs.length === 0) {
                expect(found).toBeUndefined();
                return;
              }
              expect(found).toBeDefined();
              expect(areApart(found![0], found![1], disjoint, sharedGoal)).toBe(true);
              expect(costOf(graph, found!)).toBe(Math.min(...pairs.map((pair) => costOf(graph, pair))));
            },
          ),
          { numRuns: 300 },
        );
      });
});

function areApart(one: Way, other: Way, disjoint: "hop" | "site", sharedGoal: boolean): boolean {
  if (one.hops.some((hop) => other.hops.includes(hop))) return false;
  const [a, b] = [one.sites.at(-1)!, other.sites.at(-1)!];
  if (!sharedGoal && a === b) return false;
  if (disjoint === "hop") return true;
  const inner = ({ sites }: Way) => sites.slice(1, sharedGoal ? -1 : undefined);
  return !inner(one).some((site) => inner(other).includes(site));
}
