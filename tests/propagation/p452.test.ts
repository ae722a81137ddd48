/** The clear-air procedure of Rec. ITU-R P.452-18, every step. */
import { describe, expect, it } from "vitest";
import { clearAirLosses } from "../../shared/propagation/p452/clear-air.js";
import { clearAirGeometry } from "../../shared/propagation/p452/geometry.js";
import type { ClearAirPath } from "../../shared/propagation/p452/path.js";
import { allFinite } from "../p530/support.js";
import { loadVectors, testRows } from "../support/vectors.js";
import { geometryOf, lossesOf, lossOf, pathOf, paths, unrolled, type VectorPath } from "./p452-support.js";

/** Twelve digits are printed of figures up to some thousand dB. */
const PRINTED = { absolute: 1e-7, relative: 1e-10 };
/** The published files print 6 decimals of geometry and 8 of dB. */
const PUBLISHED = { absolute: 1e-6 };

const byId = new Map(paths.paths.map((path) => [path.id, path]));

testRows("geometry of paths", paths.source, paths.paths, (vector, is) => {
  const g = geometryOf(pathOf(vector));
  const wanted = vector.geometry as Record<string, number>;
  const got: Record<string, number> = {
    distanceKm: g.dKm,
    dtmKm: g.dtmKm,
    dlmKm: g.dlmKm,
    omega: g.omega,
    tau: g.tau,
    mu1: g.mu1,
    mu4: g.mu4,
    beta0Pct: g.beta0Percent,
    k50: g.k50,
    aeKm: g.aeM / 1000,
    aBetaKm: g.aBetaM / 1000,
    htsM: g.htsM,
    hrsM: g.hrsM,
    thetaTMrad: g.thetaTMrad,
    thetaRMrad: g.thetaRMrad,
    thetaMrad: g.thetaMrad,
    hteM: g.hteM,
    hreM: g.hreM,
    StimMKm: g.StimMPerKm,
    StrMKm: g.StrMPerKm,
    pathD3Km: g.d3Km,
    rhoGm3: 7.5 + 2.5 * g.omega,
  };
  const loss = lossOf(vector, g, 6, "H", [20]);
  const { median } = lossesOf(vector, g, 6, "H", [20]).diffraction;
  got.Fk = loss.Fk;
  got.Fj = loss.Fj;
  got.mu2 = loss.mu2;
  got.alpha = loss.alpha;
  got.hstRawM = g.smoothTM;
  got.hsrRawM = g.smoothRM;
  got.hstdM = median.smoothHeight1M;
  got.hsrdM = median.smoothHeight2M;
  for (const [name, value] of Object.entries(wanted)) {
    if (name === "pathType") is.same(name, g.transHorizon ? "transhorizon" : "los", value);
    else is.close(name, got[name], value, PRINTED);
  }
});

const cases = loadVectors<{
  source: string;
  columns: string[];
  rows: [
    path: string,
    fGHz: number,
    p: number,
    polarization: "H" | "V",
    Lb: number,
    without: number | null,
    ...number[],
  ][];
}>("propagation/p452-cases.json");

