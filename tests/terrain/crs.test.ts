import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { CRS_ROWS } from "../../shared/terrain/crs.data.js";
import { type Crs, crsOfEpsg, crsOfWkt } from "../../shared/terrain/crs.js";
import { pathPoints } from "../../shared/terrain/path.js";
import { projectionOf, projectPath } from "../../shared/terrain/projection.js";

const vectors = JSON.parse(
  readFileSync(new URL("../vectors/terrain/crs-points.json", import.meta.url), "utf8"),
);
type Point = { lat: number; lon: number; x: number; y: number };

describe("coordinate systems against PROJ 9.1.1", () => {
  for (const row of vectors.rows) {
    it(`EPSG:${row.epsg}`, () => {
      const crs = crsOfEpsg(row.epsg)!;
      const definedM = crs.degrees ? 3e-8 : 0.002;
      compare(crs, row.points, row.otherOperation ? crs.accuracyM! : definedM);
      if (row.byDefinition) compare(crs, row.byDefinition, 0.002);
    });
  }

  it("checks every row of the table", () => {
    const checked = new Set(vectors.rows.map((r: { epsg: number }) => r.epsg));
    expect(CRS_ROWS.filter((r) => !checked.has(r.code)).map((r) => r.code)).toEqual([]);
  });

  it("knows no other code", () => {
    for (const code of [0, 32600, 32661, 32700, 32761, 25839, 4267, 4230, 32767]) {
      expect(crsOfEpsg(code)).toBeUndefined();
    }
  });
});

function compare(crs: Crs, points: Point[], tolerance: number): void {
  const projection = projectionOf(crs);
  for (const p of points) {
    const [x, y] = projection.forward(p.lon, p.lat);
    expect(Math.hypot(x - p.x, y - p.y), `${crs.name} at ${p.lat}, ${p.lon}`).toBeLessThanOrEqual(tolerance);
    const [lon, lat] = projection.inverse(x, y);
    expect(Math.hypot(lon - p.lon, lat - p.lat)).toBeLessThan(3e-8);
  }
}

describe("projected paths", () => {
  const PLACES: [number, number, number][] = [
    [32632, 47.2, 11.8],
    [2056, 46.8, 8.2],
    [3035, 60, 25],
    [3857, 70, 20],
    [3857, 79.5, 20],
    [2154, 43, -1],
    [3413, 79, 16],
    [27700, 57, -5],
    [2193, -45, 168.7],
  ];
  for (const [code, lat, lon] of PLACES) {
    it(`EPSG:${code} at ${lat}: chords stay within 0.02 m of projecting each point`, () => {
      const crs = crsOfEpsg(code)!;
      const projection = projectionOf(crs);
      for (const [dLat, dLon] of [
        [0, 0.6],
        [0.3, 0],
        [0.2, -0.4],
      ] as const) {
        const from = { latitudeDeg: lat, longitudeDeg: lon };
        const to = { latitudeDeg: lat + dLat, longitudeDeg: lon + dLon };
        const path = pathPoints(from, to, 900);
        const { count, longitudeDeg, latitudeDeg } = path;
        const x = new Float64Array(count);
        const y = new Float64Array(count);
        projectPath(projection, count, path.lengthM / 900, longitudeDeg, latitudeDeg, x, y);
        let worstM = 0;
        for (let i = 0; i < count; i++) {
          const [px, py] = projection.forward(longitudeDeg[i]!, latitudeDeg[i]!);
          // Mercator metres are longer than metres on the ground.
          const scale = code === 3857 ? Math.cos((lat * Math.PI) / 180) : 1;
          worstM = Math.max(worstM, Math.hypot(px - x[i]!, py - y[i]!) * scale);
        }
        expect(worstM).toBeLessThan(0.02);
      }
    });
  }
});

describe("WKT of .prj files", () => {
  const GEOGRAPHIC = (datum: string) =>
    `GEOGCS["G",DATUM["${datum}",SPHEROID["Bessel_1841",6377397.155,299.1528128]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]]`;

  it("reads a projected system as its EPSG twin", () => {
    const wkt =
      'PROJCS["WGS_1984_UTM_Zone_32N",GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["False_Easting",500000.0],PARAMETER["False_Northing",0.0],PARAMETER["Central_Meridian",9.0],PARAMETER["Scale_Factor",0.9996],PARAMETER["Latitude_Of_Origin",0.0],UNIT["Meter",1.0]]';
    const row = vectors.rows.find((r: { epsg: number }) => r.epsg === 32632);
    compare(crsOfWkt(wkt), row.points, 0.002);
  });

  it("gives a national datum its shift", () => {
    const wkt = `PROJCS["DHDN_3_Degree_Gauss_Zone_3",${GEOGRAPHIC("D_Deutsches_Hauptdreiecksnetz")},PROJECTION["Gauss_Kruger"],PARAMETER["False_Easting",3500000.0],PARAMETER["False_Northing",0.0],PARAMETER["Central_Meridian",9.0],PARAMETER["Scale_Factor",1.0],PARAMETER["Latitude_Of_Origin",0.0],UNIT["Meter",1.0]]`;
    const row = vectors.rows.find((r: { epsg: number }) => r.epsg === 31467);
    compare(crsOfWkt(wkt), row.byDefinition, 0.01);
  });

  it("takes the EPSG code that a WKT names", () => {
    expect(crsOfWkt(`${GEOGRAPHIC("D_WGS_1984").slice(0, -1)},AUTHORITY["EPSG","4326"]]`).name).toBe(
      "EPSG:4326",
    );
  });

  it("refuses a datum whose shift it does not know, rather than being off by hundreds of metres", () => {
    expect(() => crsOfWkt(GEOGRAPHIC("D_North_American_1927"))).toThrow(/North_American_1927.*not known/);
    expect(() => crsOfWkt("")).toThrow(/no WKT/);
    expect(() => crsOfWkt('GEOCCS["x"]')).toThrow(/no WKT/);
  });
});
