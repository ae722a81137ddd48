import fc from "fast-check";
import { expect, test } from "vitest";
import type { Hop } from "../../shared/design/design.js";
import { type GroundInput, NO_GROUND } from "../../shared/evaluate/ground.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { drawNetwork } from "../../shared/report/draw/network-map.js";
import { drawProfile } from "../../shared/report/draw/profile.js";
import { profileLine } from "../../shared/report/draw/profile-points.js";
import { drawProfileText } from "../../shared/report/draw/profile-text.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import {
  end,
  groundOf,
  KELD,
  levelGround,
  makeHop,
  QAM128,
  QPSK,
  TARN,
  TRUNK,
} from "../evaluate/builders.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;

function pageOf(hop: Hop, ground: GroundInput) {
  const result = evaluateHop(hop, ground);
  return hopPage({ hop, result, profile: ground.profile, findings: [], name: "hops/A", colophon: "" });
}

const NO_FIGURE = /NaN|Infinity|undefined|\[object/;

test("the profile's clearance is that of the engine, computed apart", () => {
  // Heights as of a hillside, so that the nearest point is not the middle.
  const heights = Array.from({ length: 101 }, (_, i) => 200 + 25 * Math.sin(i / 9) - i / 10);
  const hop = makeHop({ climate: { kFactor: 1.33 } });
  const ground = groundOf(heights, LENGTH_M);
  const result = evaluateHop(hop, ground);
  const { points } = profileLine(hop, result, ground.profile!, 1.33)!;
  const shares = points
    .slice(1, -1)
    .map((point) => (point.rayM! - point.groundM! - point.bulgeM) / point.fresnelRadiusM!);
  const found = result.clearance.find(({ kFactor }) => kFactor === 1.33)!;
  expect(Math.min(...shares)).toBeCloseTo(found.fraction, 6);
});

test("the drawing shows masts, zone, what is asked, critical point, obstacle and gap", () => {
  const heights = Array.from({ length: 101 }, (_, i) => (i > 60 && i < 70 ? null : 200));
  const hop = makeHop({
    obstacles: [{ title: 'spruce <"&', heightM: 30, distanceM: 3000 }],
    objective: { ...TRUNK, clearance: [...TRUNK.clearance, { fresnelFraction: 0.6, kFactor: 0.7 }] },
  });
  const ground = groundOf(heights, LENGTH_M);
  const { svg, caption } = drawProfile(hop, evaluateHop(hop, ground), ground.profile!)!;
  for (const kind of [
    "mast",
    "antenna",
    "zone",
    "asked",
    "low-k",
    "ray",
    "land",
    "obstacle",
    "gap",
    "mark",
  ]) {
    expect(svg, kind).toContain(`class="${kind}`);
  }
  expect(svg).toContain("spruce &lt;&quot;&amp;");
  expect(caption).toContain("Earth's curve for k 1.33");
});

test("of many points no summit is lost", () => {
  const heights = Array.from({ length: 15_001 }, (_, i) => (i === 7_321 ? 260 : 200));
  const ground = groundOf(heights, LENGTH_M);
  const hop = makeHop();
  const { svg } = drawProfile(hop, evaluateHop(hop, ground), ground.profile!)!;
  const edge = /class="land-edge" d="([^"]+)"/.exec(svg)![1]!;
  const ys = edge
    .split(/[ML]/)
    .slice(1)
    .map((pair) => Number(pair.split(",")[1]));
  expect(ys.length).toBeLessThan(1500);
  // The summit stands clearly above all the rest.
  const [top, next] = ys.toSorted((a, b) => a - b);
  expect(next! - top!).toBeGreaterThan(50);
});

test("characters draw the ray over the ground, and say where it is blocked and where nothing is known", () => {
  const heights = Array.from({ length: 101 }, (_, i) =>
    i > 80 && i < 90 ? null : i > 40 && i < 60 ? 260 : 200,
  );
  const hop = makeHop();
  const ground = groundOf(heights, LENGTH_M);
  const result = evaluateHop(hop, ground);
  const rows = drawProfileText(profileLine(hop, result, ground.profile!, 4 / 3)!, result, 40, 8);
  expect(rows.map((row) => row.trimEnd())).toMatchInlineSnapshot(`
    [
      "         │                ████████",
      "         │                ████████",
      "   235 m │────────────────xxxxxxxx────────────────",
      "         │        ········████████········",
      "         │                ████████",
      "         │                ████████",
      "   200 m │ ▁▁▁▁▁▁▁▁▁▁▁▁▁▁▁████████▁▁▁▁▁▁▁▁▁   ▁▁▁",
      "         │█████████████████████████████████???████",
      "         └────────────────────────────────────────",
      "          KELD                                TARN",
      "                          9.36 km",
    ]
  `);
});

