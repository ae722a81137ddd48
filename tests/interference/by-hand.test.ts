/** Networks worked by hand: every term written out, from the sender's power to the raised threshold. */
import { describe, expect, test } from "vitest";
import type { Entry } from "../../shared/interference/entry.js";
import type { InterferenceAt } from "../../shared/interference/receiver-result.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import {
  bearing,
  cosine,
  f699Db,
  filteredDb,
  from,
  kilometres,
  leastLossDb,
  networkOf,
  noiseDbm,
  raisedDb,
  receiverIn,
} from "../support/interference-by-hand.js";

/** Channel 4 of the low half and of the high half: 18 700 - 1000 + 4 * 55 and 18 700 + 10 + 4 * 55 MHz. */
const LOW_HZ = 17.92e9;
const HIGH_HZ = 18.93e9;
const [EIRP_DBM, GAIN_DBI, DISH_M] = [20 + 38.5, 38.5, 0.6];
/** NF 6.5 dB in 55/1.15 MHz. */
const NOISE_DBM = noiseDbm(55e6, 6.5);

type Point = readonly [number, number];

function site(name: string, [latitude, longitude]: Point): string {
  return `site ${name} { at ${latitude} ${longitude}; structure mast 60 m }\n`;
}

/** The example's hop between others; the first site sends high. */
function hop(one: string, other: string, channel = 4): string {
  return `${exampleHop().replaceAll("KELD", one).replaceAll("TARN", other).replace("/ 4", `/ ${channel}`)}\n`;
}

/** Gas in the loss, dB/km; near 18 GHz at 3 g/m3 it is some hundredths, and the same on all paths. */
function gasOf({ path }: Entry, frequencyHz: number): number {
  return (path.longTermLossDb - leastLossDb(path.distanceM, frequencyHz)) / (path.distanceM / 1000);
}

/** Every term of an entry of two of the example's radios over unknown ground, from angles that are checked before. */
function expectTerms(
  entry: Entry,
  frequencyHz: number,
  angles: readonly [leaves: number, arrives: number],
): number {
  expect(entry.leavesOffAxisDeg).toBeCloseTo(angles[0], 1);
  expect(entry.arrivesOffAxisDeg).toBeCloseTo(angles[1], 1);
  expect(entry.sender.frequencyHz).toBe(frequencyHz);
  expect(entry.sender.eirpDbm).toBeCloseTo(EIRP_DBM, 9);
  expect(entry.path.by).toBe("bound");
  const sentDb = f699Db(GAIN_DBI, DISH_M, frequencyHz, entry.leavesOffAxisDeg);
  const heardDb = f699Db(GAIN_DBI, DISH_M, frequencyHz, entry.arrivesOffAxisDeg);
  expect(entry.discriminationDb).toBeCloseTo(sentDb + heardDb, 9);
  const gasDbPerKm = gasOf(entry, frequencyHz);
  expect(gasDbPerKm).toBeGreaterThan(0.01);
  expect(gasDbPerKm).toBeLessThan(0.06);
  const lossDb = leastLossDb(entry.path.distanceM, frequencyHz) + (gasDbPerKm * entry.path.distanceM) / 1000;
  const levelDbm = EIRP_DBM - sentDb - lossDb + GAIN_DBI - heardDb;
  expect(entry.levelDbm).toBeCloseTo(levelDbm, 9);
  const filterDb = filteredDb(
    (f) => cosine(55e6, f),
    (f) => cosine(55e6, f),
    0,
  );
  expect(entry.filterDb).toBeCloseTo(filterDb, 4);
  const toNoiseDb = levelDbm - filterDb - NOISE_DBM;
  expect(entry.toNoiseDb).toBeCloseTo(toNoiseDb, 3);
  return toNoiseDb;
}

/** What remains is so little that it is not computed: it counts as it could at most be. */
function expectSum(at: InterferenceAt, toNoiseDb: readonly number[]): void {
  expect(at.entries).toHaveLength(toNoiseDb.length);
  expect(at.degradationDb).toBeCloseTo(raisedDb(...toNoiseDb, at.cutToNoiseDb), 3);
  expect(at.singleDegradationDb).toBeCloseTo(raisedDb(Math.max(...toNoiseDb)), 3);
  expect(raisedDb(at.cutToNoiseDb)).toBeLessThanOrEqual(0.05 + 1e-9);
}

const TARN: Point = [47.55, -30.4];

