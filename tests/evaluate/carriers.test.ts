/**
 * Which unit stands on which arm at each end. Crossing: common practice ("carrier 1 on the main arm at one end and on
 * the standby arm at the other, so both paths lose Cm + Cs"); a unit sends and listens over one arm.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Coupler } from "../../shared/design/catalogue.js";
import type { Hop, HopEnd } from "../../shared/design/design.js";
import { branchesOf } from "../../shared/equipment/branches.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import { keepOut } from "../../shared/report/exposure.js";
import { pathsOf } from "../equipment/paths-of.js";
import {
  ANTENNA,
  direction,
  end,
  KELD,
  levelGround,
  lineOf,
  makeHop,
  notesTold,
  R18,
  reversed,
  TARN,
} from "./builders.js";
import { carrierHops, judgedOnLevelGround } from "./carrier-hops.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;
const GROUND = levelGround(LENGTH_M);
const UNEQUAL: Coupler = { name: "H18-U", kind: "hybrid", mainLossDb: 1.6, standbyLossDb: 6.4 };
const EQUAL: Coupler = { name: "H18-E", kind: "hybrid", mainLossDb: 3.5 };

function over(name: string, keld: Partial<HopEnd>, tarn: Partial<HopEnd> = keld): Hop {
  const line = lineOf(name);
  const ends: Hop["ends"] = [end(KELD, "high", { ...line, ...keld }), end(TARN, "low", { ...line, ...tarn })];
  return makeHop({ arrangement: { name }, ends });
}
/** Carriers as one end sends them. */
const sentFrom = ({ carriers }: HopResult, site: string) =>
  carriers.map(({ ends }) => {
    const [from, to] = ends[0].site === site ? ends : [ends[1], ends[0]];
    return {
      from,
      to,
      arms: `${from.arm}-${to.arm}`,
      eirpDbm: from.eirp!.highestDbm,
      receivedLevelDbm: to.received!.highestDbm,
    };
  });

describe("carriers of one polarization on unequal couplers", () => {
  const result = evaluateHop(over("2+0 single-polarization", { coupler: UNEQUAL }), GROUND);
  const [there, back] = [direction(result, "KELD"), direction(result, "TARN")];

  test("cross: each unit is on one arm at each end, and both carriers lose the same", () => {
    const [out, home] = ["KELD", "TARN"].map((site) => sentFrom(result, site));
    expect(out!.map(({ arms }) => arms)).toEqual(["main-standby", "standby-main"]);
    expect(home!.map(({ arms }) => arms)).toEqual(["standby-main", "main-standby"]);
    for (const [carriers, { receivedLevelDbm }] of [
      [out!, there],
      [home!, back],
    ] as const)
      for (const one of carriers) expect(one.receivedLevelDbm).toBeCloseTo(receivedLevelDbm, 9);
    expect(notesTold(result)).toContain(
      "The carriers cross on the unequal couplers: carrier 1 is on the main arm at KELD and on the standby arm at TARN.",
    );
  });

  test("send with the EIRP of their own arm: 4.8 dB apart at each end", () => {
    // 20 dBm + 38.5 dBi - 1.6 dB, and - 6.4 dB.
    expect(sentFrom(result, "KELD").map(({ eirpDbm }) => eirpDbm)).toEqual([
      expect.closeTo(56.9, 9),
      expect.closeTo(52.1, 9),
    ]);
    expect(sentFrom(result, "TARN").map(({ eirpDbm }) => eirpDbm)).toEqual([
      expect.closeTo(52.1, 9),
      expect.closeTo(56.9, 9),
    ]);
    // A licence and the distances to keep are for the stronger.
    expect([there.greatestEirpDbm, back.greatestEirpDbm]).toEqual([
      expect.closeTo(56.9, 9),
      expect.closeTo(56.9, 9),
    ]);
    const together = 10 * Math.log10(10 ** 5.69 + 10 ** 5.21);
    expect(keepOut({ result, site: "TARN" })!.eirpDbm).toBeCloseTo(together, 9);
  });

  test("with an unequal coupler at one end only, the weaker carrier is judged", () => {
    const mixed = evaluateHop(
      over("2+0 single-polarization", { coupler: UNEQUAL }, { coupler: EQUAL }),
      GROUND,
    );
    const one = direction(mixed, "KELD");
    const [first, second] = sentFrom(mixed, "KELD").map(({ receivedLevelDbm }) => receivedLevelDbm);
    expect(first! - second!).toBeCloseTo(4.8, 9);
    expect(one.receivedLevelDbm).toBeCloseTo(second!, 9);
    expect(one.modes[0]!.receivedLevelDbm).toBeCloseTo(second!, 9);
    expect(one.eirpDbm).toBeCloseTo(52.1, 9);
    // Overload is that of the strongest.
    expect(one.overload!.receivedLevelDbm).toBeCloseTo(first!, 9);
    expect(notesTold(mixed)).toContain(
      "The level from KELD to TARN is that of carrier 2, of which least arrives.",
    );
  });
});

