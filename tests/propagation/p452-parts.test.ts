/** Parts of Rec. ITU-R P.452-18 by themselves, and what holds of any path. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { anomalousPropagation } from "../../shared/propagation/p452/anomalous-propagation.js";
import { clearAirLosses } from "../../shared/propagation/p452/clear-air.js";
import { ducting } from "../../shared/propagation/p452/ducting.js";
import { clearAirGeometry } from "../../shared/propagation/p452/geometry.js";
import { inverseNormal } from "../../shared/propagation/p452/inverse-normal.js";
import { focusingDb } from "../../shared/propagation/p452/line-of-sight.js";
import { lowerBoundDb, radiusOfBoundM, slackDb } from "../../shared/propagation/p452/lower-bound.js";
import type { ClearAirPath } from "../../shared/propagation/p452/path.js";
import { yearOfWorstMonth } from "../../shared/propagation/p452/worst-month.js";
import { zoneLengths } from "../../shared/propagation/p452/zones.js";
import { lineByLine } from "../../shared/propagation/p676.js";
import { vapourPressureOfDensityHPa } from "../../shared/propagation/vapour.js";
import { allFinite, must } from "../p530/support.js";
import { loadVectors, testRows } from "../support/vectors.js";
import { geometryOf, lossOf, pathOf, paths } from "./p452-support.js";

type Table = readonly [header: string[], ...rows: number[][]];
interface Functions {
  readonly source: string;
  readonly beta0: Table;
  readonly I: Table;
  readonly k50: Table;
  readonly Es: Table;
  readonly worstMonthToYear: Table;
  readonly gamma676: Table;
  readonly terminalClutter17: Table;
  readonly zones: { distanceKm: number[]; zone: number[]; dtmKm: number; dlmKm: number; omega: number }[];
}
const functions = loadVectors<Functions>("propagation/p452-functions.json");
/** Twelve digits are printed. */
const PRINTED = { relative: 1e-10, absolute: 1e-11 };
const PRINTED_DB = { relative: 1e-10, absolute: 1e-9 };

function named([header, ...rows]: Table): Record<string, number>[] {
  return rows.map((row) => Object.fromEntries(header.map((name, i) => [name, row[i]!])));
}

testRows("beta0", functions.source, named(functions.beta0), (row, is) => {
  const zones = { dtmKm: row.dtmKm!, dlmKm: row.dlmKm!, omega: 0 };
  const { tau, mu1, mu4, beta0Percent } = anomalousPropagation(zones, row.latDeg!);
  is.close("tau", tau, row.tau!, PRINTED);
  is.close("mu1", mu1, row.mu1!, PRINTED);
  is.close("mu4", mu4, row.mu4!, PRINTED);
  is.close("beta0", beta0Percent, row.beta0Pct!, PRINTED);
});

testRows("I(x)", functions.source, named(functions.I), (row, is) =>
  is.close("I", inverseNormal(row.x!), row.I!, PRINTED),
);

testRows("k50", functions.source, named(functions.k50), (row, is) => {
  const { k50, aeM } = geometryOf({ ...pathOf(paths.paths[0]!), lapseNPerKm: row.DN! });
  is.close("k50", k50, row.k50!, PRINTED);
  is.close("ae", aeM / 1000, row.aeKm!, PRINTED);
});

testRows("Es", functions.source, named(functions.Es), (row, is) =>
  is.close("Es", focusingDb(row.dltPlusDlrKm!, row.pPct!), row.EsDb!, PRINTED),
);

testRows("worst month to year", functions.source, named(functions.worstMonthToYear), (row, is) => {
  const year = must(
    yearOfWorstMonth({ worstMonthPercent: row.pwPct!, latitudeDeg: row.latDeg!, omega: row.omega! }),
  );
  is.close("GL", year.GL, row.GL!, PRINTED);
  is.close("unlimited", year.unlimitedPercent, row.unlimitedPct!, PRINTED);
  is.close("p", year.timePercent, row.pPct!, PRINTED);
});

testRows("zones", functions.source, functions.zones, (row, is) => {
  const distanceM = Float64Array.from(row.distanceKm, (km) => 1000 * km);
  const { dtmKm, dlmKm, omega } = zoneLengths({ distanceM, zone: Uint8Array.from(row.zone) });
  is.close("dtm", dtmKm, row.dtmKm, PRINTED);
  is.close("dlm", dlmKm, row.dlmKm, PRINTED);
  is.close("omega", omega, row.omega, PRINTED);
});

