/** The search finds what a look at all pairs finds, and what is kept up to date is what is computed afresh. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { InterferenceTerms } from "../../shared/design/interference.js";
import { inverse } from "../../shared/geodesy/geodesic.js";
import { antennaView } from "../../shared/interference/antenna-view.js";
import { entryOf } from "../../shared/interference/entry.js";
import { entryPath, pathTermsOf } from "../../shared/interference/entry-path.js";
import { Filters, reachHz } from "../../shared/interference/filters.js";
import type { ForeignStations } from "../../shared/interference/foreign.js";
import {
  type InterferenceFound,
  InterferenceNetwork,
  type NetworkState,
} from "../../shared/interference/network.js";
import { CUT_DB, LEAST_DEGRADATION_DB, NEAR_M } from "../../shared/interference/search.js";
import type { Place, Receiver, Sender } from "../../shared/interference/station.js";
import type { HopStations } from "../../shared/interference/stations.js";
import { degradationDb } from "../../shared/radio/degradation.js";
import { levelGround, type ProfileOf } from "../support/interference.js";

const NOBODY: ForeignStations = { senders: [], receivers: [] };

/** A region of about 100 km, a dozen channels that overlap, antennas of two sizes, one with a pattern of its own. */
const place = fc.record({
  position: fc.record({
    latitudeDeg: fc.double({ min: 47, max: 48, noNaN: true }),
    longitudeDeg: fc.double({ min: -31, max: -30, noNaN: true }),
  }),
  groundM: fc.constant(200),
  antennaM: fc.integer({ min: 5, max: 80 }),
  boresight: fc.option(
    fc.record({
      azimuthDeg: fc.double({ min: 0, max: 360, noNaN: true }),
      elevationDeg: fc.double({ min: -8, max: 8, noNaN: true }),
    }),
    { nil: undefined },
  ),
});

const PATTERN = [
  { angleDeg: 0, copolarDb: 0, crossPolarDb: 30 },
  { angleDeg: 3, copolarDb: 18, crossPolarDb: 32 },
  { angleDeg: 20, copolarDb: 40, crossPolarDb: 45 },
  // Not falling all the way: behind the least beyond an angle stands this lobe.
  { angleDeg: 100, copolarDb: 33, crossPolarDb: 50 },
  { angleDeg: 180, copolarDb: 60, crossPolarDb: 62 },
];
const VIEWS = [
  antennaView({ pattern: [], gainDbi: 38, diameterM: 0.6 }, 18e9, "F.699"),
  antennaView({ pattern: [], gainDbi: 44, diameterM: 1.2, crossPolarDiscriminationDb: 30 }, 18e9, "F.699"),
  antennaView({ pattern: PATTERN, gainDbi: 40 }, 18e9, "F.699"),
];

const station = fc.record({
  place,
  channel: fc.integer({ min: 0, max: 11 }),
  polarization: fc.constantFrom("vertical", "horizontal", "slant", undefined),
  width: fc.constantFrom(13.75e6, 27.5e6, 55e6),
  view: fc.nat(2),
  eirpDbm: fc.integer({ min: 20, max: 65 }),
  reductionDb: fc.constantFrom(0, 0, 10),
});

type Drawn = typeof station extends fc.Arbitrary<infer T> ? T : never;

function common({ place, channel, polarization, width, view }: Drawn, key: string, hop: string) {
  const shape = { kind: "raised-cosine", symbolRateHz: width / 1.15, rollOff: 0.15 } as const;
  return {
    key,
    of: { hop },
    place: { ...place, site: key } as Place,
    frequencyHz: 17.7e9 + channel * 13.75e6,
    polarization,
    bandwidthHz: width,
    antenna: VIEWS[view]!,
    shape,
  };
}

function hopOf([sends, hears]: readonly [Drawn, Drawn], name: string): HopStations {
  const { shape, ...sender } = common(sends, `${name} A`, name);
  const { shape: filter, ...receiver } = common(hears, `${name} B`, name);
  return {
    senders: [{ ...sender, eirpDbm: sends.eirpDbm, reductionDb: sends.reductionDb, spectrum: shape }],
    receivers: [{ ...receiver, lossDb: 1, noiseDbm: -95, selectivity: filter }],
  };
}

const hops = fc
  .array(fc.tuple(station, station), { minLength: 2, maxLength: 14 })
  .map((drawn) => new Map(drawn.map((pair, index) => [`H${index}`, hopOf(pair, `H${index}`)])));