test("maps hold their network together across the date line", () => {
  const sites = [
    { name: "WEST", position: { latitudeDeg: 10, longitudeDeg: 179.9 } },
    { name: "EAST", position: { latitudeDeg: 10, longitudeDeg: -179.9 } },
  ];
  const { svg } = drawNetwork(sites, [{ name: "WEST-EAST", sites: ["WEST", "EAST"], tone: "good" }])!;
  const xs = [...svg.matchAll(/cx="([\d.]+)"/g)].map((match) => Number(match[1]));
  expect(xs).toEqual([80, 880]);
});

const wild = fc.oneof(
  fc.constantFrom(0, 1, -1, 1e-300, 1e300, -1e300, 5e-324),
  fc.double({ min: -1000, max: 10_000, noNaN: true }),
);
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined, freq: 4 });
const modes = fc.array(
  fc.record({
    modulation: fc.constant("QPSK"),
    bandwidthHz: wild,
    transmitPowerDbm: maybe(wild),
    thresholdDbm: maybe(wild),
  }),
  { maxLength: 3 },
);
const ends = (site: typeof KELD, half: "high" | "low") =>
  fc
    .record({
      antennaHeightM: maybe(wild),
      transmitFrequencyHz: maybe(fc.oneof(fc.double({ min: 1e9, max: 90e9, noNaN: true }), wild)),
      extraLossDb: maybe(wild),
      groundM: maybe(wild),
      latitudeDeg: fc.oneof(
        fc.constant(site.position!.latitudeDeg),
        fc.double({ min: -90, max: 90, noNaN: true }),
        wild,
      ),
    })
    .map(({ groundM, latitudeDeg, ...more }) => {
      const position = { latitudeDeg, longitudeDeg: site.position!.longitudeDeg };
      return end({ ...site, groundM, position }, half, more);
    });

const hops = fc
  .record({
    ends: fc.tuple(ends(KELD, "high"), ends(TARN, "low")),
    modes: fc.oneof(fc.constant([QPSK, QAM128]), modes),
    obstacles: fc.array(fc.record({ title: maybe(fc.string()), heightM: wild, distanceM: wild }), {
      maxLength: 8,
    }),
    kFactor: maybe(wild),
    clearance: fc.array(fc.record({ fresnelFraction: wild, kFactor: wild }), { maxLength: 3 }),
  })
  .map(({ kFactor, clearance, ...more }) =>
    makeHop({
      ...more,
      climate: { kFactor, rainRateMmPerH: 34, logK: -4.2, dN75: 12 },
      objective: { ...TRUNK, clearance },
    }),
  );

const heights = maybe(
  fc.array(fc.option(fc.double({ min: -500, max: 9000, noNaN: true }), { nil: null }), {
    minLength: 2,
    maxLength: 30,
  }),
);

test("no page holds a figure that is none, whatever stands in the design", () => {
  fc.assert(
    fc.property(hops, heights, (hop, profile) => {
      const lengthM = evaluateHop(hop, NO_GROUND).distanceM ?? 9000;
      const ground = profile === undefined ? NO_GROUND : groundOf(profile, lengthM);
      const page = pageOf(hop, ground);
      const texts = [printHtml(page), ...printMarkdown(page)].map(({ text }) => text);
      for (const text of texts) expect(NO_FIGURE.exec(text)?.[0]).toBeUndefined();
      const line = ground.profile && profileLine(hop, evaluateHop(hop, ground), ground.profile, 4 / 3);
      if (line) expect(drawProfileText(line, evaluateHop(hop, ground)).join("")).not.toMatch(NO_FIGURE);
      const drawn = drawNetwork(
        hop.ends.map(({ site }) => site),
        [{ name: hop.name, sites: ["KELD", "TARN"] }],
      );
      expect(drawn?.svg ?? "").not.toMatch(NO_FIGURE);
    }),
    { numRuns: 300 },
  );
});