testRows("gas by its dry pressure", functions.source, named(functions.gamma676), (row, is) => {
  const gas = lineByLine({
    frequencyHz: row.fGHz! * 1e9,
    dryPressureHPa: row.dryPressureHpa!,
    vapourPressureHPa: vapourPressureOfDensityHPa(row.rhoGm3!, row.temperatureK!),
    temperatureK: row.temperatureK!,
  });
  is.close("dry", gas.oxygenDbPerKm, row.dryDbKm!, PRINTED);
  is.close("wet", gas.waterVapourDbPerKm, row.wetDbKm!, PRINTED);
});

/**
 * Nominal clutter at an end after P.452-17 eq (57), (57a), which P.452-18 no longer has: only here, to run the
 * procedure against published results of the edition before.
 */
function terminalClutterDb(fGHz: number, antennaM: number, nominalM: number, nominalKm: number): number {
  if (antennaM >= nominalM) return 0;
  const Ffc = 0.25 + 0.375 * (1 + Math.tanh(7.5 * (fGHz - 0.5)));
  return 10.25 * Ffc * Math.exp(-nominalKm) * (1 - Math.tanh(6 * (antennaM / nominalM - 0.625))) - 0.33;
}

testRows("clutter of P.452-17", functions.source, named(functions.terminalClutter17), (row, is) => {
  const Ah = terminalClutterDb(row.fGHz!, row.antennaM!, row.nominalHeightM!, row.nominalDistanceKm!);
  is.close("Ah", Ah, row.AhDb!, PRINTED);
});

interface Clutter {
  readonly name: string;
  readonly nominalHeightM: number;
  readonly nominalDistanceKm: number;
  readonly points: number;
  readonly stepKm: number;
  readonly antennaAboveGroundM: number;
  readonly pathCentreLatDeg: number;
  readonly gain1Dbi: number;
  readonly gain2Dbi: number;
  readonly DN: number;
  readonly N0: number;
  readonly dryPressureHpa: number;
  readonly temperatureC: number;
  readonly rows: [f: number, p: number, Lb: number][];
}
const published = loadVectors<{ source: string; p45217TerminalClutter: Clutter[] }>(
  "propagation/p452-published.json",
);
for (const set of published.p45217TerminalClutter) {
  testRows(`P.452-17, ${set.name}`, published.source, set.rows, ([fGHz, p, LbDb], is) => {
    // Flat: the path begins and ends at the nominal distance, the antennas stand at the nominal height; zones are of the
    // whole path, which is 40 m longer or so and all inland.
    const first = Math.round(set.nominalDistanceKm / set.stepKm);
    const points = set.points - 2 * first;
    const whole = { dtmKm: 5, dlmKm: 5, omega: 0 };
    const geometry = {
      ...geometryOf({
        distanceM: Float64Array.from({ length: points }, (_, i) => 1000 * set.stepKm * i),
        heightM: new Float64Array(points),
        antennaTM: set.nominalHeightM,
        antennaRM: set.nominalHeightM,
        latitudeDeg: set.pathCentreLatDeg,
        lapseNPerKm: set.DN,
        seaLevelN: set.N0,
      }),
      ...whole,
      ...anomalousPropagation(whole, set.pathCentreLatDeg),
    };
    const { losses } = must(
      clearAirLosses(
        geometry,
        {
          frequencyHz: fGHz * 1e9,
          polarization: "vertical",
          gainTDbi: set.gain1Dbi,
          gainRDbi: set.gain2Dbi,
          dryPressureHPa: set.dryPressureHpa,
          temperatureK: set.temperatureC + 273.15,
        },
        [p],
      ),
    );
    const Ah = terminalClutterDb(fGHz, set.antennaAboveGroundM, set.nominalHeightM, set.nominalDistanceKm);
    is.close("Lb", losses[0]!.LbDb + 2 * Ah, LbDb, { absolute: 1e-6 });
  });
}