function stateOf(
  of: ReadonlyMap<string, HopStations>,
  foreign: ForeignStations = NOBODY,
  terms: InterferenceTerms = TERMS,
): NetworkState {
  return { hops: of, foreign, terms, couplings: NONE };
}

/** A list of others: the same stations, owned by rows. */
const others = hops.map((of): ForeignStations => {
  const owned = <S extends Sender | Receiver>(station: S, line: number): S => ({
    ...station,
    key: `0/${line} ${station.key}`,
    of: { list: 0, line },
    place: { ...station.place, site: undefined },
  });
  const all = [...of.values()];
  return {
    senders: all.flatMap(({ senders }, line) => senders.map((one) => owned(one, line))),
    receivers: all.flatMap(({ receivers }, line) => receivers.map((one) => owned(one, line))),
  };
});
const TERMS = {};
const NONE: NetworkState["couplings"] = new Map();

function run(network: InterferenceNetwork, state: NetworkState, profileOf: ProfileOf): ReadonlySet<string> {
  const running = network.update(state);
  let step = running.next();
  while (!step.done) step = running.next(step.value && profileOf(step.value));
  return step.value;
}

const noTerrain: ProfileOf = () => undefined;

/** A ridge in the middle that a coarse profile passes by, or that it takes for higher than it is. */
const betweenTops: ProfileOf = (asked) => {
  const profile = levelGround(asked);
  const { heightM } = profile;
  const coarseM = Math.floor(1e4 * asked.from.longitudeDeg) % 2 === 0 ? 260 : 320;
  heightM[Math.floor(heightM.length / 2)] = asked.stepM === undefined ? 290 : coarseM;
  return profile;
};

describe.each([
  ["over unknown ground", noTerrain],
  ["over level ground", levelGround],
  ["over ground that a closer look finds otherwise", betweenTops],
] as const)("%s", (_name, profileOf) => {
  test("every pair above the cut is found, each term as computed alone, and the rest is bounded", () => {
    fc.assert(
      fc.property(hops, fc.constantFrom(undefined, 3_000, 15_000, 60_000), (of, searchDistanceM) => {
        const network = new InterferenceNetwork();
        const terms = { ...TERMS, ...(searchDistanceM !== undefined && { searchDistanceM }) };
        run(network, stateOf(of, NOBODY, terms), profileOf);
        const filters = new Filters();
        const path = pathTermsOf(TERMS);
        for (const [name, { receivers }] of of) {
          const [receiver] = receivers as [Receiver];
          const [found] = network.of(name);
          const byKey = new Map(found!.entries.map((entry) => [entry.sender.key, entry]));
          let missed = 0;
          for (const sender of [...of.values()].flatMap(({ senders }) => senders)) {
            if (sender.key.startsWith(`${name} `) || !inReach(sender, receiver)) continue;
            const distanceM = metres(sender, receiver);
            if (distanceM < NEAR_M) continue;
            const entry = byKey.get(sender.key);
            const beyond = distanceM / (searchDistanceM ?? Number.POSITIVE_INFINITY);
            if (beyond > 1.01) expect(entry).toBeUndefined();
            // The search takes the Earth for a sphere: about its limit either is right.
            if (beyond > 0.99 && entry === undefined) continue;
            const stepM = entry?.path.step === "own" ? undefined : 250;
            const asked = { from: sender.place.position, to: receiver.place.position, stepM };
            const alone = entryOf(
              sender,
              receiver,
              entryPath(sender, receiver, path, profileOf(asked)),
              filters,
            );
            if (entry !== undefined) {
              expect(entry.toNoiseDb).toBeCloseTo(alone.toNoiseDb, 9);
              expect(entry.discriminationDb).toBeCloseTo(alone.discriminationDb, 9);
              expect(entry.path.longTermLossDb).toBeCloseTo(alone.path.longTermLossDb, 9);
              continue;
            }
            expect(alone.fullToNoiseDb).toBeLessThanOrEqual(CUT_DB);
            missed += 10 ** (alone.fullToNoiseDb / 10);
          }
          const cut = found!.cutToNoiseDb === undefined ? 0 : 10 ** (found!.cutToNoiseDb / 10);
          expect(missed).toBeLessThanOrEqual(cut * (1 + 1e-9));
          if (cut > 0)
            expect(degradationDb(10 * Math.log10(cut))).toBeLessThanOrEqual(LEAST_DEGRADATION_DB + 1e-9);
        }
      }),
      { numRuns: 60 },
    );
  });

  test("after any change it is as computed afresh, and says at which hops", () => {
    fc.assert(
      fc.property(hops, hops, fc.array(fc.nat(13), { maxLength: 4 }), (before, other, taken) => {
        const network = new InterferenceNetwork();
        run(network, stateOf(before), profileOf);
        const told = figures(network, before);
        const after = new Map(before);
        for (const index of taken) {
          const name = `H${index}`;
          const replaced = other.get(name);
          if (replaced) after.set(name, replaced);
          else after.delete(name);
        }
        const changed = run(network, stateOf(after), profileOf);
        const fresh = new InterferenceNetwork();
        run(fresh, stateOf(after), profileOf);
        const now = figures(network, after);
        const anew = figures(fresh, after);
        for (const [name, ones] of anew) {
          const kept = now.get(name)!;
          expect(kept.map(([key]) => key)).toEqual(ones.map(([key]) => key));
          for (const [index, [, db]] of ones.entries()) expect(kept[index]![1]).toBeCloseTo(db, 5);
          const same = JSON.stringify(told.get(name)) === JSON.stringify(kept);
          if (!changed.has(name)) expect(same).toBe(true);
        }
      }),
      { numRuns: 60 },
    );
  });
});

