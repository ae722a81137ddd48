/** Drawings of a site: faces, rack, structure, view from above. Nothing overlaps or leaves its sheet, whatever the site. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sitePlans } from "../../../shared/equipment/site-plan.js";
import { siteWiring } from "../../../shared/equipment/wiring/site-wiring.js";
import type { HopResult } from "../../../shared/evaluate/account/result.js";
import { draw, type Placed } from "../../../shared/report/draw/system/placed.js";
import { layoutAbove, NARROW_ABOVE, WIDE_ABOVE } from "../../../shared/report/draw/system/site/draw-above.js";
import { layoutFace, NARROW_FACE, WIDE_FACE } from "../../../shared/report/draw/system/site/draw-face.js";
import { layoutMast, NARROW_MAST, WIDE_MAST } from "../../../shared/report/draw/system/site/draw-mast.js";
import { layoutRack, NARROW_RACK, WIDE_RACK } from "../../../shared/report/draw/system/site/draw-rack.js";
import { facesOf, runsOf } from "../../../shared/report/draw/system/site/face.js";
import { type Hung, hungAt } from "../../../shared/report/draw/system/site/hung.js";
import { equipped } from "../../../shared/rules/equipment/example-equipment.js";
import { CASES, textOf } from "../../equipment/arrangement-cases.js";
import { designOf } from "../../equipment/designs.js";
import { cards, chassis, repertoireOf } from "../../equipment/repertoire.js";
import { chainsIn } from "./chains.js";
import { LONG, MARKUP, renamed } from "./hostile.js";
import { faultsOf } from "./sheet.js";

const called = fc.constantFrom(undefined, LONG, MARKUP);

describe("any repertoire", () => {
  const extra = fc.record({
    rack: fc.option(fc.integer({ min: 1, max: 60 }), { nil: undefined }),
    row: fc.boolean(),
    balun: fc.boolean(),
    services: fc.integer({ min: 0, max: 20 }),
  });

  test("faces and rack have room for everything, each slot and port once", () => {
    fc.assert(
      fc.property(chassis, cards, extra, called, (box, loose, { rack, row, balun, services }, name) => {
        const { catalogue, lines } = repertoireOf(box, loose);
        const held = (as: string) => `chassis BOX as ${as}${row ? " row 1" : ""} {\n${lines.join("\n")}\n}`;
        const more = [
          ...(rack === undefined ? [] : [`rack ${rack} U`]),
          ...(balun ? ['balun "panel" 8'] : []),
          ...(services > 0 ? [`service "mill" ${services} GE`] : []),
        ];
        const text = equipped([held("A"), held("B"), ...more].join("\n"), {}, catalogue);
        const stated = designOf(text);
        const design =
          name === undefined ? stated : renamed(stated, { BOX: name, C0: name, mill: name, panel: name });
        const plan = sitePlans(design).get("MOSS")!;
        const wiring = siteWiring(plan);
        const faces = facesOf(plan, wiring);
        for (const face of faces) {
          const slots = face.slots.map(({ slot }) => slot);
          expect(new Set(slots).size).toBe(slots.length);
          expect(slots).toEqual(slots.toSorted((a, b) => a - b));
          for (const { card, ports } of face.slots) {
            const own = card?.ports.reduce((sum, { count }) => sum + count, 0) ?? 0;
            expect(runsOf(ports).reduce((sum, { count }) => sum + count, 0)).toBe(ports.length);
            expect(ports.length).toBe(own + (card?.kind === "power" ? 1 : 0));
          }
          for (const sheet of [WIDE_FACE, NARROW_FACE]) {
            const placed = layoutFace(face, sheet);
            expect(faultsOf(placed)).toEqual([]);
            expect(draw(placed)).not.toContain("<script");
          }
        }
        const inFaces = faces.flatMap(({ slots }) => slots).filter(({ card }) => card !== undefined).length;
        expect(inFaces).toBe(plan.placed.cards.length);
        for (const sheet of [WIDE_RACK, NARROW_RACK]) expect(faultsOf(layoutRack(plan, sheet))).toEqual([]);
      }),
    );
  });
});

const hung: fc.Arbitrary<Hung> = fc.record({
  name: fc.constantFrom("DISH", LONG, MARKUP),
  role: fc.constantFrom("antenna", "diversity antenna"),
  at: fc.constantFrom("hop A / B / antenna", MARKUP),
  hop: fc.oneof(
    fc.constantFrom(LONG, MARKUP),
    fc.integer({ min: 0, max: 99 }).map((k) => `HOP-${k}`),
  ),
  far: fc.constantFrom("TARN", LONG),
  heightM: fc.option(fc.oneof(fc.double({ min: 0, max: 300, noNaN: true }), fc.constantFrom(30, 30.5)), {
    nil: undefined,
  }),
  diameterM: fc.option(fc.double({ min: 0.1, max: 5, noNaN: true }), { nil: undefined }),
  azimuthDeg: fc.option(fc.double({ min: 0, max: 360, maxExcluded: true, noNaN: true }), { nil: undefined }),
  distanceM: fc.option(fc.double({ min: 1, max: 1e6, noNaN: true }), { nil: undefined }),
  units: fc.array(fc.constantFrom("R18", LONG), { maxLength: 4 }),
  couplers: fc.array(fc.constantFrom("H18", LONG), { maxLength: 2 }),
  also: fc.array(fc.constant("OTHER"), { maxLength: 1 }),
  down: fc.array(
    fc.record({ number: fc.constantFrom("K-1", LONG), kind: fc.constantFrom("cable", "guide") }),
    {
      maxLength: 4,
    },
  ),
});

/** Antennas of which another drawn later leaves no spot, beyond those whose number is told. */
function hiddenUntold({ items }: Placed): number {
  const circles = items.flatMap((item) => (item.kind === "circle" ? [item] : []));
  const hidden = circles.filter(({ x, y, radius }, index) => {
    const later = circles.slice(index + 1);
    const spots = [0, 0.3, 0.6, 0.97].flatMap((part) =>
      Array.from({ length: 24 }, (_, k) => [
        x + part * radius * Math.cos((k * Math.PI) / 12),
        y + part * radius * Math.sin((k * Math.PI) / 12),
      ]),
    );
    return spots.every(([px, py]) => later.some((one) => Math.hypot(px! - one.x, py! - one.y) <= one.radius));
  });
  const told = items.flatMap((item) =>
    item.kind === "text" ? [Number(/^(\d+) antennas stand over each other/.exec(item.text)?.[1] ?? 0)] : [],
  );
  return Math.max(0, hidden.length - told.reduce((sum, count) => sum + count, 0));
}

