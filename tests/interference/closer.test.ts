/** No verdict rests on a coarse profile: not one that is missed by what it lets through, nor one that is met by what it shields. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { antennaView } from "../../shared/interference/antenna-view.js";
import { restingOnCoarse } from "../../shared/interference/closer.js";
import type { Entry } from "../../shared/interference/entry.js";
import { type Limits, limitsAt } from "../../shared/interference/limits.js";
import { interferenceAt } from "../../shared/interference/receiver-result.js";
import type { Receiver, Sender } from "../../shared/interference/station.js";
import { degradationDb } from "../../shared/radio/degradation.js";

const antenna = antennaView({ pattern: [], gainDbi: 38, diameterM: 0.6 }, 18e9, "F.699");
const place = { position: { latitudeDeg: 47, longitudeDeg: -30 }, antennaM: 20 };
const shape = { kind: "raised-cosine", symbolRateHz: 48e6, rollOff: 0.15 } as const;
const common = { of: { hop: "X" }, place, frequencyHz: 18e9, bandwidthHz: 55e6, antenna };
const receiver: Receiver = { ...common, key: "r", lossDb: 0, noiseDbm: -95, selectivity: shape };
const sender = (key: string): Sender => ({ ...common, key, eirpDbm: 50, reductionDb: 0, spectrum: shape });

interface Drawn {
  readonly db: number;
  readonly shieldDb: number;
  readonly step: "coarse" | "own";
}

function entry({ db, shieldDb, step }: Drawn, key: string): Entry {
  const direction = { azimuthDeg: 0, elevationDeg: 0 };
  return {
    sender: sender(key),
    path: {
      distanceM: 1e4,
      by: "profile",
      longTermLossDb: 140,
      shortTermLossDb: 135,
      longTermShieldDb: shieldDb,
      shortTermShieldDb: shieldDb,
      step,
      leaves: direction,
      arrives: direction,
    },
    leavesOffAxisDeg: 0,
    arrivesOffAxisDeg: 0,
    relation: "parallel",
    discriminationDb: 0,
    offsetHz: 0,
    levelDbm: db - 95,
    fullLevelDbm: db - 95,
    toNoiseDb: db,
    fullToNoiseDb: db,
    shortToNoiseDb: db + 5,
    inSumToNoiseDb: db,
    fullInSumToNoiseDb: db,
  };
}

const drawn = fc.array(
  fc.record<Drawn>({
    db: fc.double({ min: -40, max: 10, noNaN: true }),
    shieldDb: fc.double({ min: 0, max: 40, noNaN: true }),
    step: fc.constantFrom("coarse", "own"),
  }),
  { maxLength: 8 },
);

const power = (db: number) => 10 ** (db / 10);
const sumOf = (entries: readonly Entry[], db: (one: Entry) => number) =>
  entries.reduce((sum, one) => sum + power(db(one)), 0);

test("without the named entries a missed sum is met, and a met one is met with the others unshielded", () => {
  fc.assert(
    fc.property(drawn, fc.double({ min: -20, max: 5, noNaN: true }), (of, sumDb) => {
      const entries = of.map((one, index) => entry(one, `s${index}`));
      const at = interferenceAt(receiver, {}, entries, [], {});
      const named = new Set(restingOnCoarse(at, { sumDb }));
      for (const one of named) expect(one.path.step).toBe("coarse");
      const left = at.entries.filter((one) => one.path.step === "coarse" && !named.has(one));
      const looked = at.entries.filter((one) => !left.includes(one));
      const limit = power(sumDb) * (1 + 1e-9);
      if (sumOf(entries, (one) => one.toNoiseDb) > limit) {
        expect(sumOf(left, (one) => one.toNoiseDb)).toBeLessThanOrEqual(limit);
        return;
      }
      const most =
        sumOf(looked, (one) => one.toNoiseDb) +
        sumOf(left, (one) => one.toNoiseDb + one.path.longTermShieldDb);
      expect(most).toBeLessThanOrEqual(limit);
    }),
  );
});

test.each<[string, Limits, readonly Drawn[], readonly string[]]>([
  ["one far below, whatever it is shielded", { sumDb: -6 }, [{ db: -30, shieldDb: 20, step: "coarse" }], []],
  ["one that its shielding keeps below", { sumDb: -6 }, [{ db: -30, shieldDb: 25, step: "coarse" }], ["s0"]],
  ["the same, looked at already", { sumDb: -6 }, [{ db: -30, shieldDb: 25, step: "own" }], []],
  ["one that misses alone", { singleDb: -6 }, [{ db: -5, shieldDb: 0, step: "coarse" }], ["s0"]],
  [
    "one that misses for a short time, 5 dB above",
    { shortDb: -6 },
    [{ db: -10, shieldDb: 0, step: "coarse" }],
    ["s0"],
  ],
  [
    "of two that miss together the stronger",
    { sumDb: -6 },
    [
      { db: -8, shieldDb: 0, step: "coarse" },
      { db: -7, shieldDb: 0, step: "coarse" },
    ],
    ["s1"],
  ],
])("%s", (_, limits, of, keys) => {
  const entries = of.map((one, index) => entry(one, `s${index}`));
  const found = restingOnCoarse(interferenceAt(receiver, {}, entries, [], {}), limits);
  expect(found.map((one) => one.sender.key)).toEqual(keys);
});

test("limits are those that the network states, else 1 dB, and an I/N of -10 dB toward others", () => {
  expect(degradationDb(limitsAt(receiver, {}).sumDb!)).toBeCloseTo(1.005, 9);
  expect(limitsAt(receiver, {}).singleDb).toBeUndefined();
  expect(limitsAt(receiver, { singleEntryDegradationDb: 0.5 }).sumDb).toBeUndefined();
  const other = { ...receiver, of: { list: 0, line: 2 } };
  expect(limitsAt(other, {})).toEqual({ sumDb: -10 });
  expect(limitsAt(other, { towardOthersShortTermDb: 0 })).toEqual({ shortDb: 0.005 });
});
