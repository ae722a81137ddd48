/** A transmitter of others behind a ridge, the profile handed in: what shields it, and what is read again at a closer step. */
import { expect, test } from "vitest";
import { antennaView } from "../../shared/interference/antenna-view.js";
import { InterferenceNetwork, type NetworkState } from "../../shared/interference/network.js";
import type { Receiver, Sender } from "../../shared/interference/station.js";
import type { TerrainProfile } from "../../shared/terrain/profile.js";
import { paths } from "../propagation/p452-support.js";
import type { ProfileOf } from "../support/interference.js";
import { dB, leastLossDb, noiseDbm, power, raisedDb } from "../support/interference-by-hand.js";
import { loadVectors } from "../support/vectors.js";

const HZ = 18e9;
const SENDER_AT = { latitudeDeg: 45, longitudeDeg: 5 };
const shape = { kind: "raised-cosine", symbolRateHz: 48e6, rollOff: 0.15 } as const;

/** No pattern is known of it: 30 dBi all around. */
const antenna = antennaView({ pattern: [], gainDbi: 30 }, 0.5e9, "F.1245");

function network(
  profileOf: ProfileOf,
  over: { readonly from: number; readonly to: number; readonly farDeg: number; readonly eirpDbm?: number },
  terms: NetworkState["terms"] = { lapseNPerKm: 43, surfaceRefractivity: 325, shortTermPercent: 0.01 },
) {
  const common = { frequencyHz: HZ, polarization: "horizontal", bandwidthHz: 55e6, antenna } as const;
  const sender: Sender = {
    ...common,
    key: "0/0",
    of: { list: 0, line: 2 },
    place: { position: SENDER_AT, antennaM: over.from },
    eirpDbm: over.eirpDbm ?? 60,
    reductionDb: 0,
    spectrum: shape,
  };
  const receiver: Receiver = {
    ...common,
    key: "A-B B",
    of: { hop: "A-B" },
    place: { site: "B", position: { latitudeDeg: over.farDeg, longitudeDeg: 5 }, antennaM: over.to },
    lossDb: 1,
    noiseDbm: noiseDbm(55.2e6, 6),
    selectivity: shape,
  };
  const made = new InterferenceNetwork();
  const running = made.update({
    hops: new Map([["A-B", { senders: [], receivers: [receiver] }]]),
    foreign: { senders: [sender], receivers: [] },
    terms,
    couplings: new Map(),
  });
  let step = running.next();
  while (!step.done) step = running.next(step.value && profileOf(step.value));
  return made.of("A-B")[0]!;
}

function profile(distanceM: readonly number[], heightM: readonly number[]): TerrainProfile {
  return {
    distanceM: Float64Array.from(distanceM),
    heightM: Float64Array.from(heightM),
    stepM: distanceM[1]!,
    gaps: [],
    sources: [],
  };
}

test("over the path of the vectors whose first point is the horizon, both percentages", () => {
  const vector = paths.paths.find(({ id }) => id === "first-point-horizon")!;
  const table = loadVectors<{
    frequencyGHz: number[];
    pPct: number[];
    tables: { path: string; polarization: string; LbDb: number[][] }[];
  }>("propagation/p452-table.json");
  const rows = table.tables.find(({ path }) => path === vector.id)!.LbDb[table.frequencyGHz.indexOf(18)]!;
  const lossAt = (percent: number) => rows[table.pPct.indexOf(percent)]!;
  const ground = profile(
    vector.distanceKm.map((km) => 1000 * km),
    vector.terrainM,
  );
  const at = network(() => ground, {
    from: vector.antennaAboveGround1M,
    to: vector.antennaAboveGround2M,
    farDeg: 2 * vector.pathCentreLatDeg - 45,
  });
  const [entry] = at.entries;
  const { path } = entry!;
  expect(path.transHorizon).toBe(true);
  // The vectors have 1013.25 hPa, interference 1013: some 0.0001 dB.
  expect(path.longTermLossDb).toBeCloseTo(lossAt(20), 3);
  expect(path.shortTermLossDb).toBeCloseTo(lossAt(0.01), 3);
  expect(path.leaves!.elevationDeg).toBeCloseTo((11.9851796174e-3 * 180) / Math.PI, 6);
  // Above the least loss of any terrain, whose gas at 3 g/m3 over 10 km is 0.3 dB.
  const gasDb = 0.03 * 10;
  expect(path.longTermShieldDb).toBeCloseTo(lossAt(20) - leastLossDb(10_000, HZ) - gasDb, 0);
  expect(path.shortTermShieldDb).toBeCloseTo(lossAt(0.01) - leastLossDb(10_000, HZ, 0.01) - gasDb, 0);
  const levelDbm = 60 + 30 - 1 - lossAt(20);
  expect(entry!.discriminationDb).toBe(0);
  expect(entry!.levelDbm).toBeCloseTo(levelDbm, 3);
  expect(entry!.toNoiseDb).toBeCloseTo(levelDbm - entry!.filterDb! - noiseDbm(55.2e6, 6), 3);
  expect(at.singleDegradationDb).toBeCloseTo(raisedDb(entry!.toNoiseDb), 9);
});

