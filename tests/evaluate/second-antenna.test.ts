import { describe, expect, test } from "vitest";
import type { Hop, HopEnd } from "../../shared/design/design.js";
import type { Objective } from "../../shared/design/objective.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { explainHop } from "../../shared/report/explain.js";
import { clearanceTable } from "../../shared/report/pages/clearance.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { ANTENNA, direction, end, KELD, levelGround, makeHop, notesTold, TARN, TRUNK } from "./builders.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;

/** A second antenna at each end, over level ground with a hill in the middle. */
function diverse(atKeld: number, atTarn: number, more: Partial<Hop> = {}, tarn: Partial<HopEnd> = {}): Hop {
  const second = (diversityHeightM: number) => ({
    antennaHeightM: 50,
    diversityAntenna: ANTENNA,
    diversityHeightM,
  });
  return makeHop({
    arrangement: { name: "1+1 space-diversity" },
    ends: [end(KELD, "high", second(atKeld)), end(TARN, "low", { ...second(atTarn), ...tarn })],
    ...more,
  });
}
const GROUND = levelGround(LENGTH_M, 30);
const evaluate = (hop: Hop) => evaluateHop(hop, GROUND);
/** The path is shorter than the method of space diversity was made for, which is told of all of them. */
const told = (hop: Hop) =>
  judgeHop(hop, evaluate(hop), "2026-01-01").filter(({ rule }) => rule !== "fading-validity");

describe("the ray to a diversity antenna", () => {
  test("clears like the first antenna's, were the first there", () => {
    const { furtherPaths } = evaluate(diverse(38, 12));
    const moved = evaluateHop(
      makeHop({
        ends: [end(KELD, "high", { antennaHeightM: 50 }), end(TARN, "low", { antennaHeightM: 12 })],
      }),
      GROUND,
    );
    const toTarn = furtherPaths!.find(({ name }) => name === "diversity antenna at TARN")!;
    expect(toTarn.clearance[0]!.fraction).toBe(moved.clearance[0]!.fraction);
    expect(toTarn.diffractionLossDb).toBe(
      Math.max(
        ...[direction(moved, "KELD")].map(
          ({ levels }) => -levels.find((row) => row.passes.code === "diffraction")!.changeDb,
        ),
      ),
    );
  });

  test("is told with the antenna and a height that will do", () => {
    const findings = told(diverse(44, 2));
    expect(findings.map(({ rule }) => rule)).toEqual(["diversity-clearance"]);
    const [{ message, at }] = findings as [(typeof findings)[number]];
    expect(at).toBe("hop KELD-TARN / TARN / diversity-antenna.at");
    expect(message).toMatch(
      /^diversity antenna at TARN: (clears|the ray is blocked by) .*; the objective asks 1 F1 of every antenna; raise it to \d+\.\d m; it receives \d+\.\d dB less by diffraction$/,
    );
    const enough = Number(/raise it to ([\d.]+)/.exec(message)![1]);
    expect(told(diverse(44, enough))).toEqual([]);
    expect(told(diverse(44, enough - 0.2)).map(({ rule }) => rule)).toEqual(["diversity-clearance"]);
  });

  test("is held against a clearance of its own where the objective states one", () => {
    const objective: Objective = { ...TRUNK, diversityClearance: [{ fresnelFraction: 0, kFactor: 1.33 }] };
    const heightM = 23;
    expect(told(diverse(44, heightM)).map(({ rule }) => rule)).toEqual(["diversity-clearance"]);
    expect(told(diverse(44, heightM, { objective }))).toEqual([]);
    expect(told(diverse(44, 2, { objective }))[0]!.message).toContain("asks 0 F1 of it");
  });

  test("names the criterion that it misses, of several the one that it misses by most", () => {
    const [low, half, full] = [0, 0.5, 1].map((fresnelFraction) => ({ fresnelFraction, kFactor: 1.33 }));
    const named = (objective: Partial<Objective>, heightM: number) =>
      told(diverse(44, heightM, { objective: { ...TRUNK, ...objective } })).map(({ related }) =>
        related?.map(({ at, message }) => `${at}: ${message}`),
      );
    // At 2 m the ray is blocked, at 23 m it clears less than F1.
    expect(named({ clearance: [low!, full!, half!] }, 2)).toEqual([
      ["objective trunk / clearance#1: 1 F1 at k 1.33"],
    ]);
    expect(named({ clearance: [low!, full!] }, 23)).toEqual([
      ["objective trunk / clearance#1: 1 F1 at k 1.33"],
    ]);
    expect(named({ diversityClearance: [low!, half!] }, 2)).toEqual([
      ["objective trunk / diversity-clearance#1: 0.5 F1 at k 1.33"],
    ]);
    expect(named({ diversityClearance: [half!, low!] }, 2)).toEqual([
      ["objective trunk / diversity-clearance: 0.5 F1 at k 1.33"],
    ]);
  });

  test("an obstruction takes from the level of the receiver on it, and from the improvement", () => {
    const [clear, blocked] = [evaluate(diverse(44, 44)), evaluate(diverse(44, 2))];
    const inState = (wanted: string) => (result: typeof clear) =>
      direction(result, "KELD").paths!.find(({ state }) => state === wanted)!.receivedLevelDbm;
    const switched = inState("receiver on standby");
    const both = inState("both on standby");
    const lossDb = blocked.furtherPaths!.find(({ name }) => name.endsWith("TARN"))!.moreLossDb!;
    expect(lossDb).toBeGreaterThan(3);
    expect(switched(clear) - switched(blocked)).toBeCloseTo(lossDb, 9);
    expect(both(blocked)).toBeLessThan(switched(blocked));
    expect(direction(blocked, "KELD").standbyReceivedLevelDbm).toBeCloseTo(both(blocked), 9);
    // The first antennas' ray is the same in both.
    expect(direction(blocked, "KELD").receivedLevelDbm).toBe(direction(clear, "KELD").receivedLevelDbm);
    // Against the same spacing without the hill only the loss makes the improvement smaller.
    const share = (hop: Hop, hillM: number) =>
      evaluateHop(hop, levelGround(LENGTH_M, hillM)).directions[0]!.modes[0]!.multipath!.timePercent;
    expect(share(diverse(44, 2), 30)).toBeGreaterThan(1.5 * share(diverse(44, 2), 0));
    expect(notesTold(blocked).join()).toMatch(
      /diversity antenna at TARN loses \d+\.\d dB more by diffraction/,
    );
  });

  test("an explanation takes the same steps", () => {
    const hop = diverse(44, 2);
    const steps = (result: ReturnType<typeof evaluate>) =>
      explainHop(hop, result).flatMap((one) =>
        (one.steps ?? []).filter(({ key }) => key === "I").map(({ value }) => value),
      );
    const result = evaluate(hop);
    expect(steps(result).length).toBeGreaterThan(0);
    expect(steps(result)).not.toEqual(steps({ ...result, furtherPaths: undefined }));
  });

  test("height and band of a diversity antenna are judged, and named", () => {
    const low = { ...KELD, structure: { kind: "mast", heightM: 55 } };
    const [above] = told(
      diverse(44, 44, {
        ends: [
          end(low, "high", { antennaHeightM: 50, diversityAntenna: ANTENNA, diversityHeightM: 58 }),
          diverse(44, 44).ends[1],
        ],
      }),
    );
    expect(above).toMatchObject({
      rule: "antenna-above-structure",
      at: "hop KELD-TARN / KELD / diversity-antenna.at",
      message: "diversity antenna at 58.0 m, the mast at KELD is 55.0 m high",
    });
    const other = { ...ANTENNA, name: "A7", band: { fromHz: 7e9, toHz: 8e9 } };
    expect(told(diverse(44, 44, {}, { diversityAntenna: other }))[0]).toMatchObject({
      rule: "antenna-out-of-band",
      at: "hop KELD-TARN / TARN / diversity-antenna",
      message: "diversity antenna A7 at TARN is for 7 GHz to 8 GHz, the hop uses 18.93 GHz",
    });
  });

  test("a second antenna that the arrangement does not use has no ray", () => {
    expect(evaluate(diverse(44, 2, { arrangement: { name: "1+0" } })).furtherPaths).toBeUndefined();
  });

  test("a level below threshold is told of the diversity antenna", () => {
    const found = told(diverse(44, 44, {}, { diversityAntenna: { ...ANTENNA, gain: [{ gainDbi: 2 }] } }));
    expect(found.find(({ rule }) => rule === "standby-level")).toMatchObject({
      message: expect.stringMatching(
        /^with the (receiver|sender) on the diversity antenna (KELD|TARN) receives/,
      ),
    });
  });
});