testRows("every step of 60 cases", cases.source, cases.rows, (row, is) => {
  const [id, fGHz, p, polarization, LbDb, withoutDb] = row;
  const vector = byId.get(id)!;
  const path = pathOf(vector);
  const g = geometryOf(path);
  const { losses, diffraction, ...gas } = lossesOf(vector, g, fGHz, polarization, [p]);
  const loss = losses[0]!;
  const { median, beta } = diffraction;
  const got: Record<string, number | undefined> = {
    ...loss,
    dltKm: g.dltKm,
    dlrKm: g.dlrKm,
    hmM: g.hmM,
    gammaDryDbKm: gas.gammaOxygenDbPerKm,
    gammaWetDbKm: gas.gammaVapourDbPerKm,
    freeSpace924Db: loss.LbfsgDb - loss.AgDb,
    EsbetaDb: loss.EsBetaDb,
    Lb0betaDb: loss.Lb0BetaDb,
    gammaDDbMrad: loss.gammaDDbPerMrad,
    betaPct: loss.betaPercent,
    Lminb0pDb: loss.Lmin0Db,
    LminbapDb: loss.LminaDb,
    bullingtonActual50Db: median.actual?.lossDb,
    bullingtonSmooth50Db: median.smooth?.lossDb,
    spherical50Db: median.spherical?.lossDb,
    nu50: median.actual?.v,
    bullingtonActualBetaDb: beta.actual?.lossDb,
    bullingtonSmoothBetaDb: beta.smooth?.lossDb,
    sphericalBetaDb: beta.spherical?.lossDb,
    ruledBy: undefined,
  } as Record<string, number | undefined>;
  is.close("Lb", loss.LbDb, LbDb, PRINTED);
  if (withoutDb !== null) {
    const bare = geometryOf({ ...path, coverHeightM: undefined });
    is.close("Lb without cover", lossOf(vector, bare, fGHz, polarization, [p]).LbDb, withoutDb, PRINTED);
  }
  for (const [i, name] of cases.columns.entries()) {
    if (i >= 6) is.close(name, got[name], row[i] as number, PRINTED);
  }
});

const table = loadVectors<{
  source: string;
  frequencyGHz: number[];
  pPct: number[];
  tables: { path: string; polarization: "H" | "V"; LbDb: number[][] }[];
}>("propagation/p452-table.json");

testRows("five frequencies, six shares of time", table.source, table.tables, (row, is) => {
  const vector = byId.get(row.path)!;
  const g = geometryOf(pathOf(vector));
  for (const [i, fGHz] of table.frequencyGHz.entries()) {
    const { losses } = lossesOf(vector, g, fGHz, row.polarization, table.pPct);
    for (const [j, loss] of losses.entries()) {
      is.close(`${fGHz} GHz ${loss.timePercent} %`, loss.LbDb, row.LbDb[i]![j]!, PRINTED);
    }
  }
});

interface PublishedPath {
  readonly name: string;
  readonly inputsAndGeometry: Readonly<Record<string, number>>;
  readonly pathType: string;
  readonly profile?: string;
  readonly distanceKm?: readonly number[];
  readonly terrainM?: readonly number[];
  readonly flatStepKm?: number;
  readonly coverRuns?: readonly [number, number][];
  readonly zoneRuns: readonly [number, number][];
  readonly rows: readonly number[][];
}
const published = loadVectors<{ source: string; p45218: PublishedPath[] }>("propagation/p452-published.json");
const general = loadVectors<{ hops: { name: string; distanceKm: number[]; terrainHeightM: number[] }[] }>(
  "propagation/p526-general-paths.json",
);

/** The published files take the point at half of the profile's length, on a sphere, from end 1 toward end 2. */
function latitudeOfCentre(given: Readonly<Record<string, number>>, dKm: number): number {
  const [lat1, lat2, across] = [given.lat1!, given.lat2!, given.lon2! - given.lon1!].map(
    (deg) => (deg * Math.PI) / 180,
  );
  const y = Math.sin(across!) * Math.cos(lat2!);
  const x = Math.cos(lat1!) * Math.sin(lat2!) - Math.sin(lat1!) * Math.cos(lat2!) * Math.cos(across!);
  const half = dKm / 2 / 6371;
  const sine =
    Math.sin(lat1!) * Math.cos(half) + Math.cos(lat1!) * Math.sin(half) * Math.cos(Math.atan2(y, x));
  return (Math.asin(sine) * 180) / Math.PI;
}

