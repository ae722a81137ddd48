/** Slips in a position: told with the right site and the right mending, and on sound networks not at all. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Design, Hop, Position, Site } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { inverse } from "../../shared/geodesy/geodesic.js";
import { mend, SLIPS } from "../../shared/geodesy/slips.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { positionSlips, spotKey, spotsWanted } from "../../shared/rules/position-slips.js";
import { makeHop, NO_GROUND } from "../evaluate/builders.js";

type Terrain = (at: Position) => number | undefined;

function designOf(sites: readonly Site[], pairs: readonly (readonly [number, number])[]): Design {
  const hops = pairs.map(([a, b]): Hop => {
    const [from, to] = [sites[a]!, sites[b]!];
    return makeHop({ name: `${from.name}-${to.name}`, ends: [{ site: from }, { site: to }] });
  });
  return {
    terrain: [],
    sites: new Map(sites.map((site) => [site.name, site])),
    hops: new Map(hops.map((hop) => [hop.name, hop])),
  };
}

function heightsOf(design: Design, terrain: Terrain) {
  return new Map(spotsWanted(design).map((at) => [spotKey(at), terrain(at)]));
}

const slipsOf = (design: Design, terrain: Terrain = () => undefined) =>
  positionSlips(design, heightsOf(design, terrain));

const at = (name: string, latitudeDeg: number, longitudeDeg: number, groundM?: number): Site => ({
  name,
  position: { latitudeDeg, longitudeDeg },
  groundM,
});
const told = (design: Design, terrain?: Terrain) =>
  [...slipsOf(design, terrain).values()].map(
    ({ site, slip, evidence, or }) => `${site}${or ? ` or ${or}` : ""}: ${slip.id} by ${evidence}`,
  );

/** Land everywhere, told apart by its height. */
const HILLS: Terrain = ({ latitudeDeg, longitudeDeg }) =>
  300 + 200 * Math.sin(latitudeDeg * 37) * Math.cos(longitudeDeg * 53);

test("behind a path above 200 km it is quiet, unless that is told milder or accepted", () => {
  const ids = (longitudeDeg: number, more: Partial<Hop> = {}) => {
    const sites = [at("KELD", 47.5, -longitudeDeg), at("TARN", 47.55, longitudeDeg - 0.1)];
    const design = designOf(sites, [[0, 1]]);
    const hop = { ...design.hops.get("KELD-TARN")!, ...more };
    const hops = new Map([[hop.name, hop]]);
    const results = new Map([[hop.name, evaluateHop(hop, NO_GROUND)]]);
    return judgeNetwork({ ...design, hops }, results, "2026-06-01").flatMap(({ rule }) =>
      rule === "position-slip" ? rule : [],
    );
  };
  // 75.3 km a degree: 196 km and 203 km.
  expect(ids(1.35)).toEqual(["position-slip"]);
  expect(ids(1.4)).toEqual([]);
  const statements = [{ rule: "path-length", severity: "warning", required: false }] as const;
  expect(ids(1.4, { policy: { statements } })).toEqual(["position-slip"]);
  expect(ids(1.4, { accepts: [{ rule: "path-length", reason: "over the bay" }] })).toEqual(["position-slip"]);
});

describe("by the other sites", () => {
  // KELD is 9.3 km from TARN; a degree of longitude is 75 km here.
  const among = (...sites: Site[]) =>
    designOf(
      [at("KELD", 47.5, -0.9), at("TARN", 47.55, -0.8), at("MOSS", 47.45, -0.85), ...sites],
      [[0, 1], [0, 2], ...sites.map((_, i) => [0, 3 + i] as const)],
    );

  test.each([
    ["longitude sign", at("FAR", 47.52, 0.7)],
    ["latitude sign", at("FAR", -47.52, -0.7)],
    ["exchanged", at("FAR", -0.7, 47.52)],
    ["digits exchanged", at("FAR", 0.7, -47.52)],
    ["exchanged and sign", at("FAR", 0.7, 47.52)],
  ])("%s", (id, far) => {
    expect(told(among(far))).toEqual([`FAR: ${id} by sites`]);
    const mended = mend(SLIPS.find((slip) => slip.id === id)!, far.position!);
    expect(told(among({ ...far, position: mended }))).toEqual([]);
  });

  test("a site that is not four times as far from all others as it would be is left alone", () => {
    // Mended it is 9.3 km from KELD, at 0.7 E 120 km, at 0.2 W 9 km further than now.
    expect(told(among(at("FAR", 47.52, 0.7), at("NEAR", 47.6, 0.5)))).toEqual([]);
    expect(told(among(at("FAR", 47.52, 0.1)))).toEqual([]);
  });

  test("two sites that only speak against each other are told once, from 80 km on", () => {
    const pair = (longitudeDeg: number) =>
      designOf([at("KELD", 47.5, -longitudeDeg), at("TARN", 47.5, longitudeDeg - 0.1)], [[0, 1]]);
    // 75.3 km a degree: 83 km and 75 km.
    expect(told(pair(0.6))).toEqual(["KELD or TARN: longitude sign by sites"]);
    expect(told(pair(0.54))).toEqual([]);
  });

  test("one that is alone on its side is told at any length, if three others are on the other", () => {
    const alone = (others: number) =>
      designOf(
        [
          at("FAR", 47.5, 0.2),
          ...Array.from({ length: others }, (_, i) => at(`S${i}`, 47.5 + i / 20, -0.22)),
        ],
        Array.from({ length: others }, (_, i) => [0, 1 + i] as const),
      );
    expect(told(alone(3))).toEqual(["FAR: longitude sign by sites"]);
    expect(told(alone(2))).toEqual([]);
  });
});