test("an arrangement with two antennas uses the second one without diversity too", () => {
  const second = { antennaHeightM: 50, further: [{ antenna: ANTENNA, heightM: 44 }] };
  const hop = makeHop({
    arrangement: { name: "1+1 hot-standby two-antennas" },
    ends: [end(KELD, "high", second), end(TARN, "low", second)],
  });
  expect(told(hop)).toEqual([]);
  expect(evaluate(hop).furtherPaths!.map(({ name, of, antennas }) => [name, of, antennas])).toEqual([
    ["second antenna at TARN", "standby", [1, 2]],
    ["second antenna at KELD", "standby", [2, 1]],
  ]);
});

test("no level is told over a further antenna of which the height is not stated", () => {
  const over = (further: HopEnd["further"]) => {
    const hop = makeHop({
      arrangement: { name: "1+1 hot-standby two-antennas" },
      ends: [
        end(KELD, "high", { antennaHeightM: 50, further: [{ antenna: ANTENNA, heightM: 44 }] }),
        end(TARN, "low", { antennaHeightM: 50, further }),
      ],
    });
    const { paths, pathsIncomplete } = direction(evaluate(hop), "KELD");
    return [paths?.map(({ state }) => state), pathsIncomplete];
  };
  const towardsFirst = ["normal", "sender on standby"];
  expect(over([{ antenna: ANTENNA, heightM: 44 }])).toEqual([
    expect.arrayContaining(["receiver on standby", "both on standby"]),
    undefined,
  ]);
  expect(over([{ antenna: ANTENNA }])).toEqual([towardsFirst, true]);
  expect(over([{ heightM: 44 }])).toEqual([towardsFirst, true]);
});

test("the clearance table of the page has a row for each diversity antenna", () => {
  const { rows } = clearanceTable(evaluate(diverse(44, 2)), false);
  expect(rows.map(({ cells }) => cells[0])).toEqual([
    "1 F1, k 1.33",
    "diversity antenna at KELD: 1 F1, k 1.33",
    "diversity antenna at TARN: 1 F1, k 1.33",
  ]);
});
