/** The diagram of a network: whatever the network, nothing off the sheet, no box on another, the same each time. */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Hop, Site } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { WAYS } from "../../shared/report/draw/system/topology/lay-out.js";
import { diagramOf, drawTopology } from "../../shared/report/draw/system/topology/topology.js";
import { levelGround, makeHop } from "../evaluate/builders.js";
import { LONG, MARKUP } from "./system/hostile.js";
import { faultsOf } from "./system/sheet.js";

const BASE = makeHop();
const RESULT = evaluateHop(BASE, levelGround(9000));

function network(pairs: readonly (readonly [number, number])[], name: (index: number) => string) {
  const sites = Array.from({ length: 9 }, (_, i): Site => ({ ...BASE.ends[0].site, name: name(i) }));
  const hops = pairs.map(([a, b], index) => {
    const ends = [sites[a]!, sites[b]!].map((site, end) => ({ ...BASE.ends[end as 0 | 1], site }));
    const hop: Hop = { ...BASE, name: `H${index}`, ends: [ends[0]!, ends[1]!] };
    return { hop, result: { ...RESULT, hop: hop.name, ends: [sites[a]!.name, sites[b]!.name] as const } };
  });
  return { sites, hops };
}

const pairs = fc.array(fc.tuple(fc.nat(8), fc.nat(8)), { minLength: 1, maxLength: 12 });

test("whatever is joined to whatever, boxes keep apart and stay on the sheet, the same each time", () => {
  fc.assert(
    fc.property(
      pairs,
      fc.constantFrom(...WAYS),
      fc.constantFrom(LONG, MARKUP, "KELD"),
      (joined, way, word) => {
        const { sites, hops } = network(
          joined.filter(([a, b]) => a !== b),
          (i) => `${word}${i}`,
        );
        const used = new Set(hops.flatMap(({ result }) => result.ends));
        const shown = sites.filter(({ name }) => used.has(name));
        if (shown.length === 0) return;
        const { placed } = diagramOf(shown, hops, way);
        // Labels of hops lie on wires, where several join the same two on each other's ends too.
        const faults = faultsOf({ ...placed, items: placed.items.filter(({ kind }) => kind === "box") });
        expect(faults).toEqual([]);
        expect(diagramOf(shown, hops, way).placed).toEqual(placed);
        expect(JSON.stringify(placed)).not.toMatch(/null|NaN/);
      },
    ),
    { numRuns: 150 },
  );
});

test("a ring with a tail is drawn without a line behind a site that it does not join", () => {
  const { sites, hops } = network(
    [
      [0, 1],
      [1, 2],
      [2, 3],
      [3, 0],
      [2, 4],
    ],
    (i) => `S${i}`,
  );
  const best = Math.min(...WAYS.map((way) => diagramOf(sites.slice(0, 5), hops, way).hidden));
  expect(best).toBe(0);
  const drawn = drawTopology(sites, hops)!;
  expect(drawn.alt).toBe("Diagram of 5 sites and 5 hops with their bands, capacities and states");
  expect(drawn.svg.match(/class="box part"/g)).toHaveLength(5);
});

test("a network without a hop between two sites has none, nor has one with too many sites", () => {
  expect(drawTopology([], [])).toBeUndefined();
  const many = Array.from({ length: 160 }, (_, i): Site => ({ ...BASE.ends[0].site, name: `S${i}` }));
  const hops = many.slice(1).map((site, i) => {
    const ends = [many[i]!.name, site.name] as const;
    return { hop: { ...BASE, name: `H${i}` }, result: { ...RESULT, ends } };
  });
  expect(drawTopology(many, hops)).toBeUndefined();
});
