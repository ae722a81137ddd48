/**
 * Microseconds a hop: occurrence factor, annual conversion and rain law once, then outage at eight margins, multipath
 * of month and year and rain. Both directions share all but the frequency: a hop counts both.
 * Run: npm exec -- esbuild tests/bench/p530.ts --bundle --platform=node --format=esm --outfile=.cache/bench-p530.mjs
 *   npm exec -- node .cache/bench-p530.mjs
 */
import { annualConversion, annualFadeDistribution } from "../../shared/propagation/p530/annual.js";
import { fadeDistribution, fadeExceededPercent } from "../../shared/propagation/p530/fade-distribution.js";
import { multipathOccurrence } from "../../shared/propagation/p530/multipath.js";
import { rainLaw, rainTimeForMargin } from "../../shared/propagation/p530/rain.js";

const MODES = 8;

function direction(index: number, frequencyHz: number): number {
  const distanceM = 3000 + (index % 97) * 500;
  const ends = { antenna1AslM: 250 + (index % 13) * 5, antenna2AslM: 240 + (index % 7) * 9 };
  const multipath = multipathOccurrence({
    logK: -4.2,
    dN75: 12,
    distanceM,
    frequencyHz,
    meanTerrainAslM: 60,
    ...ends,
  });
  const inclinationMrad = (Math.abs(ends.antenna1AslM - ends.antenna2AslM) / distanceM) * 1000;
  const conversion = annualConversion({ latitudeDeg: 47, distanceM, inclinationMrad });
  const rain = rainLaw({ rainRate001MmH: 32, kCoefficient: 0.08, alpha: 1, distanceM, frequencyHz });
  if (!multipath.ok || !conversion.ok || !rain.ok) return 0;
  const month = fadeDistribution(multipath.occurrencePercent);
  const year = annualFadeDistribution(multipath.occurrencePercent, conversion.conversionDb);
  let sum = 0;
  for (let mode = 0; mode < MODES; mode++) {
    const marginDb = 45 - 4 * mode + (index % 5);
    sum += fadeExceededPercent(month, marginDb) + fadeExceededPercent(year, marginDb);
    sum += rainTimeForMargin(rain.law, marginDb, "estimate").timePercent;
  }
  return sum;
}

let sink = 0;
for (const hops of [10_000, 100, 1000, 10_000]) {
  const times: number[] = [];
  for (let run = 0; run < 15; run++) {
    const start = performance.now();
    for (let index = 0; index < hops; index++) sink += direction(index, 18.2e9) + direction(index, 19.2e9);
    times.push(performance.now() - start);
  }
  times.sort((a, b) => a - b);
  const each = (percentile: number) =>
    ((1000 * times[Math.floor(percentile * (times.length - 1))]!) / hops).toFixed(2);
  console.log(`${hops} hops, ${MODES} modes, both directions: p50 ${each(0.5)} us a hop, p95 ${each(0.95)}`);
}
console.log(`Node ${process.version}, checksum ${sink.toExponential(6)}`);