function publishedPath(one: PublishedPath): VectorPath {
  const given = one.inputsAndGeometry as Record<string, number>;
  const zones = unrolled(one.zoneRuns);
  const elsewhere = general.hops.find(({ name }) => name === one.name);
  const distanceKm =
    one.distanceKm ?? elsewhere?.distanceKm ?? zones.map((_, i) => i * (one.flatStepKm ?? Number.NaN));
  return {
    id: one.name,
    pathCentreLatDeg: latitudeOfCentre(given, distanceKm.at(-1)!),
    antennaAboveGround1M: given.antennaAboveGround1M!,
    antennaAboveGround2M: given.antennaAboveGround2M!,
    gainToHorizon1Dbi: given.gain1Dbi!,
    gainToHorizon2Dbi: given.gain2Dbi!,
    DN: given.DN!,
    N0: given.N0!,
    dryPressureHpa: given.dryPressureHpa!,
    temperatureC: given.temperatureC!,
    coastDistance1Km: given.coastDistance1Km!,
    coastDistance2Km: given.coastDistance2Km!,
    zoneRuns: one.zoneRuns,
    distanceKm,
    terrainM: one.terrainM ?? elsewhere?.terrainHeightM ?? zones.map(() => 0),
    coverM: one.coverRuns && unrolled(one.coverRuns),
    geometry: {},
  };
}

describe("published results of the Study Group 3 software", () => {
  for (const one of published.p45218) {
    const vector = publishedPath(one);
    const g = geometryOf(pathOf(vector));
    testRows(`${one.name}, geometry`, published.source, [one.inputsAndGeometry], (wanted, is) => {
      is.same("class", g.transHorizon ? "Trans-Horizon" : "Line of Sight", one.pathType);
      const names = [
        "thetaTMrad",
        "thetaRMrad",
        "thetaMrad",
        "hmM",
        "hteM",
        "hreM",
        "dltKm",
        "dlrKm",
        "dtmKm",
        "omega",
      ];
      for (const name of names) {
        is.close(name, g[name as keyof typeof g] as number, wanted[name]!, PUBLISHED);
      }
      is.close("beta0", g.beta0Percent, wanted.beta0Pct!, PUBLISHED);
    });
    testRows(one.name, published.source, one.rows, (row, is) => {
      const [fGHz, p, polarization, Lb, Lbfsg, Lb0p, Lb0beta, Ldsph50, Ld50, Ldp, Lbs, Lba] = row as [
        number,
        number,
        number,
        ...number[],
      ];
      const { losses, diffraction } = lossesOf(vector, g, fGHz, polarization === 1 ? "H" : "V", [p]);
      const loss = losses[0]!;
      is.close("Lb", loss.LbDb, Lb!, PUBLISHED);
      is.close("Lbfsg", loss.LbfsgDb, Lbfsg!, PUBLISHED);
      is.close("Lb0p", loss.Lb0pDb, Lb0p!, PUBLISHED);
      is.close("Lb0beta", loss.Lb0BetaDb, Lb0beta!, PUBLISHED);
      is.close("Ldsph", diffraction.median.spherical?.lossDb, Ldsph50!, PUBLISHED);
      is.close("Ld50", loss.Ld50Db, Ld50!, PUBLISHED);
      is.close("Ldp", loss.LdpDb, Ldp!, PUBLISHED);
      is.close("Lbs", loss.LbsDb, Lbs!, PUBLISHED);
      is.close("Lba", loss.LbaDb, Lba!, PUBLISHED);
    });
  }
});

describe("what rules the loss", () => {
  const ruled = (id: string, fGHz: number, p: number) => {
    const vector = byId.get(id)!;
    return lossOf(vector, geometryOf(pathOf(vector)), fGHz, "H", [p]).ruledBy;
  };

  it("is the mechanism of the smallest part that counts", () => {
    expect(ruled("inland-92km-los", 6, 0.01)).toBe("line-of-sight");
    expect(ruled("alps-22km-blocked", 6, 20)).toBe("diffraction");
    expect(ruled("strait-37km-sea-transhorizon", 6, 0.01)).toBe("ducting");
    expect(ruled("strait-37km-sea-transhorizon", 6, 20)).toBe("diffraction");
  });

  it("is troposcatter on 100 km of flat land at 50 %, where published Lb and Lbs are one", () => {
    const vector = publishedPath(published.p45218.find(({ name }) => name === "flat_land_100km")!);
    const loss = lossOf(vector, geometryOf(pathOf(vector)), 10, "V", [50]);
    expect(loss.ruledBy).toBe("troposcatter");
    expect(loss.LbDb).toBeCloseTo(loss.LbsDb, 3);
  });
});

