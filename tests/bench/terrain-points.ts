/**
 * Profile points a second on one core over one 3 arc second tile, made up on the spot.
 * Run: npm exec -- esbuild tests/bench/terrain-points.ts --bundle --platform=node --format=esm --external:geotiff
 *   --external:proj4 --outfile=out/terrain-points.mjs && node out/terrain-points.mjs
 * With a path to an .hgt file as argument it takes that tile.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { openTerrain } from "../../server/terrain/store.js";
import { decodeHgtRows, hgtPlacement, hgtSamplesOfSize, hgtTileOfName } from "../../shared/terrain/hgt.js";
import { fillFromRaster, UNCOVERED } from "../../shared/terrain/sample.js";
import { encodeHgt } from "../terrain/encode-hgt.js";

const PATHS = 2_000;
const ROUNDS = 7;

const folder = mkdtempSync(join(tmpdir(), "hopwright-bench-"));
try {
  const given = process.argv[2];
  const name = given ? basename(given) : "N42E001.hgt";
  const tile = hgtTileOfName(name)!;
  const hills = (lat: number, lon: number) => 900 + 700 * Math.sin(lat * 60) * Math.cos(lon * 45);
  const bytes = given ? new Uint8Array(readFileSync(given)) : encodeHgt(tile, 1201, hills);
  writeFileSync(join(folder, name), bytes);
  console.log(`Node ${process.version}, ${process.arch}, tile ${name}`);

  // Sampling alone: coordinates given, as a raster tool would measure it.
  const samples = hgtSamplesOfSize(bytes.length)!;
  const raster = {
    width: samples,
    height: samples,
    heightsM: decodeHgtRows(bytes),
    placement: hgtPlacement(tile, samples),
  };
  const count = 1_000_000;
  const random = randomNumbers(1);
  const x = Float64Array.from({ length: count }, () => tile.westDeg + random());
  const y = Float64Array.from({ length: count }, () => tile.southDeg + random());
  const heightM = new Float64Array(count);
  const origin = new Int16Array(count);
  best("bilinear, random points", count, () => {
    origin.fill(UNCOVERED);
    fillFromRaster(raster, { count, x, y, heightM, origin }, 0);
  });

  // Whole profiles: positions along the geodesic, heights, gaps, sources.
  const store = await openTerrain([folder]);
  const ends = Array.from({ length: PATHS }, () => {
    const from = {
      latitudeDeg: tile.southDeg + 0.1 + 0.5 * random(),
      longitudeDeg: tile.westDeg + 0.1 + 0.4 * random(),
    };
    const angle = 2 * Math.PI * random();
    const reach = 0.08 + 0.22 * random();
    const to = {
      latitudeDeg: Math.min(
        tile.southDeg + 0.99,
        Math.max(tile.southDeg + 0.01, from.latitudeDeg + reach * Math.sin(angle)),
      ),
      longitudeDeg: Math.min(
        tile.westDeg + 0.99,
        Math.max(tile.westDeg + 0.01, from.longitudeDeg + reach * Math.cos(angle)),
      ),
    };
    return { from, to };
  });
  await store.profile(ends[0]!.from, ends[0]!.to);
  for (const stepM of [undefined, 30, 10]) {
    let points = 0;
    for (const { from, to } of ends) points += store.profileSync(from, to, { stepM })!.heightM.length;
    best(
      `whole profiles, step ${stepM ?? "matched"}${stepM ? " m" : ""} (${Math.round(points / PATHS)} points each)`,
      points,
      () => {
        for (const { from, to } of ends) store.profileSync(from, to, { stepM });
      },
    );
  }
  console.log(store.stats());
} finally {
  rmSync(folder, { recursive: true, force: true });
}

function best(label: string, points: number, run: () => void): void {
  let shortestMs = Infinity;
  for (let i = 0; i < ROUNDS; i++) {
    const start = performance.now();
    run();
    shortestMs = Math.min(shortestMs, performance.now() - start);
  }
  console.log(`${label}: ${(points / shortestMs / 1e3).toFixed(1)} million points/s`);
}

/** Seeded, so that runs compare (mulberry32). */
function randomNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