function figures(network: InterferenceFound, of: ReadonlyMap<string, HopStations>) {
  return new Map(
    [...of.keys()].map((name) => [
      name,
      network
        .of(name)
        .flatMap(({ receiver, entries, degradationDb: sum }) => [
          [receiver.key, sum] as const,
          ...entries.map(({ sender, toNoiseDb }) => [sender.key, toNoiseDb] as const),
        ]),
    ]),
  );
}

function inReach(sender: Sender, receiver: Receiver): boolean {
  return (
    Math.abs(sender.frequencyHz - receiver.frequencyHz) <= reachHz(sender.bandwidthHz, receiver.bandwidthHz)
  );
}

function metres(sender: Sender, receiver: Receiver): number {
  return inverse({ from: sender.place.position, to: receiver.place.position }).distanceM;
}

/** What a run holds, keys and figures. */
function allOf(network: InterferenceFound, of: ReadonlyMap<string, HopStations>) {
  const rounded = (db: number) => Math.round(db * 1e4) / 1e4;
  const atOthers = [...network.ofOthers()].map(({ receiver, degradationDb: db }) => [
    receiver.key,
    rounded(db),
  ]);
  const own = [...figures(network, of)].map(([name, ones]) => [
    name,
    ones.map(([key, db]) => [key, rounded(db)]),
  ]);
  return { own: own.sort(), atOthers: atOthers.sort() };
}

test("whatever changes, hops, lists of others or terms, and wherever a run is broken off, it is as computed afresh", () => {
  const change = fc.record({
    hops,
    others,
    terms: fc.constantFrom<InterferenceTerms>(
      {},
      { lapseNPerKm: 60 },
      { aggregateDegradationDb: 3, longTermPercent: 10 },
    ),
    what: fc.constantFrom("hops", "others", "terms", "all"),
    /** After so many steps the run is broken off; beyond them it goes to its end. */
    steps: fc.integer({ min: 0, max: 40 }),
  });
  fc.assert(
    fc.property(fc.array(change, { minLength: 2, maxLength: 5 }), (changes) => {
      let network = new InterferenceNetwork();
      let state = stateOf(new Map());
      for (const { what, steps, ...to } of changes) {
        state = stateOf(
          what === "hops" || what === "all" ? to.hops : state.hops,
          what === "others" || what === "all" ? to.others : state.foreign,
          what === "terms" || what === "all" ? to.terms : state.terms,
        );
        const copy = new InterferenceNetwork(network);
        const running = copy.update(state);
        let step = running.next();
        for (let i = 0; i < steps && !step.done; i++)
          step = running.next(step.value && betweenTops(step.value));
        if (step.done) network = copy;
        else network.learn(copy);
      }
      run(network, state, betweenTops);
      const fresh = new InterferenceNetwork();
      run(fresh, state, betweenTops);
      expect(allOf(network, state.hops)).toEqual(allOf(fresh, state.hops));
    }),
    { numRuns: 60 },
  );
});