describe("by the terrain", () => {
  const pair = (groundM?: number) =>
    designOf([at("KELD", 51.5, -0.1), at("TARN", 51.52, 0.02, groundM)], [[0, 1]]);
  const west: Terrain = ({ longitudeDeg }) => (longitudeDeg < 0 ? 100 : 40);

  test("ground that is stated and is that of the mended position, not of this", () => {
    expect(told(pair(104), west)).toEqual(["TARN: longitude sign by ground"]);
    // Within 15 m of the terrain there, and more than 50 m from it here.
    expect(told(pair(115), west)).toEqual(["TARN: longitude sign by ground"]);
    expect(told(pair(116), west)).toEqual([]);
    expect(told(pair(90), west)).toEqual([]);
    expect(told(pair(), west)).toEqual([]);
  });

  test("no mending leads further than hops go, nor onto the far end, whatever the ground says", () => {
    // A degree of longitude is 75.3 km at 47.5 degrees.
    const mendedTo = (lengthDeg: number) =>
      told(
        designOf([at("KELD", 47.5, -30.5), at("TARN", 47.5, 30.5 - lengthDeg, 104)], [[0, 1]]),
        ({ longitudeDeg }) => (longitudeDeg < 0 ? 100 : 40),
      );
    expect(mendedTo(1.05)).toEqual(["TARN: longitude sign by ground"]);
    expect(mendedTo(1.08)).toEqual([]);
    expect(mendedTo(0.001)).toEqual(["TARN: longitude sign by ground"]);
    expect(mendedTo(0.0001)).toEqual([]);
  });

  test("no land here, and land there", () => {
    const sea =
      (level: number | undefined): Terrain =>
      ({ longitudeDeg }) =>
        longitudeDeg < 0.01 ? 30 : level;
    expect(told(pair(), sea(0))).toEqual(["TARN: longitude sign by no land"]);
    expect(told(pair(), sea(undefined))).toEqual(["TARN: longitude sign by no land"]);
    expect(told(pair(), sea(1))).toEqual([]);
    // A coast: land some hundred metres on.
    const coast: Terrain = ({ longitudeDeg }) => (longitudeDeg < 0.016 ? 30 : 0);
    expect(told(pair(), coast)).toEqual([]);
    // Nothing is known of either.
    expect(told(pair(), () => undefined)).toEqual([]);
  });
});

test("the finding names site, mending and what it would come to, and is accepted at the site", () => {
  const design = designOf(
    [at("KELD", 47.5, -30.5), at("TARN", 47.55, -30.4), at("FAR", 47.52, 30.4)],
    [
      [0, 1],
      [0, 2],
    ],
  );
  const found = (more: Partial<Design> = {}) =>
    judgeNetwork({ ...design, ...more }, new Map(), "2026-06-01").filter(
      ({ rule }) => rule === "position-slip",
    );
  expect(found()).toMatchObject([
    {
      severity: "warning",
      at: "site FAR / at",
      message:
        "FAR is 4464.9 km from KELD and apart from every other site; with the other sign of the longitude (E for W, or W for E) it would be 7.85 km from KELD",
    },
  ]);
  const acceptedAt = new Map([["FAR", [{ rule: "position-slip", reason: "a ship" }]]]);
  expect(found({ acceptedAt })).toMatchObject([{ severity: "info", accepted: { reason: "a ship" } }]);
});