type BoundRow = [
  path: string,
  f: number,
  p: number,
  free: number,
  gas: number,
  es: number,
  bound: number,
  Lb: number,
];
const bounds = loadVectors<{ source: string; rows: BoundRow[] }>("propagation/p452-lower-bound.json");
testRows("lower bound beside the result", bounds.source, bounds.rows, (row, is) => {
  const [id, fGHz, p, , gasDb, , boundDb, LbDb] = row;
  const vector = paths.paths.find((path) => path.id === id)!;
  const geometry = geometryOf(pathOf(vector));
  const { dKm, d3Km, beta0Percent } = geometry;
  const inputs = { frequencyHz: fGHz * 1e9, timePercent: p, beta0Percent, gammaDbPerKm: gasDb / dKm };
  const ours = lowerBoundDb(1000 * dKm, inputs);
  // The table has the straight distance in its free space, and d in the rest.
  is.close("bound", ours + 20 * Math.log10(d3Km / dKm), boundDb, PRINTED_DB);
  const loss = lossOf(vector, geometry, fGHz, "H", [p]);
  is.close("Lb", loss.LbDb, LbDb, PRINTED_DB);
  is.same("below the result", boundDb <= loss.LbDb, true);
});

/** Any path: unequal steps, mixed zones, cover, from a few hundred metres to some hundred kilometres. */
const anyPath = fc
  .record({
    steps: fc.array(
      fc.record({
        stepM: fc.double({ min: 1, max: 5000, noNaN: true }),
        heightM: fc.double({ min: -50, max: 3000, noNaN: true }),
        coverM: fc.double({ min: 0, max: 30, noNaN: true }),
        zone: fc.integer({ min: 1, max: 3 }),
      }),
      { minLength: 3, maxLength: 90 },
    ),
    relief: fc.constantFrom(0, 0.01, 0.1, 1),
    antennaTM: fc.double({ min: 0.5, max: 300, noNaN: true }),
    antennaRM: fc.double({ min: 0.5, max: 300, noNaN: true }),
    latitudeDeg: fc.double({ min: -90, max: 90, noNaN: true }),
    lapseNPerKm: fc.double({ min: 0, max: 150, noNaN: true }),
    seaLevelN: fc.double({ min: 250, max: 500, noNaN: true }),
  })
  .map(({ steps, relief, ...rest }): ClearAirPath => {
    let d = 0;
    const all = [{ ...steps[0]!, stepM: 0 }, ...steps];
    return {
      ...rest,
      distanceM: Float64Array.from(all, ({ stepM }) => (d += stepM)),
      heightM: Float64Array.from(all, ({ heightM }) => relief * heightM),
      coverHeightM: Float64Array.from(all, ({ coverM }) => coverM),
      zone: Uint8Array.from(all, ({ zone }) => zone),
    };
  });
const radio = fc.record({
  frequencyHz: fc.double({ min: 1e9, max: 100e9, noNaN: true }),
  polarization: fc.constantFrom("horizontal" as const, "vertical" as const),
  gainTDbi: fc.double({ min: -20, max: 50, noNaN: true }),
  gainRDbi: fc.double({ min: -20, max: 50, noNaN: true }),
  dryPressureHPa: fc.double({ min: 600, max: 1050, noNaN: true }),
  temperatureK: fc.double({ min: 250, max: 310, noNaN: true }),
});
const percent = fc.double({ min: 0.001, max: 50, noNaN: true });

