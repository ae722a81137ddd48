/** Figures that no station has, networks in another order, and more senders than can be computed: a figure all the same. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { antennaView } from "../../shared/interference/antenna-view.js";
import { type InterferenceFound, InterferenceNetwork } from "../../shared/interference/network.js";
import { MOST_ENTRIES } from "../../shared/interference/search.js";
import type { Receiver, Sender } from "../../shared/interference/station.js";
import type { HopStations } from "../../shared/interference/stations.js";
import { levelGround, type ProfileOf } from "../support/interference.js";

const noTerrain: ProfileOf = () => undefined;

/** Usual figures, and now and then one that is not. */
function figure(usual: readonly number[], hostile: readonly number[]) {
  return fc.oneof(
    { weight: 4, arbitrary: fc.constantFrom(...usual) },
    { weight: 1, arbitrary: fc.constantFrom(...hostile) },
  );
}

const station = fc.record({
  latitudeDeg: figure([47.5, 47.6, 47.61], [90, -90, 0]),
  longitudeDeg: figure([-30.5, -30.4], [180, -180, 179.9999, 0]),
  groundM: fc.constantFrom<number | undefined>(200, undefined, 1e9, -1e9),
  antennaM: figure([20, 40], [0, -5, 1e9]),
  azimuthDeg: fc.constantFrom<number | undefined>(undefined, 0, 90, 200, 1e9, -720),
  elevationDeg: figure([0, 2], [90, -90, 1e6]),
  frequencyHz: figure([17.7e9, 17.71e9], [1, 1e3, 1e8, 1e15]),
  bandwidthHz: figure([27.5e6, 55e6], [1, 1e15]),
  gainDbi: figure([38, 44], [-300, 0, 1e6]),
  eirpDbm: figure([55, 60], [1e6, -1e6]),
});

type Drawn = typeof station extends fc.Arbitrary<infer T> ? T : never;

function stationsOf(drawn: readonly Drawn[], hop: string): HopStations {
  const senders: Sender[] = [];
  const receivers: Receiver[] = [];
  for (const [index, one] of drawn.entries()) {
    const { latitudeDeg, longitudeDeg, groundM, antennaM, azimuthDeg, elevationDeg } = one;
    const { frequencyHz, bandwidthHz, gainDbi, eirpDbm } = one;
    const shape = { kind: "raised-cosine", symbolRateHz: bandwidthHz / 1.15, rollOff: 0.15 } as const;
    const common = {
      key: `${hop} ${index}`,
      of: { hop },
      place: {
        site: `${hop} ${index}`,
        position: { latitudeDeg, longitudeDeg },
        groundM,
        antennaM,
        boresight: azimuthDeg === undefined ? undefined : { azimuthDeg, elevationDeg },
      },
      frequencyHz,
      bandwidthHz,
      antenna: antennaView({ pattern: [], gainDbi }, frequencyHz, "F.699"),
    };
    senders.push({ ...common, eirpDbm, reductionDb: 0, spectrum: shape });
    receivers.push({ ...common, lossDb: 1, noiseDbm: -95, selectivity: shape });
  }
  return { senders, receivers };
}

function found(hops: ReadonlyMap<string, HopStations>, profileOf: ProfileOf): InterferenceFound {
  const network = new InterferenceNetwork();
  const running = network.update({
    hops,
    foreign: { senders: [], receivers: [] },
    terms: {},
    couplings: new Map(),
  });
  let step = running.next();
  while (!step.done) step = running.next(step.value && profileOf(step.value));
  return network;
}

/** All figures of a result, whatever its shape; elevations that are not known are NaN by agreement. */
function figuresIn(value: unknown, path = ""): readonly (readonly [string, number])[] {
  if (typeof value === "number") return [[path, value]];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, one]) =>
    ["receiver", "sender", "leaves", "arrives"].includes(key) ? [] : figuresIn(one, `${path}.${key}`),
  );
}

const network = fc
  .array(fc.array(station, { minLength: 1, maxLength: 2 }), { minLength: 2, maxLength: 8 })
  .map((all) => all.map((drawn, index) => [`H${index}`, stationsOf(drawn, `H${index}`)] as const));

test.each([
  ["over unknown ground", noTerrain],
  ["over level ground", levelGround],
] as const)("no figure is none, whatever the stations have: %s", (_name, profileOf) => {
  const bounded: ProfileOf = (asked) => {
    const far = Math.abs(asked.from.longitudeDeg - asked.to.longitudeDeg) > 1;
    return far || Math.abs(asked.from.latitudeDeg - asked.to.latitudeDeg) > 1 ? undefined : profileOf(asked);
  };
  fc.assert(
    fc.property(network, (hops) => {
      const all = found(new Map(hops), bounded);
      for (const [name] of hops)
        for (const at of all.of(name))
          for (const [where, value] of figuresIn(at)) expect(value, `${name}${where}`).not.toBeNaN();
    }),
    { numRuns: 150 },
  );
});

test("the order of the hops makes no difference, nor does a second run", () => {
  fc.assert(
    fc.property(network, (hops) => {
      const one = found(new Map(hops), noTerrain);
      const other = found(new Map(hops.toReversed()), noTerrain);
      const again = found(new Map(hops), noTerrain);
      for (const [name] of hops) {
        expect(again.of(name)).toEqual(one.of(name));
        const [a, b] = [one, other].map((of) =>
          of.of(name).map(({ receiver, entries, coLocated, degradationDb }) => ({
            receiver: receiver.key,
            entries: entries.map(({ sender, toNoiseDb }) => `${sender.key} ${toNoiseDb}`),
            coLocated: coLocated.map(({ sender }) => sender.key),
            degradation: degradationDb.toFixed(6),
          })),
        );
        expect(b).toEqual(a);
      }
    }),
    { numRuns: 100 },
  );
});

test("of too many at one receiver the strongest are computed, and the rest counts by its bound", () => {
  const usual = { groundM: 200, antennaM: 40, elevationDeg: 0, frequencyHz: 17.7e9, bandwidthHz: 27.5e6 };
  const hop = (name: string, eirpDbm: number) =>
    stationsOf(
      [{ ...usual, latitudeDeg: 47.5, longitudeDeg: -30.5, azimuthDeg: 0, gainDbi: 38, eirpDbm }],
      name,
    );
  const victim = stationsOf(
    [{ ...usual, latitudeDeg: 47.6, longitudeDeg: -30.5, azimuthDeg: 180, gainDbi: 38, eirpDbm: 60 }],
    "V",
  );
  const count = MOST_ENTRIES + 50;
  const hops = new Map([["V", victim]]);
  for (let i = 0; i < count; i++) hops.set(`H${i}`, hop(`H${i}`, 40 + i / 100));
  const [at] = found(hops, noTerrain).of("V");
  expect(at!.entries).toHaveLength(MOST_ENTRIES);
  expect(at!.beyondMost).toBe(50);
  // Over unknown ground the bound is what is computed: the sum is that of all.
  const one = at!.entries.find(({ sender }) => sender.key === `H${count - 1} 0`)!;
  const all = Array.from({ length: count }, (_, i) => 10 ** ((one.toNoiseDb + (i - count + 1) / 100) / 10));
  expect(at!.toNoiseDb).toBeCloseTo(10 * Math.log10(all.reduce((sum, mw) => sum + mw, 0)), 1);
});