/** Centres of networks: anywhere, and often by the equator, the meridian and where both coordinates are alike. */
const centre = fc
  .record({
    latitudeDeg: fc.double({ min: -60, max: 60, noNaN: true }),
    longitudeDeg: fc.double({ min: -179, max: 179, noNaN: true }),
    by: fc.constantFrom("anywhere", "equator", "meridian", "alike"),
    offDeg: fc.double({ min: -0.6, max: 0.6, noNaN: true }),
  })
  .map(({ latitudeDeg, longitudeDeg, by, offDeg }): Position => {
    if (by === "equator") return { latitudeDeg: offDeg, longitudeDeg };
    if (by === "meridian") return { latitudeDeg, longitudeDeg: offDeg };
    return { latitudeDeg, longitudeDeg: by === "alike" ? latitudeDeg + offDeg : longitudeDeg };
  });

const KM_DEG = 1 / 111;

/** Sites grown from one another by hops of 2 to 40 km, on their true ground as far as that is stated. */
const networks = fc
  .record({
    centre,
    grown: fc.array(
      fc.record({
        from: fc.nat(),
        km: fc.oneof(
          { weight: 4, arbitrary: fc.double({ min: 2, max: 15, noNaN: true }) },
          fc.double({ min: 15, max: 40, noNaN: true }),
        ),
        bearing: fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
        isGroundStated: fc.boolean(),
      }),
      { minLength: 2, maxLength: 14 },
    ),
  })
  .map(({ centre: first, grown }) => {
    const sites: Site[] = [at("S0", first.latitudeDeg, first.longitudeDeg)];
    const pairs = grown.map(({ from, km, bearing, isGroundStated }, i): readonly [number, number] => {
      const parent = from % sites.length;
      const { latitudeDeg, longitudeDeg } = sites[parent]!.position!;
      const position = {
        latitudeDeg: latitudeDeg + km * KM_DEG * Math.cos(bearing),
        longitudeDeg:
          longitudeDeg + (km * KM_DEG * Math.sin(bearing)) / Math.cos((latitudeDeg * Math.PI) / 180),
      };
      sites.push({ name: `S${i + 1}`, position, groundM: isGroundStated ? HILLS(position)! + 8 : undefined });
      return [parent, i + 1];
    });
    return { sites, pairs };
  });

test("a sound network has none, wherever it lies, but for one in hundreds by the lines where slips mirror", () => {
  const alarms = fc.sample(networks, { numRuns: 4000, seed: 20260601 }).filter(({ sites, pairs }) => {
    const found = slipsOf(designOf(sites, pairs), HILLS);
    // Elsewhere there is none at all.
    if (!isByMirror(sites)) expect([...found.values()]).toEqual([]);
    return found.size > 0;
  });
  expect(alarms.length).toBeLessThan(4000 / 400);
});

/** Whether a slip of the first site leaves it within the reach of the network. */
function isByMirror([first]: readonly Site[]): boolean {
  const { position } = first!;
  return SLIPS.some(
    (slip) => inverse({ from: position!, to: clamped(mend(slip, position!)) }).distanceM < 1_000_000,
  );
}

function clamped({ latitudeDeg, longitudeDeg }: Position): Position {
  return { latitudeDeg: Math.max(-90, Math.min(90, latitudeDeg)), longitudeDeg };
}

test("one slip in a network is found at its site and mended as it was, always where it leads far away", () => {
  const slipped = fc.record({ network: networks, which: fc.nat(), slip: fc.constantFrom(...SLIPS) });
  let [found, silent, wrong] = [0, 0, 0];
  for (const { network, which, slip } of fc.sample(slipped, { numRuns: 3000, seed: 20260601 })) {
    const { sites, pairs } = network;
    const index = which % sites.length;
    const right = sites[index]!.position!;
    // What the mending undoes.
    const stated = SLIPS.map((one) => mend(one, right)).find((position) => {
      const back = mend(slip, position);
      return back.latitudeDeg === right.latitudeDeg && back.longitudeDeg === right.longitudeDeg;
    });
    if (sites.length < 4 || stated === undefined || Math.abs(stated.latitudeDeg) > 90) continue;
    const movedM = inverse({ from: right, to: stated }).distanceM;
    if (movedM < 1000) continue;
    const written = sites.map((site, i) => (i === index ? { ...site, position: stated } : site));
    const told = [...slipsOf(designOf(written, pairs), HILLS).values()];
    const isRight = ({ site, mended }: { site: string; mended: Position }) =>
      site === `S${index}` && inverse({ from: mended, to: right }).distanceM < 1;
    if (!told.every(isRight)) wrong++;
    else if (told.length > 0) found++;
    else silent++;
    if (movedM > 1_000_000) expect(told.map(({ site }) => site)).toEqual([`S${index}`]);
  }
  // By the mirrors neither the other sites nor the ground may tell.
  expect(found).toBeGreaterThan(silent);
  // Where both coordinates are alike, an exchange with a sign may come to the same place.
  expect(wrong).toBeLessThan(found / 100);
});
