/** Structures whose height reads like feet, and those that are just high. */
import { expect, test } from "vitest";
import type { Design, Hop, Site } from "../../shared/design/design.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { end, makeHop } from "../evaluate/builders.js";

/** A design of masts, with an antenna at each of some heights at the last. */
function told(mastsM: readonly number[], antennasM: readonly number[]): string[] {
  const sites = mastsM.map((heightM, i): Site => ({ name: `S${i}`, structure: { kind: "mast", heightM } }));
  const last = sites.at(-1)!;
  const hops = antennasM.map((antennaHeightM, i): Hop => {
    const ends = [
      end(last, "high", { antennaHeightM }),
      end(sites[0]!, "low", { antennaHeightM: 20 }),
    ] as const;
    return makeHop({ name: `H${i}`, ends });
  });
  const design: Design = {
    terrain: [],
    sites: new Map(sites.map((site) => [site.name, site])),
    hops: new Map(hops.map((hop) => [hop.name, hop])),
  };
  return judgeNetwork(design, new Map(), "2026-06-01")
    .filter(({ rule }) => rule === "structure-in-feet")
    .map(({ at, severity, message }) => `${severity} ${at}: ${message}`);
}

// 164 ft are 50 m.
test("a mast of 164 m among masts of up to 50 m, whose antennas all hang below 50 m", () => {
  expect(told([30, 42, 50, 164], [44])).toEqual([
    "warning site S3 / structure: the mast at S3 is 164.0 m high, the others at most 50.0 m, and its highest antenna hangs at 44.0 m; 164 ft would be 50 m",
  ]);
});

test("is not suspected when it is just high", () => {
  // An antenna hangs where a mast of 50 m has none.
  expect(told([30, 42, 50, 164], [44, 80])).toEqual([]);
  expect(told([30, 42, 50, 164], [52])).toEqual([]);
  // None hangs in the upper half of what it would be, or none at all.
  expect(told([30, 42, 50, 164], [24])).toEqual([]);
  expect(told([30, 42, 50, 164], [])).toEqual([]);
  // Not two and a half times as high as the others; higher than they in feet too; too few others.
  expect(told([30, 42, 66, 164], [44])).toEqual([]);
  expect(told([30, 42, 45, 164], [44])).toEqual([]);
  expect(told([42, 50, 164], [44])).toEqual([]);
  expect(told([30, 42, 50, 160, 164], [44])).toEqual([]);
});