describe("what is no path or leaves the range", () => {
  const good = pathOf(paths.paths[0]!);
  const g = geometryOf(good);
  const radio = {
    frequencyHz: 6e9,
    polarization: "vertical",
    gainTDbi: 30,
    gainRDbi: 30,
    dryPressureHPa: 1013,
    temperatureK: 288.15,
  } as const;
  const refusal = (change: Partial<ClearAirPath>) => clearAirGeometry({ ...good, ...change });
  const spoiled = (at: number, value: number) => good.heightM.map((height, i) => (i === at ? value : height));

  it("is refused with the reason", () => {
    expect(
      refusal({ distanceM: Float64Array.of(0, 1, 2), heightM: Float64Array.of(0, 0, 0), zone: undefined }),
    ).toMatchObject({
      refusal: { code: "profile-too-short", points: 3 },
    });
    expect(refusal({ heightM: spoiled(7, Number.NaN) })).toMatchObject({
      refusal: { code: "profile-height-unknown", point: 7 },
    });
    expect(refusal({ distanceM: good.distanceM.map((d) => 1 + d) })).toMatchObject({
      refusal: { code: "profile-not-rising", point: 0 },
    });
    expect(refusal({ zone: good.zone!.map(() => 4) })).toMatchObject({
      refusal: { code: "profile-zone-unknown", point: 0 },
    });
    expect(refusal({ zone: good.zone!.slice(1) })).toMatchObject({ refusal: { code: "profile-not-rising" } });
    expect(refusal({ lapseNPerKm: -40 })).toMatchObject({ refusal: { input: "lapseNPerKm" } });
    expect(refusal({ lapseNPerKm: 157 })).toMatchObject({ refusal: { input: "lapseNPerKm" } });
    expect(refusal({ antennaTM: 0 })).toMatchObject({
      refusal: { input: "antennaTM", wanted: "above-zero" },
    });
    for (const p of [0, 0.0009, 50.1, Number.NaN]) {
      expect(clearAirLosses(g, radio, [20, p])).toMatchObject({
        refusal: { code: "input-outside", input: "timePercent" },
      });
    }
    expect(clearAirLosses(g, { ...radio, frequencyHz: -1 }, [20])).toMatchObject({
      refusal: { input: "frequencyHz" },
    });
  });

  it("is remarked: rain scatter always, the frequency above 50 GHz", () => {
    expect(clearAirLosses(g, radio, [20])).toMatchObject({
      validity: [{ code: "rain-scatter-not-considered" }],
    });
    expect(clearAirLosses(g, { ...radio, frequencyHz: 80e9 }, [20])).toMatchObject({
      validity: [{ code: "outside-range", quantity: "frequency" }, { code: "rain-scatter-not-considered" }],
    });
  });

  it("stays in the numbers where losses exceed 1700 dB", () => {
    const far = byId.get("coast-146km-cover")!;
    const losses = lossesOf(far, geometryOf(pathOf(far)), 60, "H", [0.001, 20, 50]);
    expect(allFinite(losses)).toBe(true);
    expect(losses.losses[0]!.LbDb).toBeGreaterThan(1700);
  });

  it("a path without zones is inland, its coast 500 km away", () => {
    const plain = geometryOf({ ...good, zone: undefined, coastTM: undefined, coastRM: undefined });
    expect(plain).toEqual(geometryOf(good));
  });
});
