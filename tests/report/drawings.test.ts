import fc from "fast-check";
import { expect, test } from "vitest";
import type { Hop, Site } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { drawNetwork, NARROW_MAP, WIDE_MAP } from "../../shared/report/draw/network-map.js";
import { drawProfile, NARROW } from "../../shared/report/draw/profile.js";
import { drawnLine, profileLine } from "../../shared/report/draw/profile-points.js";
import { drawProfileText } from "../../shared/report/draw/profile-text.js";
import { drawRipple } from "../../shared/report/draw/ripple.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import { surveyProfile } from "../../shared/terrain/survey.js";
import {
  ANTENNA,
  end,
  groundOf,
  KELD,
  levelGround,
  makeHop,
  NO_GROUND,
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

test("a reflection is marked at its point, with its angle and the ray that takes that way", () => {
  const ground = levelGround(LENGTH_M);
  const water = makeHop({ surfaces: [{ kind: "water", fromM: 2000, toM: 7000 }] });
  const result = evaluateHop(water, ground);
  const [one] = result.reflections!;
  const { svg } = drawProfile(water, result, ground.profile!)!;
  expect(svg).toContain(
    `grazing ${one!.grazingMrad.toFixed(1)} mrad at ${(one!.pointM / 1000).toFixed(2)} km`,
  );
  expect(svg).toMatch(/class="surface"/);
  // Antenna, point, antenna: the point lies between and below both.
  const legs = /class="reflected" d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)"/.exec(svg)!;
  const [ax, ay, px, py, bx, by] = legs.slice(1).map(Number) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  expect(px).toBeCloseTo((ax + bx) / 2, 0);
  expect(py).toBeGreaterThan(Math.max(ay, by));
  const elsewhere = makeHop({ surfaces: [{ kind: "water", fromM: 0, toM: 500 }] });
  expect(drawProfile(elsewhere, evaluateHop(elsewhere, ground), ground.profile!)!.svg).not.toContain(
    'class="reflected"',
  );
});

test("the ripple over the antenna's height repeats with the lobe and shows the diversity antenna", () => {
  const ground = levelGround(LENGTH_M);
  const hop = makeHop({
    surfaces: [{ kind: "water", fromM: 2000, toM: 7000 }],
    ends: [end(KELD, "high"), end(TARN, "low", { diversityAntenna: ANTENNA, diversityHeightM: 38 })],
  });
  const result = evaluateHop(hop, ground);
  const [one] = result.reflections!;
  const { svg, caption } = drawRipple(hop, result, one!)!;
  expect(svg).toContain("antenna height at TARN, m");
  expect(svg).toContain("diversity antenna");
  expect(caption).toContain(`${one!.ends[1].bestSpacingM!.toFixed(1)} m`);
  const points = [.../class="ripple" d="M([^"]+)"/.exec(svg)![1]!.matchAll(/([\d.]+),([\d.]+)/g)].map(
    (match) => [Number(match[1]), Number(match[2])],
  ) as [number, number][];
  const crests = points.filter(
    ([, y], i) => i > 0 && i < points.length - 1 && y < points[i - 1]![1] && y <= points[i + 1]![1],
  );
  // The plot reaches from 1.5 lobes below the lower antenna to 1.5 above the upper one.
  const lobe = one!.ends[1].lobeSpacingM!;
  const perMetre = (468 - 46) / (2 + 3 * lobe);
  expect(crests.length).toBeGreaterThanOrEqual(3);
  expect((crests[1]![0] - crests[0]![0]) / perMetre).toBeCloseTo(lobe, 1);
  const alone = makeHop({ surfaces: hop.surfaces });
  expect(drawRipple(alone, result, one!)!.caption).toContain("A second antenna");
});

test("a narrow screen gets drawings of its own, in which no word leaves the sheet", () => {
  const ground = levelGround(LENGTH_M);
  const hop = makeHop({
    obstacles: [{ title: "a spruce wood with a long name", heightM: 30, distanceM: 300 }],
    objective: { ...TRUNK, clearance: [...TRUNK.clearance, { fresnelFraction: 0.6, kFactor: 0.7 }] },
  });
  const { svg } = drawProfile(hop, evaluateHop(hop, ground), ground.profile!, false, NARROW)!;
  expect(outside(svg)).toEqual([]);
  const html = printHtml(pageOf(hop, ground)).text;
  expect(html).toMatch(/class="broad scroll">.*class="slim">/s);
});

test("no name leaves a map, wide or narrow", () => {
  // The outermost sites have the longest names, in the broadest letters.
  const sites = [
    ["WOLLOMOWIN", 10, 20],
    ["MAMMUTWALD", 10.02, 20.3],
    ["B", 9.9, 20.1],
    ["GNOMWANDEM", 10.1, 20.2],
  ].map(([name, latitudeDeg, longitudeDeg]) => ({ name, position: { latitudeDeg, longitudeDeg } }) as Site);
  for (const sheet of [WIDE_MAP, NARROW_MAP]) {
    const { svg } = drawNetwork(sites, [{ name: "H", sites: ["WOLLOMOWIN", "B"], tone: "good" }], sheet)!;
    expect(svg.match(/class="halo"/g)).toHaveLength(4);
    expect(outside(svg)).toEqual([]);
  }
});

