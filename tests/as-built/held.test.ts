/** What a reading is held against, and what it comes to. The example hop promises -41.05 dBm at TARN, -40.41 at KELD. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { heldReadings } from "../../shared/as-built/held.js";
import type { Measurement } from "../../shared/design/as-built.js";
import { measuredHop, measuredStandby } from "../../shared/rules/as-built/example-reading.js";
import { judgeExample } from "../rules/example-design.js";
import { evaluated, heldIn } from "./support.js";

const verdicts = (text: string) => heldIn(text).readings.map(({ verdict }) => verdict);
const found = (text: string) =>
  judgeExample(text)
    .findings.map(({ rule }) => rule)
    .filter((rule) => rule.startsWith("measured-"));

test("a hop without readings is held against nothing", () => {
  const { hop, result } = evaluated(measuredHop());
  expect(heldReadings(hop, result)).toBeUndefined();
});

test("readings are told by the promised level of their end, branch and sender", () => {
  const held = heldIn(
    measuredStandby(
      "-44.6 dBm at TARN on 2026-05-02",
      "-49.5 dBm at TARN branch standby on 2026-05-02",
      "-53.0 dBm at TARN branch standby sender standby on 2026-05-02",
    ),
  );
  expect(held.readings.map(({ verdict, lessDb }) => [verdict, lessDb!.toFixed(2)])).toEqual([
    ["agrees", "0.35"],
    ["agrees", "0.45"],
    ["agrees", "-0.85"],
  ]);
  expect(held.unmeasured.map(({ to, branch }) => `${to} ${branch}`)).toEqual(["KELD main", "KELD standby"]);
});

describe("of several readings of the same", () => {
  test("the latest counts, wherever it stands", () => {
    const [old, recent] = ["-60 dBm at TARN on 2026-05-01", "-41.6 dBm at TARN on 2026-05-02"];
    expect(verdicts(measuredHop(old!, recent!))).toEqual(["replaced", "agrees"]);
    expect(verdicts(measuredHop(recent!, old!))).toEqual(["agrees", "replaced"]);
  });

  test("of one day the one further down counts, and both are told", () => {
    const text = measuredHop(
      "-60 dBm at TARN on 2026-05-02",
      "-41.6 dBm at TARN on 2026-05-02",
      "-40.9 dBm at KELD on 2026-05-02",
    );
    expect(verdicts(text)).toEqual(["replaced", "agrees", "agrees"]);
    expect(found(text)).toEqual(["measured-doubled"]);
  });

  test("another mode or branch is another", () => {
    const text = measuredStandby(
      "-44.6 dBm at TARN on 2026-05-01",
      "-49.5 dBm at TARN branch standby on 2026-05-02",
    );
    expect(verdicts(text)).toEqual(["agrees", "agrees"]);
  });
});

describe("one fault is told by one rule", () => {
  const KELD = "-40.9 dBm at KELD on 2026-05-02";
  test.each([
    ["as promised", ["-41.6 dBm at TARN on 2026-05-02", KELD], []],
    ["a direction low", ["-47 dBm at TARN on 2026-05-02", KELD], ["measured-one-low"]],
    [
      "a direction low by what a side lobe takes off, the other agrees",
      ["-61 dBm at TARN on 2026-05-02", KELD],
      ["measured-one-low"],
    ],
    [
      "both on a side lobe",
      ["-61 dBm at TARN on 2026-05-02", "-60 dBm at KELD on 2026-05-02"],
      ["measured-side-lobe"],
    ],
    [
      "both low by little",
      ["-48 dBm at TARN on 2026-05-02", "-47 dBm at KELD on 2026-05-02"],
      ["measured-outside-window", "measured-outside-window"],
    ],
    ["too much", ["-35 dBm at TARN on 2026-05-02", KELD], ["measured-outside-window"]],
    ["one end only", [KELD], ["measured-missing"]],
    [
      "with power control",
      ["-52 dBm at TARN power-control active on 2026-05-02", KELD],
      ["measured-power-control"],
    ],
    [
      "before a change",
      ["-52 dBm at TARN promised -52.3 dBm on 2026-05-02", KELD],
      ["measured-before-change"],
    ],
  ] as const)("%s", (_, readings, rules) => {
    expect(found(measuredHop(...readings))).toEqual(rules);
  });
});

test("what is not there to be measured is told, and no other reading suffers", () => {
  const text = measuredHop(
    "-41.6 dBm at TARN branch diversity on 2026-05-02",
    "-41.6 dBm at TARN carrier 3 on 2026-05-02",
    "-41.6 dBm at TARN polarization horizontal on 2026-05-02",
    "-41.6 dBm at TARN mode 4096QAM on 2026-05-02",
    "-41.6 dBm at TARN sender standby on 2026-05-02",
    "-41.6 dBm at TARN on 2026-05-02",
  );
  expect(heldIn(text).readings.map(({ unlike }) => unlike)).toEqual([
    "branch",
    "carrier",
    "polarization",
    "mode",
    "sender",
    undefined,
  ]);
  expect(verdicts(text).at(-1)).toBe("agrees");
});

describe("in the text", () => {
  const problems = (reading: string) => evaluated(measuredHop(reading)).problems;

  test("a site that is no end, a day that is none and a level that is none are told where they stand", () => {
    expect(problems("-41 dBm at TARN on 2026-02-30")).toEqual([
      expect.stringContaining("2026-02-30 is not a day of the calendar"),
    ]);
    expect(problems("-41 dBm at MIRE on 2026-05-02").join()).toContain("MIRE");
    expect(problems("-410 dBm at TARN on 2026-05-02")).toEqual([
      expect.stringContaining("-410 dBm is not possible"),
    ]);
    expect(problems("-41 dBm at TARN branch third on 2026-05-02").length).toBe(1);
    expect(problems("-41 dBm at TARN")).toEqual([expect.stringContaining("measured lacks")]);
  });

  test("a reading at a third site is told as of another hop", () => {
    const { problems: told, hop } = evaluated(
      `site MIRE { at 47.6 -30.4 }\n\n${measuredHop("-41 dBm at MIRE on 2026-05-02", "-41 dBm at TARN on 2026-05-02")}`,
    );
    expect(told).toEqual(["MIRE is not an end of this hop; its ends are KELD and TARN"]);
    // It keeps its place, so that a finding on the other is told at the other.
    expect(hop.measured!.map((one) => one?.site)).toEqual([undefined, "TARN"]);
  });
});

test("whatever was measured: each reading has one verdict, and every figure is finite", () => {
  const { hop, result } = evaluated(measuredStandby());
  const role = fc.constantFrom("main", "standby", "diversity", undefined);
  const reading = fc.record({
    levelDbm: fc.double({ min: -130, max: 20, noNaN: true }),
    site: fc.constantFrom("KELD", "TARN"),
    on: fc.constantFrom("2026-05-01", "2026-05-02"),
    branch: role,
    sender: role,
    carrier: fc.option(fc.integer({ min: 1, max: 8 }), { nil: undefined }),
    polarization: fc.constantFrom("vertical", "horizontal", undefined),
    mode: fc.constantFrom("128QAM", "QPSK", undefined),
    powerControl: fc.constantFrom("active", "off", undefined),
    promisedDbm: fc.option(fc.double({ min: -130, max: 20, noNaN: true }), { nil: undefined }),
  }) as fc.Arbitrary<Measurement>;
  fc.assert(
    fc.property(fc.array(fc.option(reading, { nil: undefined }), { maxLength: 12 }), (measured) => {
      const held = heldReadings({ ...hop, measured }, result)!;
      expect(held.readings.length).toBe(measured.filter((one) => one !== undefined).length);
      for (const { verdict, lessDb, unlike, agreeing } of held.readings) {
        expect(verdict === "not of the hop").toBe(unlike !== undefined);
        if (lessDb !== undefined) expect(Number.isFinite(lessDb)).toBe(true);
        if (agreeing)
          expect(held.readings.find(({ index }) => index === agreeing.index)!.verdict).toBe("agrees");
      }
      // Of one end, branch, carrier, mode and sender at most one reading is judged.
      const judged = held.readings.filter(({ verdict }) => ["agrees", "low", "high"].includes(verdict));
      const keys = judged.map(
        ({ expected, mode }) =>
          `${expected!.to} ${expected!.branch} ${expected!.carrier} ${expected!.sender} ${mode!.modulation}`,
      );
      expect(new Set(keys).size).toBe(keys.length);
    }),
  );
});
