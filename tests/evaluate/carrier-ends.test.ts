import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Coupler } from "../../shared/design/catalogue.js";
import type { Hop } from "../../shared/design/design.js";
import type { CarrierEnd } from "../../shared/evaluate/account/carrier-result.js";
import { arrangementByName } from "../../shared/radio/arrangements.js";
import { ANTENNA, end, KELD, makeHop, notFinite, QAM128, QPSK, R18, reversed, TARN } from "./builders.js";
import { carrierHops, judgedOnLevelGround, onChannels } from "./carrier-hops.js";

/** Of the usual figures: equal 3.5, unequal 1.6 and 6.4 dB (common practice); 20 dBm and 38.5 dBi before them. */
const UNEQUAL = { name: "H18-U", kind: "hybrid", mainLossDb: 1.6, standbyLossDb: 6.4 } as const;
const EQUAL = { name: "H18-E", kind: "hybrid", mainLossDb: 3.5 } as const;
const MAIN = expect.closeTo(58.5 - 1.6, 6);
const STANDBY = expect.closeTo(58.5 - 6.4, 6);

function eirpOf(hop: Hop): Record<string, (number | undefined)[]> {
  const { carriers } = judgedOnLevelGround(hop).result;
  return Object.fromEntries(
    hop.ends.map(({ site }, at) => [
      site.name,
      carriers.map(({ ends }) => ends[at as 0 | 1].licensedEirpDbm),
    ]),
  );
}

function unequal(arrangement: string, halves: readonly ["high" | "low", "high" | "low"] = ["high", "low"]) {
  const hop = makeHop({
    arrangement: { name: arrangement },
    ends: [end(KELD, halves[0], { coupler: UNEQUAL }), end(TARN, halves[1], { coupler: UNEQUAL })],
  });
  return onChannels(hop, [4, 6, 8, 10].slice(0, arrangementByName(arrangement)!.frequencyPairs));
}

describe("each carrier by the arm that its unit has at that end", () => {
  test("two carriers on crossed unequal couplers: each has the main arm at one end only", () => {
    const expected = { KELD: [MAIN, STANDBY], TARN: [STANDBY, MAIN] };
    expect(eirpOf(unequal("2+0 single-polarization"))).toEqual(expected);
    expect(eirpOf(unequal("1+1 frequency-diversity"))).toEqual(expected);
    // The end that transmits high stands in the order of the arrangement, wherever it stands in the text.
    expect(eirpOf(unequal("2+0 single-polarization", ["low", "high"]))).toEqual({
      KELD: [STANDBY, MAIN],
      TARN: [MAIN, STANDBY],
    });
    // Both lose 8.0 dB over the hop, and arrive alike but for their frequencies.
    const { carriers } = judgedOnLevelGround(unequal("2+0 single-polarization")).result;
    const [one, other] = carriers.map(({ ends }) => ends[1].received!.highestDbm);
    expect(Math.abs(one! - other!)).toBeLessThan(0.1);
  });

  test("four carriers on both polarizations: V H V H, the second pair on the other arms", () => {
    const hop = unequal("4+0 dual-polarization");
    expect(eirpOf(hop)).toEqual({
      KELD: [MAIN, MAIN, STANDBY, STANDBY],
      TARN: [STANDBY, STANDBY, MAIN, MAIN],
    });
    const { carriers } = judgedOnLevelGround(hop).result;
    expect(carriers.map(({ polarization }) => polarization)).toEqual([
      "vertical",
      "horizontal",
      "vertical",
      "horizontal",
    ]);
    expect(carriers.map(({ ends }) => ends[0].transmitHz)).toEqual([18.93e9, 19.04e9, 19.15e9, 19.26e9]);
  });

  test("hot standby sends over the main arm; the muted unit over the other, and the licence is for the stronger", () => {
    const hop = unequal("1+1 hot-standby");
    const [carrier, ...others] = judgedOnLevelGround(hop).result.carriers;
    expect(others).toEqual([]);
    for (const at of carrier!.ends) {
      expect(at).toMatchObject({ arm: "main", licensedEirpDbm: MAIN, eirp: { highestDbm: MAIN } });
      expect(at.standby).toMatchObject({ arm: "standby", eirp: { highestDbm: STANDBY } });
    }
    // A larger second antenna: 44 dBi, and nothing between it and its unit.
    const large = { ...ANTENNA, name: "DISH120-18", gain: [{ gainDbi: 44 }] };
    const two = makeHop({
      arrangement: { name: "1+1 hot-standby two-antennas" },
      ends: [
        end(KELD, "high", { further: [{ antenna: large, heightM: 38 }] }),
        end(TARN, "low", { further: [{ antenna: ANTENNA, heightM: 38 }] }),
      ],
    });
    const [first] = judgedOnLevelGround(two).result.carriers;
    expect(first!.ends[0]).toMatchObject({
      antenna: "DISH60-18",
      eirp: { highestDbm: expect.closeTo(58.5, 6) },
      standby: { antenna: "DISH120-18", antennaHeightM: 38 },
      licensedEirpDbm: expect.closeTo(64, 6),
    });
  });

  test("power by mode: what is judged, what runs in clear air, and the greatest", () => {
    const hop = makeHop({ modes: [{ ...QPSK, transmitPowerDbm: 26 }, QAM128] });
    const [carrier] = judgedOnLevelGround(hop).result.carriers;
    // The objective asks 300 Mbit/s, which 128QAM carries with 20 dBm.
    expect(carrier!.ends[0].eirp).toEqual({
      judgedDbm: expect.closeTo(58.5, 6),
      highestDbm: expect.closeTo(58.5, 6),
      greatestDbm: expect.closeTo(64.5, 6),
    });
  });

  test("a carrier without a channel or a half has no frequency, and a hop without a gain no EIRP", () => {
    const one = makeHop({ arrangement: { name: "2+0 single-polarization" } });
    expect(judgedOnLevelGround(one).result.carriers.map(({ ends }) => ends[0].transmitHz)).toEqual([
      18.93e9,
      undefined,
    ]);
    const deaf = makeHop({ ends: [end(KELD, "high", { antenna: undefined }), end(TARN, "low")] });
    const [carrier] = judgedOnLevelGround(deaf).result.carriers;
    expect(carrier!.ends.map(({ licensedEirpDbm }) => licensedEirpDbm)).toEqual([undefined, undefined]);
    expect(carrier!.polarization).toBe("vertical");
  });
});