/** Advance widths of a broad font (DejaVu Sans) at 12 units, read from the font. */
const ADVANCE: Readonly<Record<string, number>> = {
  M: 10.36,
  W: 11.86,
  w: 9.81,
  m: 11.69,
  I: 3.54,
  " ": 3.81,
};
const advance = (sign: string) => ADVANCE[sign] ?? (/[A-Z]/.test(sign) ? 8.4 : 7.4);

/** Words of a drawing that begin or end beyond its sheet. */
function outside(svg: string): string[] {
  const width = Number(/viewBox="0 0 (\d+)/.exec(svg)![1]);
  const texts = svg.matchAll(/<text class="([^"]*)" x="([-\d.]+)" y="[-\d.]+" text-anchor="(\w+)">([^<]*)</g);
  return [...texts].flatMap(([, style, x, anchor, words]) => {
    const size = style!.includes("small") ? 11 / 12 : style!.includes("strong") ? 1.1 : 1;
    const long = size * [...words!].reduce((sum, sign) => sum + advance(sign), 0);
    const from = Number(x) - (anchor === "end" ? long : anchor === "middle" ? long / 2 : 0);
    return from < 0 || from + long > width ? [words!] : [];
  });
}

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
    surfaces: fc.array(
      fc.record({
        kind: fc.constantFrom("water" as const, "sea" as const, "flat" as const),
        fromM: fc.oneof(fc.constant(0), wild),
        toM: fc.oneof(fc.constant(9000), wild),
        heightM: maybe(wild),
      }),
      { maxLength: 2 },
    ),
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

test("a survey is drawn as it was made: few points, curved all the same, what stands on it above the ground", () => {
  const rows = [
    { distanceM: 0, heightM: 200 },
    { distanceM: 3000, heightM: 205, coverM: 15 },
    { distanceM: 3200, heightM: 205, coverM: 15 },
    { distanceM: LENGTH_M, heightM: 200 },
  ];
  const { profile, fit } = surveyProfile(rows, LENGTH_M, "s.csv", "field");
  const ground = { profile, groundM: [200, 200] as const, profileKind: "survey" as const, survey: fit };
  const hop = makeHop();
  const result = evaluateHop(hop, ground);
  const { svg } = drawProfile(hop, result, profile)!;
  for (const kind of ["land", "cover", "zone", "ray"]) expect(svg, kind).toContain(`class="${kind}"`);
  expect(svg).toContain("trees and buildings as surveyed");
  // The ground is a curve of many points, although four were surveyed; they themselves are among them.
  const line = drawnLine(hop, result, profile, 1.33)!;
  expect(line.points.length).toBeGreaterThan(200);
  for (const { distanceM, heightM } of rows)
    expect(line.points.find((point) => point.distanceM === distanceM)?.groundM).toBe(heightM);
  expect(profileLine(hop, result, profile, 1.33)!.points).toHaveLength(4);
  // No cover, no word of it.
  expect(
    drawProfile(hop, evaluateHop(hop, levelGround(LENGTH_M)), levelGround(LENGTH_M).profile!)!.svg,
  ).not.toContain("trees");
});

test("bridged ground is told apart from known ground, in the drawing and its legend", () => {
  const heights = Array.from({ length: 101 }, (_, i) => (i > 60 && i < 65 ? null : 200));
  const ground = groundOf(heights, LENGTH_M);
  const hop = makeHop({ bridgeGapsM: 900 });
  const { svg } = drawProfile(hop, evaluateHop(hop, ground), ground.profile!)!;
  expect(svg).toContain('class="bridge"');
  expect(svg).toContain("no heights, bridged");
  expect(svg).not.toContain('class="gap"');
  const open = makeHop();
  const drawn = drawProfile(open, evaluateHop(open, ground), ground.profile!)!.svg;
  expect(drawn).not.toContain('class="bridge"');
  expect(drawn).toContain('class="gap"');
});

test("the page says what of the ground is not known, and what stands in for it", () => {
  const heights = Array.from({ length: 101 }, (_, i) => (i > 60 && i < 65 ? null : 200));
  const words = (hop: Hop, ground: GroundInput) => printMarkdown(pageOf(hop, ground))[0]!.text;
  const open = words(makeHop(), groundOf(heights, LENGTH_M));
  expect(open).toMatch(/The ground is not known from 5\.71 km to 5\.99 km\. An obstruction may stand there/);
  expect(open).toContain("open: some ground is not known");
  const bridged = words(makeHop({ bridgeGapsM: 900 }), groundOf(heights, LENGTH_M));
  expect(bridged).toMatch(/not known from 5\.62 km to 6\.08 km; a straight line stands in for it/);
  expect(bridged).not.toContain("An obstruction may stand there");
  expect(words(makeHop(), NO_GROUND)).toContain("Nothing is known of the ground between the ends.");
  expect(words(makeHop(), levelGround(LENGTH_M))).not.toMatch(/not known|Nothing is known/);
});

test("drawn with characters, ground beside a gap is not known where no sample tells", () => {
  // Six samples on forty columns: the fourth is not known, nor what lies between it and its neighbours.
  const ground = groundOf([200, 210, 200, null, 205, 200], LENGTH_M);
  const hop = makeHop();
  const rows = drawProfileText(
    profileLine(hop, evaluateHop(hop, ground), ground.profile!, 4 / 3)!,
    evaluateHop(hop, ground),
    40,
    8,
  );
  const foot = rows[7]!.slice(10);
  expect(foot).toMatch(/^\S{16,17}\?{14,16}█+$/);
});