const hungAs = (azimuthDeg: number, heightM = 62): Hung => ({
  name: "DISH",
  role: "antenna",
  at: "hop A / B / antenna",
  hop: "HOP",
  far: "TARN",
  heightM,
  diameterM: 1.2,
  azimuthDeg,
  units: [],
  couplers: [],
  also: [],
  down: [],
});

test("antennas of one height stand beside each other, what looks north stands in the middle", () => {
  const plan = sitePlans(designOf(textOf(CASES[0]!))).get("KELD")!;
  const places = (...there: Hung[]) =>
    layoutMast(plan, there, WIDE_MAST)!.items.flatMap((item) => (item.kind === "circle" ? [item] : []));
  const [one, other] = places(hungAs(62), hungAs(11));
  expect(Math.abs(one!.x - other!.x)).toBeGreaterThan(one!.radius + other!.radius);
  const middle = WIDE_MAST.width / 2;
  const [west, east, south] = [270, 90, 180].map((azimuth) => places(hungAs(azimuth))[0]!.x - middle);
  expect(west).toBeCloseTo(-east!, 9);
  expect(east).toBeGreaterThan(10);
  expect(south).toBeCloseTo(0, 6);
  // Almost north, hardly west.
  expect(places(hungAs(350.53))[0]!.x - middle).toBeGreaterThan(0.2 * west!);
});

test("as many lines come down as cables are told", () => {
  const plan = sitePlans(designOf(textOf(CASES[0]!))).get("KELD")!;
  const with4 = [62, 40].map((heightM, index) => ({
    ...hungAs(90, heightM),
    down: Array.from({ length: 2 }, (_, k) => ({ number: `K-${index}-${k}`, kind: "cable" as const })),
  }));
  const { items } = layoutMast(plan, with4, WIDE_MAST)!;
  expect(items.some((item) => item.kind === "text" && item.text.startsWith("4 cables down"))).toBe(true);
  const upright = items.filter(
    (item) => item.kind === "wire" && item.wire === "line" && item.points[0]![0] === item.points[1]![0],
  );
  expect(upright).toHaveLength(4);
});

test("whatever hangs on whatever structure has its place, from the south and from above", () => {
  const structure = fc.option(
    fc.record({
      kind: fc.constantFrom("mast", "tower", "roof", "chimney", "pole"),
      heightM: fc.double({ min: 0.1, max: 300, noNaN: true }),
    }),
    { nil: undefined },
  );
  const seen = { mast: 0, above: 0 };
  fc.assert(
    fc.property(fc.array(hung, { maxLength: 30 }), structure, (there, on) => {
      const plan = sitePlans(designOf(textOf(CASES[0]!))).get("KELD")!;
      const at = { ...plan, site: { ...plan.site, structure: on } };
      for (const sheet of [WIDE_MAST, NARROW_MAST]) {
        const placed = layoutMast(at, there, sheet);
        const high = there.filter(({ heightM }) => heightM !== undefined);
        if (placed === undefined) expect(high).toEqual([]);
        else {
          seen.mast++;
          expect(faultsOf(placed)).toEqual([]);
          expect(draw(placed)).not.toContain("<script");
          expect(placed.items.filter(({ kind }) => kind === "circle")).toHaveLength(high.length);
          expect(hiddenUntold(placed)).toBe(0);
        }
      }
      for (const sheet of [WIDE_ABOVE, NARROW_ABOVE]) {
        const placed = layoutAbove(there, sheet);
        if (placed === undefined) continue;
        seen.above++;
        expect(faultsOf(placed)).toEqual([]);
      }
    }),
  );
  expect(Math.min(seen.mast, seen.above)).toBeGreaterThan(20);
});

test.each(CASES.map((one, index) => [`${one.arrangement} (${index})`, one] as const))(
  "what hangs for %s: every antenna, unit and coupler once",
  (_name, one) => {
    const design = designOf(textOf(one));
    const results = new Map<string, HopResult>(chainsIn(design).map(({ hop, result }) => [hop.name, result]));
    const all = [...sitePlans(design).values()].flatMap((plan) => hungAt(plan, siteWiring(plan), results));
    const { antenna, unit, coupler = 0 } = one.parts;
    expect(all).toHaveLength(antenna!);
    const indoor = one.arrangement.startsWith("all-indoor");
    expect(all.flatMap(({ units }) => units)).toHaveLength(indoor ? 0 : unit!);
    expect(all.flatMap(({ couplers }) => couplers)).toHaveLength(coupler);
    for (const { azimuthDeg, distanceM } of all) {
      expect(azimuthDeg).toBeDefined();
      expect(distanceM).toBeGreaterThan(0);
    }
  },
);