describe("a hub of four hops on one channel", () => {
  const ends: Readonly<Record<string, Point>> = {
    KELD: [47.5, -30.5],
    MOSS: [47.6, -30.5],
    FELL: [47.62, -30.32],
    RIGG: [47.47, -30.35],
  };
  const names = Object.keys(ends);
  const others = names.filter((name) => name !== "KELD");
  const network = networkOf(
    others.map((name) => site(name, ends[name]!)).join("") + names.map((name) => hop(name, "TARN")).join(""),
  );
  const apart = (one: string, other: string) => {
    const turn = Math.abs(bearing(TARN, ends[one]!) - bearing(TARN, ends[other]!));
    return Math.min(turn, 360 - turn);
  };

  test.each(names)("at %s the hub's three other senders come in along its own beam", (name) => {
    const at = receiverIn(network, `${name}-TARN`, name);
    expect(at.receiver.noiseDbm).toBeCloseTo(NOISE_DBM, 2);
    const terms = names
      .filter((other) => other !== name)
      .map((other) => {
        const entry = from(at, `${other}-TARN TARN`);
        expect(entry.path.distanceM / 1000).toBeCloseTo(kilometres(TARN, ends[name]!), 2);
        // Off the axis of the antenna that looks elsewhere, on that of the one which looks at the hub.
        return expectTerms(entry, LOW_HZ, [apart(name, other), 0]);
      });
    expectSum(at, terms);
  });

  test.each(names)("at the hub, toward %s, the three other ends come in aside", (name) => {
    const at = receiverIn(network, `${name}-TARN`, "TARN");
    const terms = names
      .filter((other) => other !== name)
      .map((other) => expectTerms(from(at, `${other}-TARN ${other}`), HIGH_HZ, [0, apart(name, other)]));
    expectSum(at, terms);
  });
});

describe("a chain of four with over-reach", () => {
  const chain: Readonly<Record<string, Point>> = {
    ALM: [47.4, -30.8],
    BIRK: [47.44, -30.7],
    CRAG: [47.39, -30.6],
    DALE: [47.43, -30.5],
  };
  const [ALM, BIRK, CRAG, DALE] = Object.values(chain) as [Point, Point, Point, Point];
  const network = networkOf(
    Object.entries(chain)
      .map(([name, at]) => site(name, at))
      .join("") +
      hop("ALM", "BIRK") +
      hop("CRAG", "BIRK", 9) +
      hop("CRAG", "DALE"),
  );

  test("the first sender, high, is heard at the last receiver, past the angles of the chain", () => {
    const at = receiverIn(network, "CRAG-DALE", "DALE");
    const entry = from(at, "ALM-BIRK ALM");
    const leaves = Math.abs(bearing(ALM, BIRK) - bearing(ALM, DALE));
    const arrives = Math.abs(bearing(DALE, CRAG) - bearing(DALE, ALM));
    expect(leaves).toBeGreaterThan(20);
    expect(entry.path.distanceM / 1000).toBeCloseTo(kilometres(ALM, DALE), 2);
    const toNoiseDb = expectTerms(entry, HIGH_HZ, [leaves, arrives]);
    expectSum(at, [toNoiseDb]);
  });

  test("and the last one, low, at the first receiver", () => {
    const at = receiverIn(network, "ALM-BIRK", "ALM");
    const arrives = Math.abs(bearing(ALM, BIRK) - bearing(ALM, DALE));
    const leaves = Math.abs(bearing(DALE, CRAG) - bearing(DALE, ALM));
    expectSum(at, [expectTerms(from(at, "CRAG-DALE DALE"), LOW_HZ, [leaves, arrives])]);
  });

  test("between them both antennas look away: 88 dB, which is bounded and not computed", () => {
    const at = receiverIn(network, "ALM-BIRK", "BIRK");
    const d = kilometres(BIRK, CRAG);
    const backDb = f699Db(GAIN_DBI, DISH_M, HIGH_HZ, 90);
    const toNoiseDb = EIRP_DBM + GAIN_DBI - 2 * backDb - leastLossDb(1000 * d, HIGH_HZ) - NOISE_DBM;
    expect(toNoiseDb).toBeLessThan(-30);
    expect(at.entries).toEqual([]);
    expect(at.cutToNoiseDb).toBeLessThan(-30);
    expect(at.cutToNoiseDb).toBeGreaterThan(toNoiseDb - 2);
  });
});

test("a parallel pair, 1.5 degrees apart at both ends", () => {
  // 10 km to the east, and 262 m further north the same once more: atan(262/10000) = 1.5 degrees.
  const [north, east] = [262 / 111_180, 10_000 / 75_290];
  const ends: Readonly<Record<string, Point>> = {
    ALM: [47.4, -30.8],
    BIRK: [47.4, -30.8 + east],
    CRAG: [47.4 + north, -30.8],
    DALE: [47.4 + north, -30.8 + east],
  };
  const network = networkOf(
    Object.entries(ends)
      .map(([name, at]) => site(name, at))
      .join("") +
      hop("ALM", "BIRK") +
      hop("CRAG", "DALE"),
  );
  for (const [own, at, sender, hz] of [
    ["ALM-BIRK", "BIRK", "CRAG-DALE CRAG", HIGH_HZ],
    ["ALM-BIRK", "ALM", "CRAG-DALE DALE", LOW_HZ],
    ["CRAG-DALE", "DALE", "ALM-BIRK ALM", HIGH_HZ],
    ["CRAG-DALE", "CRAG", "ALM-BIRK BIRK", LOW_HZ],
  ] as const) {
    const result = receiverIn(network, own, at);
    const entry = from(result, sender);
    // Inside both main beams: 2.5e-3 (x phi)^2 each, with x = 0.6 f/c.
    const x = (0.6 * hz) / 299_792_458;
    expect(entry.discriminationDb).toBeCloseTo(2 * 2.5e-3 * (x * 1.5) ** 2, 0);
    expectSum(result, [expectTerms(entry, hz, [1.5, 1.5])]);
  }
});
