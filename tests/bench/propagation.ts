/**
 * Time of the propagation basics and of points along geodesics, one core, inputs made up on the spot.
 * Run: npm exec -- esbuild tests/bench/propagation.ts --bundle --platform=node --format=esm
 *   --outfile=out/bench-propagation.mjs && npm exec -- node out/bench-propagation.mjs
 */
import { geodesicPoints, inverse } from "../../shared/geodesy/geodesic.js";
import { deltaBullington } from "../../shared/propagation/p526/index.js";
import { lineByLine, specificGasAttenuation } from "../../shared/propagation/p676.js";
import { rainCoefficients } from "../../shared/propagation/p838.js";

const POINTS = 333;
const distanceM = Float64Array.from({ length: POINTS }, (_, i) => i * 90);
const heightM = distanceM.map((d) => 200 + 80 * Math.sin(d / 3000) + 15 * Math.sin(d / 400));
const profile = { distanceM, heightM };
const latitudes = new Float64Array(POINTS);
const longitudes = new Float64Array(POINTS);
const air = { pressureHPa: 960, temperatureK: 285, waterVapourDensityGm3: 6 };

console.log(`Node ${process.version}, ${process.arch}; median of 9 rounds`);

report(
  "delta-Bullington, 333 points",
  2_000,
  (i) =>
    deltaBullington(profile, {
      // Heights that swing between clear and blocked, so that both branches are taken.
      antenna1HeightM: 220 + (i % 100),
      antenna2HeightM: 240 + (i % 70),
      effectiveRadiusM: 8_494_667,
      frequencyHz: 7e9,
      polarization: "vertical",
    }).lossDb,
);
report(
  "P.676 line by line",
  5_000,
  (i) =>
    lineByLine({
      frequencyHz: 6 + i * 0.01 * 1e9,
      dryPressureHPa: 950,
      vapourPressureHPa: 8,
      temperatureK: 285,
    }).totalDbPerKm,
);
report(
  "P.676 remembered",
  200_000,
  (i) => specificGasAttenuation({ ...air, frequencyHz: 6 + (i % 100) * 1e9 }).totalDbPerKm,
);
report(
  "P.838 coefficients",
  100_000,
  (i) => rainCoefficients({ frequencyHz: 6 + (i % 80) * 1e9, polarizationTiltDeg: 90 }).k,
);
report("geodesic inverse", 50_000, (i) => {
  const to = { latitudeDeg: 46.2 + i * 1e-6, longitudeDeg: 8.4 };
  return inverse({ from: { latitudeDeg: 46, longitudeDeg: 8 }, to }).distanceM;
});
const perPath = report("geodesic points, 333 on 38 km", 5_000, (i) => {
  const to = { latitudeDeg: 46.2 + i * 1e-6, longitudeDeg: 8.4 };
  return geodesicPoints({ latitudeDeg: 46, longitudeDeg: 8 }, to, POINTS, latitudes, longitudes);
});
console.log(`that is ${(POINTS / perPath).toFixed(1)} million points/s`);

/** Prints and returns the median time of one call, in microseconds. */
function report(name: string, calls: number, work: (i: number) => number): number {
  let sum = 0;
  const rounds = Array.from({ length: 9 }, () => {
    const start = performance.now();
    for (let i = 0; i < calls; i++) sum += work(i);
    return ((performance.now() - start) * 1000) / calls;
  }).sort((a, b) => a - b);
  const median = rounds[4]!;
  // The sum is printed so that no call can be optimized away.
  console.log(`${name}: ${median.toFixed(3)} us a call (check ${sum.toExponential(3)})`);
  return median;
}