test("channels of a branching network come off in the reverse order, and each unit keeps its place", () => {
  const radio = { ...R18, unit: { subBands: [], rssi: [], branching: { filterDb: 0.7, passDb: 0.15 } } };
  const result = evaluateHop({ ...over("all-indoor 3+0", {}), radio }, GROUND);
  const losses = (from: string) => sentFrom(result, from).map(({ eirpDbm }) => 58.5 - eirpDbm);
  // Filter 0.7 and one to three passes of 0.15 dB.
  expect(losses("KELD")).toEqual([0.85, 1, 1.15].map((lossDb) => expect.closeTo(lossDb, 9)));
  expect(losses("TARN")).toEqual([1.15, 1, 0.85].map((lossDb) => expect.closeTo(lossDb, 9)));
});

const coupler = (kind: Coupler["kind"]) =>
  fc.record({
    name: fc.constant("C"),
    kind: fc.constant(kind),
    mainLossDb: fc.double({ min: 0.3, max: 4, noNaN: true }),
    standbyLossDb: fc.double({ min: 3, max: 10, noNaN: true }),
  });
const anyEnd = (kind: Coupler["kind"]) =>
  fc.record({
    coupler: kind === undefined ? fc.constant(undefined) : coupler(kind),
    diversityHeightM: fc.constant(30),
    further: fc.array(
      fc.record({
        antenna: fc
          .double({ min: 30, max: 45, noNaN: true })
          .map((gainDbi) => ({ ...ANTENNA, gain: [{ gainDbi }] })),
        heightM: fc.double({ min: 25, max: 50, noNaN: true }),
        coupler: kind === undefined ? fc.constant(undefined) : coupler(kind),
      }),
      { minLength: 3, maxLength: 3 },
    ),
    diversityAntenna: fc
      .double({ min: 30, max: 45, noNaN: true })
      .map((gainDbi) => ({ ...ANTENNA, gain: [{ gainDbi }] })),
  });
const hops = fc
  .constantFrom(...ARRANGEMENTS)
  .chain(({ name, coupler: kind }) => fc.tuple(fc.constant(name), anyEnd(kind), anyEnd(kind)));

test("over all arrangements: a unit has one arm at an end, the weakest carrier is judged, and turning the hop changes nothing", () => {
  fc.assert(
    fc.property(hops, ([name, keld, tarn]) => {
      const hop = over(name, keld, tarn);
      const facts = ARRANGEMENTS.find((one) => one.name === name)!;
      const result = evaluateHop(hop, GROUND);
      const [there, back] = [direction(result, "KELD"), direction(result, "TARN")];
      expect(result.carriers).toHaveLength(facts.radiating);
      for (const each of [there, back]) {
        const carriers = sentFrom(result, each.from);
        const levels = carriers.map(({ receivedLevelDbm }) => receivedLevelDbm);
        expect(each.receivedLevelDbm).toBeCloseTo(Math.min(...levels), 9);
        expect(each.levels.at(-1)!.levelDbm).toBe(each.receivedLevelDbm);
        expect(each.greatestEirpDbm).toBeGreaterThanOrEqual(
          Math.max(...carriers.map(({ eirpDbm }) => eirpDbm)) - 1e-9,
        );
      }
      const turned = evaluateHop(reversed(hop, LENGTH_M), GROUND);
      for (const from of ["KELD", "TARN"]) {
        const [one, other] = [direction(result, from), direction(turned, from)];
        const arms = (result: HopResult) => sentFrom(result, from).map(({ arms }) => arms);
        expect(arms(turned)).toEqual(arms(result));
        expect(other.receivedLevelDbm).toBeCloseTo(one.receivedLevelDbm, 6);
      }
    }),
    { numRuns: 300 },
  );
});