/** 20 km of level ground at 100 m, antennas at 130 m, a ridge of 200 m in the middle that a coarse step passes by. */
const LENGTH_M = 20_000;
const ridge: ProfileOf = ({ stepM = 50 }) => {
  const count = LENGTH_M / stepM;
  const distanceM = Array.from({ length: count + 1 }, (_, i) => i * stepM);
  return profile(
    distanceM,
    distanceM.map((d) => (Math.abs(d - 10_050) < 1 ? 200 : 100)),
  );
};
const farDeg = 45 + LENGTH_M / 111_136;

test("a single ridge by the knife edge of its height above the ray, over the effective Earth", () => {
  const [entry] = network(({ from, to }) => ridge({ from, to }), { from: 30, to: 30, farDeg }).entries;
  // k = 157/(157 - 43); the Earth bulges by d1 d2/(2 k R) and the ray lies 130 m high.
  const [d1, d2] = [10_050, 9_950];
  const bulgeM = (d1 * d2) / ((2 * 157 * 6_371_000) / (157 - 43));
  const v = (200 + bulgeM - 130) * Math.sqrt((2 * LENGTH_M) / ((299_792_458 / HZ) * d1 * d2));
  const edgeDb = 6.9 + dB((Math.sqrt((v - 0.1) ** 2 + 1) + v - 0.1) ** 2);
  // Bullington's correction, 10 + 0.02 d; the smooth Earth far below takes nothing.
  const shieldDb = edgeDb + (1 - Math.exp(-edgeDb / 6)) * (10 + 0.02 * 20);
  const freeDb = 92.4 + 20 * Math.log10(18 * 20) + 0.05 * 20;
  const medianDb = freeDb + shieldDb;
  // For 20 % the Earth is flatter a part of the time: up to 3 dB less.
  expect(entry!.path.longTermLossDb).toBeLessThan(medianDb + 0.5);
  expect(entry!.path.longTermLossDb).toBeGreaterThan(medianDb - 3);
  expect(entry!.path.longTermShieldDb).toBeGreaterThan(shieldDb - 3);
});

test("what a coarse step passes by is found by the raster's own, where a verdict rests on it", () => {
  const asked: (number | undefined)[] = [];
  const at = network(
    (one) => {
      asked.push(one.stepM);
      return ridge(one);
    },
    { from: 30, to: 30, farDeg },
  );
  // In the open, as the coarse profile has it, it would cost tens of dB.
  expect(asked).toEqual([250, undefined]);
  expect(at.entries[0]!.path.step).toBe("own");
  expect(at.entries[0]!.path.longTermShieldDb).toBeGreaterThan(30);
});

test("where no verdict can rest on it the coarse one stays", () => {
  const asked: (number | undefined)[] = [];
  const leave: ProfileOf = (one) => {
    asked.push(one.stepM);
    return ridge(one);
  };
  // I/N in the open about -20 dB, far below the 1 dB of degradation, -5.9 dB, that is usual.
  const open = network(leave, { from: 30, to: 30, farDeg, eirpDbm: 0 }).entries[0]!;
  expect(power(open.toNoiseDb)).toBeLessThan(0.2);
  expect(open.path.step).toBe("coarse");
  expect(asked).toEqual([250]);
});