describe("over all arrangements", () => {
  test("the carrier of which least arrives is the one of the level diagram, whatever the order of its channel", () => {
    fc.assert(
      fc.property(carrierHops, ({ hop }) => {
        const { carriers, directions } = judgedOnLevelGround(hop).result;
        expect(notFinite(carriers)).toEqual([]);
        expect(carriers).toHaveLength(arrangementByName(hop.arrangement.name)!.radiating);
        for (const {
          from,
          to,
          frequencyHz,
          eirpDbm,
          greatestEirpDbm,
          receivedLevelDbm,
          judged,
        } of directions) {
          const ends = carriers.map((one) =>
            [from, to].map((site) => one.ends.find((at) => at.site === site)!),
          );
          const least = Math.min(...ends.map(([, at]) => at!.received!.highestDbm));
          expect(receivedLevelDbm).toBeCloseTo(least, 9);
          // Several may be alike to the last bits.
          const those = ends.filter(([sender]) => sender!.transmitHz === frequencyHz);
          expect(those.map(([sender, at]) => [sender!.eirp!.highestDbm, at!.received!])).toContainEqual([
            expect.closeTo(eirpDbm, 9),
            expect.objectContaining({
              highestDbm: expect.closeTo(receivedLevelDbm, 9),
              judgedDbm: expect.closeTo(judged!.receivedLevelDbm, 9),
            }),
          ]);
          const licensed = ends.map(([sender]) => sender!.licensedEirpDbm!);
          expect(greatestEirpDbm).toBeCloseTo(Math.max(...licensed), 9);
        }
      }),
    );
  });

  test("the order of the lines of channels moves no figure of a hop whose carriers are alike", () => {
    const alike = ["2+0 single-polarization", "4+0 xpic", "1+1 frequency-diversity", "all-indoor 3+0"];
    for (const arrangement of alike) {
      const coupler: Coupler | undefined = arrangement.startsWith("all-indoor") ? undefined : EQUAL;
      const hop = makeHop({
        arrangement: { name: arrangement },
        ends: [end(KELD, "high", { coupler }), end(TARN, "low", { coupler })],
        modes: [QPSK, QAM128],
      });
      const numbers = [4, 7, 9].slice(0, arrangementByName(arrangement)!.frequencyPairs);
      const told = (order: readonly number[]) => {
        const { directions, availability } = judgedOnLevelGround(onChannels(hop, order)).result;
        // Which carrier is on which channel differs, and nothing else.
        return { directions: directions.map(({ paths, ...figures }) => figures), availability };
      };
      expect(told(numbers.toReversed())).toEqual(told(numbers));
    }
  });

  test("what a carrier loses at an end is the arm, the position and the antenna that its unit has there", () => {
    fc.assert(
      fc.property(carrierHops, ({ hop }) => {
        const facts = arrangementByName(hop.arrangement.name)!;
        const { carriers } = judgedOnLevelGround(hop).result;
        for (const [at, stated] of hop.ends.entries()) {
          for (const { ends } of carriers) {
            const { arm, antenna, eirp } = ends[at as 0 | 1];
            const { coupler, extraLossDb = 0, transmitPowerDbm } = stated;
            const armDb =
              arm === "standby" ? (coupler?.standbyLossDb ?? coupler?.mainLossDb) : coupler?.mainLossDb;
            const gainDbi = [stated.antenna, stated.diversityAntenna, stated.further?.[0]?.antenna].find(
              (one) => one?.name === antenna,
            )!.gain[0]!;
            const lostDb =
              (transmitPowerDbm ?? hop.modes[1]!.transmitPowerDbm!) +
              gainDbi.gainDbi -
              extraLossDb -
              (armDb ?? 0) -
              eirp!.highestDbm;
            // What is left is the branching network of the radio: a filter, and a pass for each place.
            const passes = (lostDb - 0.7) / 0.15;
            expect(passes).toBeCloseTo(Math.round(passes), 6);
            expect(Math.round(passes)).toBeGreaterThanOrEqual(1);
            expect(Math.round(passes)).toBeLessThanOrEqual(facts.transceivers);
          }
        }
      }),
    );
  });

  test("both units of a hybrid have an arm each at every end, and each carrier both over the hop", () => {
    for (const arrangement of ["2+0 single-polarization", "4+0 dual-polarization", "3+1 xpic"]) {
      const { carriers } = judgedOnLevelGround(unequal(arrangement)).result;
      for (const { ends } of carriers) expect(ends.map(({ arm }) => arm).sort()).toEqual(["main", "standby"]);
      for (const at of [0, 1] as const) {
        const arms = carriers.map(({ ends }) => ends[at].arm);
        expect(arms.filter((arm) => arm === "main")).toHaveLength(carriers.length / 2);
      }
    }
  });

  test("told from the other end of the text, every carrier is the same", () => {
    fc.assert(
      fc.property(carrierHops, ({ hop }) => {
        const told = (one: Hop) => {
          const { hop: judged, result } = judgedOnLevelGround(one);
          const figures = ({ eirp, licensedEirpDbm, received, ...rest }: CarrierEnd) => ({
            ...rest,
            figures: [eirp, received].map((by) => by && Object.values(by).map((dbm) => dbm?.toFixed(6))),
            licensed: licensedEirpDbm?.toFixed(6),
          });
          const sorted = result.carriers.map(({ ends, ...carrier }) => ({
            ...carrier,
            ends: Object.fromEntries(ends.map(({ standby, ...at }) => [at.site, figures(at)])),
          }));
          return { name: judged.name, sorted };
        };
        expect(told(reversed(hop, 0))).toEqual(told(hop));
      }),
    );
  });
});

test("overload is held against the strongest way through the branches", () => {
  // Main arm 0.5, standby arm 9 dB at KELD; the other way round at TARN: the second carrier loses 8.5 dB less.
  const ends = [
    end(KELD, "high", { coupler: { name: "A", mainLossDb: 9, standbyLossDb: 0.5 } }),
    end(TARN, "low", { coupler: { name: "B", mainLossDb: 0.5, standbyLossDb: 9 } }),
  ] as const;
  const hop = makeHop({
    arrangement: { name: "2+0 single-polarization" },
    ends,
    radio: { ...R18, overloadDbm: -40 },
  });
  const [there] = judgedOnLevelGround(hop).result.directions;
  const [first, second] = there!.paths!.map(({ branchingLossDb }) => branchingLossDb);
  expect([first, second]).toEqual([expect.closeTo(18, 9), expect.closeTo(1, 9)]);
  expect(there!.overload!.receivedLevelDbm).toBeCloseTo(there!.receivedLevelDbm + 17, 9);
});