describe("any path", () => {
  it("has a finite loss that is never below the bound without a profile, with or without gas", () => {
    fc.assert(
      fc.property(anyPath, radio, percent, (path, atRadio, p) => {
        const geometry = geometryOf(path);
        const result = must(clearAirLosses(geometry, atRadio, [p]));
        expect(allFinite(result)).toBe(true);
        const { seaLevelN } = path;
        const inputs = { frequencyHz: atRadio.frequencyHz, timePercent: p, seaLevelN };
        const withGas = { ...inputs, gammaDbPerKm: result.gammaTropoDbPerKm };
        const d = 1000 * geometry.dKm;
        const { LbDb } = result.losses[0]!;
        expect(LbDb).toBeGreaterThanOrEqual(lowerBoundDb(d, inputs));
        expect(LbDb).toBeGreaterThanOrEqual(lowerBoundDb(d, withGas));
        expect(LbDb).toBeGreaterThanOrEqual(
          lowerBoundDb(d, { ...withGas, beta0Percent: geometry.beta0Percent }),
        );
      }),
      { numRuns: 500 },
    );
  });

  it("is what several shares of time together give for each alone", () => {
    fc.assert(
      fc.property(anyPath, radio, percent, percent, (path, atRadio, a, b) => {
        const geometry = geometryOf(path);
        const together = must(clearAirLosses(geometry, atRadio, [a, b])).losses;
        expect(together[0]).toEqual(must(clearAirLosses(geometry, atRadio, [a])).losses[0]);
        expect(together[1]).toEqual(must(clearAirLosses(geometry, atRadio, [b])).losses[0]);
      }),
    );
  });

  it("has horizons inside it, whose distances together do not exceed it", () => {
    fc.assert(
      fc.property(anyPath, (path) => {
        const g = geometryOf(path);
        expect(g.dltKm + g.dlrKm).toBeLessThanOrEqual(g.dKm * (1 + 1e-12));
        expect(g.thetaMrad).toBeGreaterThanOrEqual(-1e-6);
        expect(g.beta0Percent).toBeGreaterThan(0.32);
        expect(g.beta0Percent).toBeLessThan(47);
      }),
    );
  });

  it("of absurd but finite numbers is refused or finite", () => {
    const wild = fc.oneof(
      fc.double(),
      fc.double({ min: -5000, max: 5000, noNaN: true }),
      fc.constantFrom(0, 5e-324, 1e-300, 1e-6, 1e6, 1e300, Number.MAX_VALUE),
    );
    const mostly = (min: number, max: number) =>
      fc.oneof(
        { weight: 9, arbitrary: fc.double({ min, max, noNaN: true }) },
        { weight: 1, arbitrary: wild },
      );
    const arrays = fc
      .array(mostly(1e-9, 5000), { minLength: 4, maxLength: 8 })
      .map((list) => Float64Array.from(list));
    const rests = fc.tuple(mostly(0, 300), mostly(0, 300), mostly(-90, 90), mostly(0, 156), mostly(0, 1000));
    const wildRadio = fc.record({
      frequencyHz: wild,
      polarization: fc.constant("vertical" as const),
      gainTDbi: wild,
      gainRDbi: wild,
      dryPressureHPa: wild,
      temperatureK: wild,
    });
    const anyRadio = fc.oneof(
      radio,
      wildRadio,
      fc.tuple(radio, wild).map(([one, frequencyHz]) => ({ ...one, frequencyHz })),
    );
    fc.assert(
      fc.property(arrays, arrays, rests, anyRadio, (steps, heights, rest, atRadio) => {
        let d = 0;
        const points = Math.min(steps.length, heights.length);
        const distanceM = steps.slice(0, points).map((step, i) => (i === 0 ? 0 : (d += Math.abs(step))));
        const [antennaTM, antennaRM, latitudeDeg, lapseNPerKm, seaLevelN] = rest;
        const path = {
          distanceM,
          heightM: heights.slice(0, points),
          antennaTM: Math.abs(antennaTM),
          antennaRM: Math.abs(antennaRM),
        };
        const outcome = clearAirGeometry({
          ...path,
          latitudeDeg: latitudeDeg % 90,
          lapseNPerKm: Math.abs(lapseNPerKm) % 157,
          seaLevelN,
        });
        expect(allFinite(outcome.ok ? { ...outcome.geometry, profile: 0 } : outcome)).toBe(true);
        if (outcome.ok) expect(allFinite(clearAirLosses(outcome.geometry, atRadio, [0.01, 20]))).toBe(true);
      }),
      { numRuns: 3000 },
    );
  });
});