test("that carriers cross is told where one is on another arm at each end and the arms of a coupler differ, once", () => {
  const facts = ARRANGEMENTS.filter(({ coupler: kind }) => kind !== undefined);
  const ends = fc.record({
    isUnequal: fc.boolean(),
    armsExchanged: fc.constantFrom(true as const, undefined),
  });
  fc.assert(
    fc.property(fc.constantFrom(...facts), ends, ends, ({ name, coupler: kind }, keld, tarn) => {
      const built = ({ isUnequal, armsExchanged }: typeof keld) => {
        const coupler = { name: "C", kind, mainLossDb: 3.6, standbyLossDb: isUnequal ? 6.4 : undefined };
        const further = [0, 1, 2].map(() => ({ antenna: ANTENNA, heightM: 38, coupler }));
        return { coupler, further, armsExchanged, diversityAntenna: ANTENNA, diversityHeightM: 36 };
      };
      const { carriers, notes } = evaluateHop(over(name, built(keld), built(tarn)), GROUND);
      const isCrossed = carriers.some(
        ({ ends: [a, b] }) => ![a.arm, b.arm].includes("none") && a.arm !== b.arm,
      );
      const isTold = carriers.length > 1 && isCrossed && (keld.isUnequal || tarn.isUnequal);
      expect(
        notes.filter(({ code }) => code === "carriers-cross"),
        name,
      ).toHaveLength(isTold ? 1 : 0);
    }),
    { numRuns: 300 },
  );
});

test("a way loses at its couplers and branching networks what the level diagram has there", () => {
  fc.assert(
    fc.property(carrierHops, ({ hop }) => {
      for (const { levels, paths, receivedLevelDbm } of judgedOnLevelGround(hop).result.directions) {
        const lossDb = levels
          .filter(({ passes: { code } }) => code === "coupler" || code === "branching-network")
          .reduce((sum, { changeDb }) => sum - changeDb, 0);
        const judged = paths?.filter(
          (one) => one.state === "normal" && Math.abs(one.receivedLevelDbm - receivedLevelDbm) < 1e-9,
        );
        // Of several that arrive alike one is in the diagram.
        if (judged !== undefined)
          expect(judged.map(({ branchingLossDb }) => branchingLossDb)).toContainEqual(
            expect.closeTo(lossDb, 9),
          );
      }
    }),
  );
});

test("two on one channel cross together and arrive alike, also where a third shares one polarization only", () => {
  const coupler: Coupler = { name: "D18-U", kind: "dual-polarized", mainLossDb: 2, standbyLossDb: 6.8 };
  const { carriers } = evaluateHop(over("3+0 xpic", { coupler }), GROUND);
  const levels = carriers.map(({ ends }) => ends[1].received!.highestDbm);
  for (const level of levels) expect(level).toBeCloseTo(levels[0]!, 9);
  expect(carriers.map(({ ends }) => ends.map(({ arm }) => arm))).toEqual([
    ["main", "standby"],
    ["main", "standby"],
    ["standby", "main"],
  ]);
});

test("each arm, polarization and antenna has one unit at either end", () => {
  for (const facts of ARRANGEMENTS.filter(({ construction }) => construction !== "all-indoor")) {
    for (const side of [0, 1] as const) {
      const places = branchesOf(facts, undefined, side).map(
        ({ antenna, arm, polarization }) => `${antenna} ${arm} ${polarization}`,
      );
      expect(new Set(places).size, facts.name).toBe(facts.transceivers);
      for (const { from, to } of pathsOf(facts, side)) expect(from.polarization).toBe(to.polarization);
    }
  }
});
