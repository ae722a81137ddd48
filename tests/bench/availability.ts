/**
 * Milliseconds for the full availability of 10,000 hops, 8 modes, both directions, no profile and no clearance:
 * losses, fading of every cause, totals, capacity, equipment. One core's processor time; the bound is 2 s.
 */
import type { Hop } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import { ANTENNA, CLIMATE, end, KELD, makeHop, QAM128, R18, TARN, TRUNK } from "../evaluate/builders.js";

const HOPS = 10_000;
const MODES = ["QPSK", "16QAM", "32QAM", "64QAM", "128QAM", "256QAM", "512QAM", "1024QAM"].map(
  (modulation, i) => ({
    ...QAM128,
    modulation,
    bitRateBps: (i + 1) * 60e6,
    transmitPowerDbm: 24 - i,
    thresholdDbm: -86 + 3 * i,
    signature: { widthHz: 30e6, depthDb: 22 - i, referenceDelayNs: 6.3 },
  }),
);
const antenna = { ...ANTENNA, gain: [{ gainDbi: 42 }], crossPolarDiscriminationDb: 32 };

/** Three points: the mean terrain that the multipath method asks for, and nothing to scan. */
function ground(lengthM: number): GroundInput {
  const profile = {
    distanceM: Float64Array.of(0, lengthM / 2, lengthM),
    heightM: Float64Array.of(150, 140, 150),
    stepM: lengthM / 2,
    gaps: [],
    sources: [],
  };
  return { profile, groundM: [150, 150], profileKind: "terrain" };
}

function network(arrangement: string, climate: object): [Hop, GroundInput][] {
  return Array.from({ length: HOPS }, (_, i) => {
    const far = {
      ...TARN,
      name: `T${i}`,
      position: { latitudeDeg: 47.6 + (i % 100) / 1000, longitudeDeg: -30.3 - i / 1e5 },
    };
    const diversity = { antenna, diversityAntenna: antenna, diversityHeightM: 40 };
    const hop = makeHop({
      name: `H${i}`,
      arrangement: { name: arrangement },
      radio: { ...R18, modes: MODES, mtbfHours: 4e5, hysteresisDb: 2 },
      modes: MODES,
      repairHours: 12,
      climate: { ...CLIMATE, ...climate },
      objective: { ...TRUNK, clearance: [] },
      ends: [
        end(KELD, "high", { ...diversity, antennaHeightM: 50 + (i % 13) }),
        end(far, "low", { ...diversity, antennaHeightM: 55 + (i % 40) }),
      ],
    });
    const lengthM = evaluateHop(hop, { groundM: [150, 150], profileKind: "terrain" }).distanceM!;
    return [hop, ground(lengthM)] as const;
  }) as [Hop, GroundInput][];
}

const CASES = [
  ["1+0", {}],
  ["2+0 xpic", {}],
  ["1+1 space-diversity", {}],
  ["1+0", { rainHeightM: 900, rainProbabilityPercent: 4 }],
] as const;

for (const [arrangement, climate] of CASES) {
  const hops = network(arrangement, climate);
  const times: number[] = [];
  let sum = 0;
  for (let round = 0; round < 5; round++) {
    const { user, system } = process.cpuUsage();
    for (const [hop, at] of hops) sum += evaluateHop(hop, at).availability!.availabilityPercent;
    const after = process.cpuUsage();
    times.push((after.user + after.system - user - system) / 1000);
  }
  times.sort((a, b) => a - b);
  const what = `${arrangement}${"rainHeightM" in climate ? " with wet snow" : ""}`;
  console.log(
    `${what}: ${times[2]!.toFixed(0)} ms for ${HOPS} hops (best ${times[0]!.toFixed(0)}); checksum ${sum.toFixed(3)}`,
  );
}
console.log(`Node ${process.version}`);