describe("radius of the bound", () => {
  it("nothing beyond it is below the loss, and the bound rises", () => {
    fc.assert(
      fc.property(radio, percent, fc.double({ min: 60, max: 260, noNaN: true }), (atRadio, p, lossDb) => {
        const inputs = { frequencyHz: atRadio.frequencyHz, timePercent: p };
        const radius = radiusOfBoundM(lossDb, inputs);
        for (const factor of [1.0001, 1.1, 2, 10]) {
          if (radius * factor < 20e6) expect(lowerBoundDb(radius * factor, inputs)).toBeGreaterThan(lossDb);
        }
        // As near as that: only where nothing on Earth is far enough does it end at the other side.
        if (radius > 1) expect(lowerBoundDb(radius - 0.01, inputs)).toBeLessThanOrEqual(lossDb);
      }),
    );
  });

  it("may count gas at 3 g/m3 for all: from 1 to 100 GHz it grows with the vapour up to 10 g/m3", () => {
    for (let f = 1; f <= 100; f += 0.25) {
      for (const temperatureK of [250, 288, 310]) {
        for (const dryPressureHPa of [600, 1050]) {
          const gamma = [3, 4, 5, 6, 7, 8, 9, 10].map((rho) => {
            const vapourPressureHPa = vapourPressureOfDensityHPa(rho, temperatureK);
            return lineByLine({ frequencyHz: f * 1e9, dryPressureHPa, vapourPressureHPa, temperatureK })
              .totalDbPerKm;
          });
          expect(gamma, `${f} GHz`).toEqual(gamma.toSorted((a, b) => a - b));
        }
      }
    }
  });

  it("with a high N0 the bound is lower", () => {
    const inputs = { frequencyHz: 6e9, timePercent: 0.01 };
    const usual = lowerBoundDb(50_000, inputs);
    const high = lowerBoundDb(50_000, { ...inputs, seaLevelN: 450 });
    expect(high).toBeLessThan(usual);
    // Two equal powers are the most that (64) can add while troposcatter stays above free space.
    expect(high).toBeGreaterThan(usual - 1.51);
  });

  it("beyond the usual N0 and frequencies takes off what the formula says", () => {
    // By hand for 0.01 %: 10.1 (log 5000)^0.7 = 25.234; M = 97.6 + 1.505 - 0 - 67.5 - 25.234 at 2 GHz,
    // 97.6 + 3.891 - 0.569 - 67.5 - 25.234 at 6 GHz; S = 5 log(1 + 10^(-0.2 M)).
    expect(slackDb(2e9, 0.01, 450)).toBeCloseTo(0.1125, 4);
    expect(slackDb(6e9, 0.01, 450)).toBeCloseTo(0.0495, 4);
  });
});

describe("coupling to ducts over the sea", () => {
  // (49) with omega 0.8, the antenna at 50 m: -3 exp(-0.25 dct^2).
  const act = (dctKm: number, dltKm = 10) =>
    ducting({ ...geometryOf(pathOf(paths.paths[0]!)), omega: 0.8, dctKm, dltKm, htsM: 50 }, 6, 1, 0.01).ActDb;

  it("counts up to 5 km from the coast, and no further than the horizon", () => {
    expect(act(5)).toBeCloseTo(-3 * Math.exp(-6.25), 9);
    expect(act(5.001)).toBe(0);
    expect(act(2)).toBeCloseTo(-3 * Math.exp(-1), 9);
    expect(act(2, 1.999)).toBe(0);
  });
});

describe("distances to the coast", () => {
  const land = 2;
  const sea = 3;
  const coasts = (zone: number[] | undefined, stated: Pick<ClearAirPath, "coastTM" | "coastRM"> = {}) => {
    const { dctKm, dcrKm } = geometryOf({
      distanceM: Float64Array.of(0, 4000, 9000, 15_000, 22_000),
      heightM: new Float64Array(5),
      zone: zone && Uint8Array.from(zone),
      antennaTM: 20,
      antennaRM: 20,
      latitudeDeg: 50,
      lapseNPerKm: 45,
      seaLevelN: 330,
      ...stated,
    });
    return [dctKm, dcrKm];
  };

  it("run to the nearest sea point from each end, 0 where the end itself is at sea", () => {
    expect(coasts([land, sea, land, sea, land])).toEqual([4, 7]);
    expect(coasts([sea, land, land, land, land])).toEqual([0, 22]);
    expect(coasts([land, land, land, land, sea])).toEqual([22, 0]);
  });

  it("are those stated, and 500 km without any sea", () => {
    expect(coasts([land, land, land, land, land])).toEqual([500, 500]);
    expect(coasts(undefined)).toEqual([500, 500]);
    expect(coasts([sea, sea, sea, sea, sea], { coastTM: 3000, coastRM: 8000 })).toEqual([3, 8]);
  });
});

it("a worst month that is none is refused", () => {
  expect(yearOfWorstMonth({ worstMonthPercent: 0, latitudeDeg: 50, omega: 0 })).toMatchObject({ ok: false });
  expect(yearOfWorstMonth({ worstMonthPercent: 1, latitudeDeg: 50, omega: 2 })).toMatchObject({ ok: false });
});
