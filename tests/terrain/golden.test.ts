/**
 * Profiles over real terrain against figures from outside the project. The paths run in every clone, over strips of the
 * rasters; the rasters themselves, and how they are encoded, only where they are.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { openTerrain } from "../../server/terrain/store.js";
import { pathPoints } from "../../shared/terrain/path.js";
import { stripsOf, stripsText, terrainFolders, wholeTerrain } from "../support/real-terrain.js";
import { openRaster } from "./support.js";

const read = (name: string) =>
  JSON.parse(readFileSync(new URL(`../vectors/terrain/${name}`, import.meta.url), "utf8"));
const profiles = read("profiles.json");
const contents = read("contents.json");
const TOLERANCE = profiles.conventions.tolerances;
it.runIf(wholeTerrain)("the strips are the rasters' figures along the paths", async () => {
  const { files: _files, ...about } = read("strips.json");
  const text = stripsText(about, await stripsOf(wholeTerrain!, profiles.paths));
  await expect(text).toMatchFileSnapshot("../vectors/terrain/strips.json");
});

describe.each(terrainFolders())("%s: golden profiles", (_, folder) => {
  for (const path of profiles.paths) {
    it(`${path.id}: ${path.name}`, async () => {
      const store = await openTerrain(path.rasters, { baseDir: folder });
      expect(store.problems).toEqual([]);
      const from = { latitudeDeg: path.lat1, longitudeDeg: path.lon1 };
      const to = { latitudeDeg: path.lat2, longitudeDeg: path.lon2 };
      expect(store.profileSync(from, to, { stepM: path.nominalStepM })).toBeUndefined();
      const profile = await store.profile(from, to, { stepM: path.nominalStepM });
      expect(store.profileSync(from, to, { stepM: path.nominalStepM })).toEqual(profile);
      expect(profile.distanceM.length - 1).toBe(path.intervals);
      expect(Math.abs(profile.distanceM.at(-1)! - path.lengthM)).toBeLessThan(TOLERANCE.distanceM);
      const wrong: string[] = [];
      path.elevationM.forEach((expected: number | null, i: number) => {
        const got = profile.heightM[i]!;
        const same = expected === null ? Number.isNaN(got) : Math.abs(got - expected) <= TOLERANCE.elevationM;
        if (!same) wrong.push(`sample ${i}: ${got}, expected ${expected}`);
      });
      expect(wrong).toEqual([]);
      const runs = profile.gaps.map((g) => [g.fromM, g.toM]);
      const expectedRuns = path.nullRuns.map((r: number[]) => r.map((i) => profile.distanceM[i]!));
      expect(joined(runs, profile.stepM)).toEqual(expectedRuns);
      expect(profile.sources.map((s) => s.file).sort()).toEqual([...path.rasterSequence].sort());

      const points = pathPoints(from, to, path.intervals);
      path.everyTenthLatLon.forEach(([lat, lon]: [number, number], k: number) => {
        expect(Math.abs(points.latitudeDeg[k * 10]! - lat)).toBeLessThan(TOLERANCE.positionDeg);
        expect(Math.abs(points.longitudeDeg[k * 10]! - lon)).toBeLessThan(TOLERANCE.positionDeg);
      });
    });
  }

  it("says what is void and what no raster covers", async () => {
    const path = profiles.paths.find((p: { id: string }) => p.id === "coverage-gap");
    const store = await openTerrain(path.rasters, { baseDir: folder });
    const profile = await store.profile(
      { latitudeDeg: path.lat1, longitudeDeg: path.lon1 },
      { latitudeDeg: path.lat2, longitudeDeg: path.lon2 },
    );
    expect(new Set(profile.gaps.map((g) => g.reason))).toEqual(new Set(["void", "uncovered"]));
    const shares = profile.sources.reduce((sum, s) => sum + s.sharePercent, 0);
    expect(shares).toBeLessThan(50);
  });
});

describe.runIf(wholeTerrain)(
  "real rasters (run only where the terrain folder is): contents of every file",
  () => {
    /** Must be refused, with this in the message. */
    const REFUSED: Record<string, RegExp> = {
      "geotiff/variants/int16-no-crs.tif": /coordinate system/,
      "geotiff/variants/int16-no-georeference.tif": /no georeference|coordinate system/,
    };
    /** Values that no declaration calls void: taken for void, and said so. */
    const UNDECLARED = {
      "geotiff/variants/int16-no-nodata-tag.tif": { voids: 198, minM: 810, sumOfValidM: 14211151 },
    };

    for (const entry of contents.files) {
      it(entry.file, async () => {
        if (REFUSED[entry.file]) {
          const store = await openTerrain([entry.file], { baseDir: wholeTerrain });
          expect(store.problems).toHaveLength(1);
          expect(store.problems[0]!.message).toMatch(REFUSED[entry.file]!);
          expect(store.problems[0]!.message).not.toContain("\n");
          return;
        }
        const { raster, header } = await openRaster(`${wholeTerrain}/${entry.file}`);
        const expected = { ...entry, ...UNDECLARED[entry.file as keyof typeof UNDECLARED] };
        expect([raster.width, raster.height]).toEqual([entry.width, entry.height]);
        let voids = 0;
        let minM = Infinity;
        let maxM = -Infinity;
        let sumM = 0;
        let firstVoid = -1;
        raster.heightsM.forEach((h, i) => {
          if (Number.isNaN(h) || h === -32768) {
            voids++;
            if (firstVoid < 0) firstVoid = i;
            return;
          }
          minM = Math.min(minM, h);
          maxM = Math.max(maxM, h);
          sumM += h;
        });
        expect(voids).toBe(expected.voids);
        // Stored fractions (0.1 m steps) are kept as 32-bit floats: 1 part in 2^24 each.
        expect(Math.abs(minM - expected.minM)).toBeLessThan(1e-3);
        expect(Math.abs(maxM - expected.maxM)).toBeLessThan(1e-3);
        expect(Math.abs(sumM - expected.sumOfValidM)).toBeLessThanOrEqual(
          Math.abs(expected.sumOfValidM) * 1e-7,
        );
        const at = (row: number, column: number) => raster.heightsM[row * raster.width + column]!;
        const cell = (value: number) => (value === -32768 || Number.isNaN(value) ? null : value);
        const corners: [string, number][] = [
          ["row0col0", at(0, 0)],
          ["row0colLast", at(0, raster.width - 1)],
          ["rowLastCol0", at(raster.height - 1, 0)],
          ["rowLastColLast", at(raster.height - 1, raster.width - 1)],
        ];
        for (const [name, got] of corners) {
          const stored = entry.heightsM[name];
          const isVoid = stored === null || stored === entry.noData || !(Math.abs(stored) < 32000);
          if (isVoid) expect(cell(got), name).toBeNull();
          else expect(Math.abs(got - stored), name).toBeLessThan(1e-3);
        }
        if (entry.firstVoid && voids > 0) {
          expect([Math.floor(firstVoid / raster.width), firstVoid % raster.width]).toEqual(entry.firstVoid);
        }
        const place = header.placement;
        const digits = header.crs.degrees ? 2e-9 : 2e-6;
        expect(Math.abs(place.x0 - entry.firstPixelCentre.x)).toBeLessThan(digits);
        expect(Math.abs(place.y0 - entry.firstPixelCentre.y)).toBeLessThan(digits);
        expect(Math.abs(place.xPerColumn - entry.pixelSize.x)).toBeLessThan(digits);
        expect(Math.abs(place.yPerRow - entry.pixelSize.y)).toBeLessThan(digits);
      });
    }
  },
);

/** Gaps of different reasons may adjoin; the golden runs are joined. */
function joined(runs: number[][], stepM: number): number[][] {
  const out: number[][] = [];
  for (const run of runs) {
    const last = out.at(-1);
    if (last && run[0]! - last[1]! < stepM * 1.5) last[1] = run[1]!;
    else out.push([...run]);
  }
  return out;
}
