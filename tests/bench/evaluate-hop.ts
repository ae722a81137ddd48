/**
 * Microseconds for evaluating and judging a hop: 333 profile points, 8 modes, both directions.
 * Processor time, so that a busy machine does not show; it counts the collector's threads too.
 * Run: npm exec -- esbuild tests/bench/evaluate-hop.ts --bundle --platform=node --format=esm --outfile=.cache/bench-hop.mjs
 *   npm exec -- node .cache/bench-hop.mjs
 */
import type { Hop } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { end, groundOf, KELD, makeHop, QAM128, R18, TARN, TRUNK } from "../evaluate/builders.js";

const MODES = ["QPSK", "16QAM", "32QAM", "64QAM", "128QAM", "256QAM", "512QAM", "1024QAM"].map(
  (modulation, i) => ({
    ...QAM128,
    modulation,
    bitRateBps: (i + 1) * 60e6,
    transmitPowerDbm: 24 - i,
    thresholdDbm: -86 + 3 * i,
  }),
);

const HOPS = 10_000;
const objective = {
  ...TRUNK,
  clearance: [
    { fresnelFraction: 1, kFactor: 1.33 },
    { fresnelFraction: 0.6, kFactor: 0.7 },
  ],
};
const hops: Hop[] = Array.from({ length: HOPS }, (_, i) => {
  const far = {
    ...TARN,
    name: `T${i}`,
    position: { latitudeDeg: 47.6 + (i % 100) / 1000, longitudeDeg: -30.3 - i / 1e5 },
  };
  return makeHop({
    name: `H${i}`,
    radio: { ...R18, modes: MODES },
    modes: MODES,
    objective,
    ends: [end(KELD, "high", { antennaHeightM: 50 }), end(far, "low", { antennaHeightM: 50 + (i % 40) })],
  });
});
const heights = Array.from({ length: 333 }, (_, i) => 150 + 30 * Math.sin(i / 9) + (i % 7));

for (const blocked of [false, true]) {
  const grounds = hops.map((hop) => {
    const lengthM = evaluateHop(hop, { groundM: [200, 200], profileKind: "terrain" }).distanceM!;
    return groundOf(blocked ? heights.map((height) => height + 80) : heights, lengthM);
  });
  for (let round = 0; round < 3; round++) {
    const start = processorMs();
    const results = hops.map((hop, i) => evaluateHop(hop, grounds[i]!));
    const evaluated = processorMs();
    let findings = 0;
    for (const [i, hop] of hops.entries()) findings += judgeHop(hop, results[i]!, "2026-01-01").length;
    const judged = processorMs();
    const design = { terrain: [], sites: new Map(), hops: new Map(hops.map((hop) => [hop.name, hop])) };
    const byName = new Map(results.map((result) => [result.hop, result]));
    const before = processorMs();
    judgeNetwork(design, byName, "2026-01-01");
    const after = processorMs();
    const each = (ms: number) => ((1000 * ms) / HOPS).toFixed(1);
    console.log(
      `${blocked ? "blocked" : "clear"}: evaluate ${each(evaluated - start)} us, judge ${each(judged - evaluated)} us a hop; ` +
        `network ${(after - before).toFixed(1)} ms for ${HOPS} hops; ${findings} findings; Node ${process.version}`,
    );
  }
}

function processorMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
