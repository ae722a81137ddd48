import { expect, test } from "vitest";
import { antennaGain, parabolicGainDbi } from "../../shared/radio/antenna-gain.js";
import { ARRANGEMENTS, arrangementByName } from "../../shared/radio/arrangements.js";
import { feederLossPerM } from "../../shared/radio/feeder-loss.js";
import { modeThreshold, noisePowerDbm, shannonSnrDb, symbolRateHz } from "../../shared/radio/threshold.js";
import { loadVectors, testRows } from "../support/vectors.js";
import { QAM128 } from "./builders.js";

interface Thresholds {
  readonly source: string;
  readonly noiseFloor: readonly { bandwidthMHz: number; noiseFigureDb: number; noiseDbm: number }[];
  readonly requiredSnrDb: Readonly<Record<string, number>>;
  readonly bands: readonly {
    noiseFigureDb: number;
    channels: readonly {
      channelMHz: number;
      noiseDbm: number;
      symbolRateMHz: number;
      thresholdDbm: Readonly<Record<string, number>>;
    }[];
  }[];
}

const THRESHOLDS = loadVectors<Thresholds>("evaluate/thresholds.json");

testRows("noise floor", THRESHOLDS.source, THRESHOLDS.noiseFloor, (row, is) => {
  is.close("noise", noisePowerDbm(row.bandwidthMHz * 1e6, row.noiseFigureDb), row.noiseDbm, {
    absolute: 5e-5,
  });
});

const MODES = THRESHOLDS.bands.flatMap(({ noiseFigureDb, channels }) =>
  channels.flatMap(({ channelMHz, thresholdDbm, symbolRateMHz }) =>
    Object.entries(thresholdDbm).map(([modulation, expectedDbm]) => ({
      noiseFigureDb,
      channelMHz,
      symbolRateMHz,
      modulation,
      expectedDbm,
      snrDb: THRESHOLDS.requiredSnrDb[modulation]!,
    })),
  ),
);

testRows("thresholds from noise figure and required SNR", THRESHOLDS.source, MODES, (row, is) => {
  const mode = { modulation: row.modulation, bandwidthHz: row.channelMHz * 1e6, requiredSnrDb: row.snrDb };
  const found = modeThreshold(mode, row.noiseFigureDb)!;
  // Printed to 0.1 dB, the SNR to 0.01 dB.
  is.close("threshold", found.thresholdDbm, row.expectedDbm, { absolute: 0.056 });
  is.close("symbol rate", symbolRateHz(row.channelMHz * 1e6) / 1e6, row.symbolRateMHz, { absolute: 5.1e-4 });
  is.same("origin", found.from, "noise figure and required SNR");
});

test("the catalogue's threshold goes before a computed one; without either there is none", () => {
  expect(modeThreshold({ ...QAM128, requiredSnrDb: 22 }, 6.5)).toEqual({
    thresholdDbm: -69,
    from: "catalogue",
  });
  expect(modeThreshold({ modulation: "QPSK", bandwidthHz: 55e6 }, 6.5)).toBeUndefined();
});

test("Shannon's limit at one and two bits per second and hertz", () => {
  expect(shannonSnrDb(1, 1)).toBeCloseTo(0, 12); // 2^1 - 1 = 1
  expect(shannonSnrDb(2, 1)).toBeCloseTo(4.7712, 4); // 10 log 3
  // A rate and a width in the wrong units: 10 log(2^5000), and 10 log(ln 2 / 10^20).
  expect(shannonSnrDb(5000, 1)).toBeCloseTo(15051.5, 1);
  expect(shannonSnrDb(1, 1e20)).toBeCloseTo(-201.592, 3);
});

const GAIN = loadVectors<{
  source: string;
  rows: { diameterM: number; frequencyGHz: number; efficiency: number; gainDbi: number }[];
}>("evaluate/parabolic-gain.json");

testRows("gain of a parabolic antenna", GAIN.source, GAIN.rows, (row, is) => {
  const gainDbi = parabolicGainDbi(row.diameterM, row.frequencyGHz * 1e9, row.efficiency);
  is.close("gain", gainDbi, row.gainDbi, { absolute: 5.1e-5 });
});

test("gain is linear in log frequency between two points and held outside, which is said", () => {
  const antenna = {
    name: "A",
    gain: [
      { gainDbi: 36, frequencyHz: 10e9 },
      { gainDbi: 42, frequencyHz: 20e9 },
    ],
    pattern: [],
  };
  // Geometric middle: half of the 6 dB.
  expect(antennaGain(antenna, Math.sqrt(200) * 1e9)!.gainDbi).toBeCloseTo(39, 9);
  expect(antennaGain(antenna, 20e9)).toEqual({ gainDbi: 42, origin: "catalogue" });
  expect(antennaGain(antenna, 25e9)).toMatchObject({
    gainDbi: 42,
    ofNearestPoint: true,
  });
  expect(antennaGain({ name: "B", gain: [], diameterM: 0.6, pattern: [] }, 18.7e9)).toMatchObject({
    origin: "estimate",
    gainDbi: expect.closeTo(38.8101, 4), // vector row: 0.6 m, 18.7 GHz, 55 %
  });
  expect(antennaGain({ name: "C", gain: [], pattern: [] }, 18.7e9)).toBeUndefined();
});

test("feeder loss is linear in log-log between two points and not extrapolated", () => {
  const feeder = {
    name: "F",
    loss: [
      { lossDbPerM: 0.1, frequencyHz: 10e9 },
      { lossDbPerM: 0.4, frequencyHz: 40e9 },
    ],
  };
  // Slope 1 in log-log: 0.2 dB/m at 20 GHz.
  expect(feederLossPerM(feeder, 20e9)!.lossDbPerM).toBeCloseTo(0.2, 12);
  expect(feederLossPerM(feeder, 60e9)).toMatchObject({ lossDbPerM: 0.4, ofNearestPoint: true });
  expect(feederLossPerM({ name: "G", loss: [] }, 20e9)).toBeUndefined();
});

test("each arrangement is found by its words, and units on one antenna have a coupler", () => {
  for (const facts of ARRANGEMENTS) {
    expect(arrangementByName(facts.name)).toBe(facts);
    // An all-indoor branching network belongs to the radio; its hot standby has a relay and a splitter.
    const joined =
      facts.transceivers > facts.antennas &&
      (facts.construction !== "all-indoor" || facts.protection === "hot-standby");
    expect(facts.coupler !== undefined, facts.name).toBe(joined);
  }
});
