/** What the network states of interference reaches the computation. */
import { expect, test } from "vitest";
import { interferenceTerms } from "../../server/session/interference-terms.js";
import type { Design } from "../../shared/design/design.js";
import type { InterferenceTerms } from "../../shared/design/interference.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { Filters } from "../../shared/interference/filters.js";
import { toNoiseDb } from "../../shared/interference/level.js";
import type { Receiver, Sender } from "../../shared/interference/station.js";
import { spectrumOf } from "../../shared/interference/stations.js";
import { NO_FILES } from "../../shared/others/listed.js";
import { fromHub } from "../../shared/rules/example-interference.js";
import { designOf } from "../equipment/designs.js";
import { exampleGround } from "../rules/example-design.js";
import { interferenceIn, levelGround, type ProfileOf } from "../support/interference.js";

const DESIGN = designOf(fromHub({ channel: 4 }));
const RESULTS = new Map(
  [...DESIGN.hops.values()].map((hop) => [hop.name, evaluateHop(hop, exampleGround(hop))]),
);

/** Level ground with a ridge that the direct ray does not clear, so that the bending of rays counts. */
const ridge: ProfileOf = (asked) => {
  const profile = levelGround(asked);
  const middle = profile.heightM.length >> 1;
  return {
    ...profile,
    heightM: profile.heightM.map((height, i) => (Math.abs(i - middle) < 3 ? 260 : height)),
  };
};

function atKeld(terms: InterferenceTerms) {
  const inputs = { design: DESIGN, results: RESULTS, listed: NO_FILES, day: "2026-06-01", terms };
  const network = interferenceIn(inputs, ridge);
  return network.of("KELD-TARN").find(({ receiver }) => receiver.place.site === "KELD")!;
}

test("beyond the search distance nothing is looked at", () => {
  // The hop is 9.3 km long.
  expect(atKeld({ searchDistanceM: 10_000 }).entries).toHaveLength(1);
  const near = atKeld({ searchDistanceM: 9_000 });
  expect([near.entries, near.cutToNoiseDb, near.degradationDb]).toEqual([[], undefined, 0]);
});

test("sea on the path counts, by share or by the height of the ground", () => {
  const short = (terms: InterferenceTerms) => atKeld(terms).entries[0]!.path.shortTermLossDb;
  expect(short({ seaSharePercent: 80 })).not.toBe(short({}));
  expect(short({ seaSharePercent: 0 })).toBe(short({}));
  // The ground is at 200 m: all of it is below this.
  expect(short({ seaBelowM: 270 })).not.toBe(short({}));
  expect(short({ seaBelowM: 0, seaSharePercent: 80 })).toBe(short({}));
});

test("lapse and N0 change the loss, and what is stated holds before the maps", async () => {
  const loss = (terms: InterferenceTerms) => atKeld(terms).entries[0]!.path.longTermLossDb;
  expect(loss({ lapseNPerKm: 45, surfaceRefractivity: 325 })).toBe(loss({}));
  expect(loss({ lapseNPerKm: 100 })).not.toBe(loss({}));
  const asked: unknown[] = [];
  const maps = {
    problems: [],
    refresh: () => Promise.resolve(false),
    readings: (at: unknown, facts: readonly string[]) => {
      asked.push([at, facts]);
      return Promise.resolve(
        facts.map((fact) => ({ fact, value: fact === "lapseNPerKm" ? 50 : 330, origin: "map" })),
      );
    },
  } as never;
  const stated: Design = { ...DESIGN, interference: { lapseNPerKm: 40 } };
  expect(await interferenceTerms(stated, maps)).toEqual({
    lapseNPerKm: 40,
    surfaceRefractivity: 330,
    fromMaps: ["surfaceRefractivity"],
  });
  expect(await interferenceTerms(DESIGN, maps)).toEqual({
    lapseNPerKm: 50,
    surfaceRefractivity: 330,
    fromMaps: ["lapseNPerKm", "surfaceRefractivity"],
  });
  const both = { lapseNPerKm: 40, surfaceRefractivity: 300 };
  expect(await interferenceTerms({ ...DESIGN, interference: both }, maps)).toBe(both);
  expect(await interferenceTerms(DESIGN, undefined)).toEqual({});
  // Asked in the middle of the sites, once for each design that leaves something open.
  expect(asked).toHaveLength(2);
});

test("a mask or a table that begins beside the channel lets nothing off on the channel itself", () => {
  const shape = (of: Parameters<typeof spectrumOf>[0]) =>
    spectrumOf({ ...of, bandwidthHz: 55e6 }, "selectivity");
  const beside = shape({
    bandwidthHz: 55e6,
    spectrum: { selectivity: [{ offsetHz: 60e6, attenuationDb: 50 }] },
  });
  expect(beside).toEqual({
    kind: "points",
    points: [
      { offsetHz: 0, attenuationDb: 0 },
      { offsetHz: 60e6, attenuationDb: 50 },
    ],
  });
  const receiver = {
    frequencyHz: 18e9,
    noiseDbm: -90,
    selectivity: beside,
    tables: [{ modulation: "QPSK", thresholdDbm: -80, points: [{ offsetHz: 55e6, for1Db: -5, for3Db: -9 }] }],
  } as unknown as Receiver;
  const sender = (frequencyHz: number) => ({ frequencyHz, spectrum: beside }) as unknown as Sender;
  const plain = { ...receiver, tables: undefined } as Receiver;
  const filters = new Filters();
  const at = (of: Receiver, hz: number) => toNoiseDb(-60, sender(hz), of, filters);
  expect(at(receiver, 18e9)).toBe(at(plain, 18e9));
  // The threshold bears a C/I of -9 dB for a degradation of 3 dB, which is more than -5 dB for 1 dB makes of it.
  expect(at(receiver, 18.055e9)).toBeCloseTo(-60 - (-80 + 9) - 0.02, 2);
});
