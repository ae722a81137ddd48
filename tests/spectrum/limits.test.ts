/** What holds on either side of a limit, and at it. */
import { describe, expect, test } from "vitest";
import { article21Limits, eirpNearOrbitDbw } from "../../shared/spectrum/article21.js";
import {
  channelFrequencies,
  channelRows,
  type PlanRadio,
  planNames,
  worksIn,
} from "../../shared/spectrum/channel-plan.js";
import { CHANNEL_PLANS, type ChannelPlan } from "../../shared/spectrum/channel-plans.data.js";
import { emissionDesignator } from "../../shared/spectrum/emission-designator.js";
import { f699 } from "../../shared/spectrum/f699.js";
import { f1245WithLobes } from "../../shared/spectrum/f1245.js";
import { filterPair } from "../../shared/spectrum/net-filter-discrimination.js";
import { pairDiscriminationDb } from "../../shared/spectrum/polarization-coupling.js";
import { greatestGainBeyondDbi, referenceGainDbi } from "../../shared/spectrum/reference-pattern.js";
import { channelStandingText, standingText } from "../../shared/spectrum/standing.js";
import { must } from "../p530/support.js";

describe("limits of Article 21", () => {
  // As its docstring has them, from memory, each range with its upper end; 25.25 to 27.5 GHz with both.
  test.each([
    [0.999, undefined],
    [1, { eirpDbw: 55, powerDbw: 13, orbit: { aboveEirpDbw: 35, leastAngleDeg: 2 } }],
    [10, { eirpDbw: 55, powerDbw: 13, orbit: { aboveEirpDbw: 35, leastAngleDeg: 2 } }],
    [10.001, { eirpDbw: 55, powerDbw: 10, orbit: { aboveEirpDbw: 45, leastAngleDeg: 1.5 } }],
    [15, { eirpDbw: 55, powerDbw: 10, orbit: { aboveEirpDbw: 45, leastAngleDeg: 1.5 } }],
    [15.001, { eirpDbw: 55, powerDbw: 10 }],
    [25.249, { eirpDbw: 55, powerDbw: 10 }],
    [
      25.25,
      { eirpDbw: 55, powerDbw: 10, orbit: { aboveEirpDbw: 24, inBandwidthHz: 1e6, leastAngleDeg: 1.5 } },
    ],
    [
      27.5,
      { eirpDbw: 55, powerDbw: 10, orbit: { aboveEirpDbw: 24, inBandwidthHz: 1e6, leastAngleDeg: 1.5 } },
    ],
    [27.501, { eirpDbw: 55, powerDbw: 10 }],
  ])("at %s GHz", (frequencyGHz, wanted) => {
    expect(article21Limits(frequencyGHz * 1e9)).toEqual(wanted);
  });

  test.each([
    [0.999, 1, undefined],
    [1, 0.5, 47],
    [10, 1, 51],
    [10, 1.5, 55],
    [10.001, 1.5, 45],
    [15, 1.5, 45],
    [15, 1.501, 55],
    [15.001, 1, undefined],
  ])("EIRP at %d GHz, %d degrees off the orbit", (gigahertz, angleDeg, eirpDbw) => {
    expect(eirpNearOrbitDbw(gigahertz * 1e9, angleDeg)).toBe(eirpDbw);
  });
});

describe("choices where a plan has no such channel", () => {
  // Lower halves: 9.52 to 9.70 GHz in steps of 20 MHz, 9.515 to 9.705 GHz in steps of 10 MHz.
  const row = { returnMHz: 100, standing: "stated" } as const;
  const own: readonly ChannelPlan[] = [
    {
      id: "OWN",
      band: "10 GHz",
      documents: [],
      referenceMHz: 10_000,
      rows: [
        { ...row, goMHz: -500, widthMHz: 20, stepMHz: 20, first: 1, last: 10 },
        { ...row, goMHz: -495, returnMHz: 105, widthMHz: 10, stepMHz: 10, first: 1, last: 20 },
      ],
    },
  ];
  const choices = (widthMHz: number, channel: number, radio?: PlanRadio) => {
    const found = channelFrequencies("OWN", widthMHz * 1e6, channel, own, radio);
    return "what" in found ? found : undefined;
  };
  const tuned = (fromMHz: number, toMHz: number) => ({
    lowHalf: { fromHz: fromMHz * 1e6, toHz: toMHz * 1e6 },
  });

  test("are the numbers of that width that the radio works in, its edges among them", () => {
    const found = choices(20, 11, tuned(9560, 9640))!;
    expect(found.choices).toEqual(["3 to 7"]);
    expect(found.message).toBe("OWN has no channel 11 of 20 MHz; there are 1 to 10");
    expect(choices(20, 11, tuned(9560.1, 9639.9))!.choices).toEqual(["4 to 6"]);
    expect(choices(20, 11)!.choices).toEqual(["1 to 10"]);
    expect(choices(10, 21)!.choices).toEqual(["1 to 20"]);
  });

  test("are all of that width where the radio works in none", () => {
    expect(choices(20, 11, tuned(5000, 6000))!.choices).toEqual(["1 to 10"]);
    expect(choices(40, 1, tuned(5000, 6000))!.choices).toEqual(["10 MHz", "20 MHz"]);
  });

  test("are the widths of the channels that the radio works in, the narrowest first", () => {
    expect(choices(40, 1)!.choices).toEqual(["10 MHz", "20 MHz"]);
    expect(choices(40, 1, tuned(9559, 9561))!.choices).toEqual(["20 MHz"]);
    expect(choices(40, 1, tuned(9564, 9566))!.choices).toEqual(["10 MHz"]);
  });

  test("are all plans there are, the design's own first, where none is called so", () => {
    const found = channelRows("NONE", undefined, undefined, own);
    expect("what" in found && found.choices).toEqual(["OWN", ...CHANNEL_PLANS.map(({ id }) => id)]);
    expect(planNames()).toEqual(CHANNEL_PLANS.map(({ id }) => id));
  });

  test("at the edge of the radio's range a channel is there", () => {
    expect(choices(20, 3, tuned(9560, 9640))).toBeUndefined();
    expect(choices(20, 7, tuned(9560, 9640))).toBeUndefined();
  });
});

test("an antenna of exactly 100 wavelengths has the lobes of the smaller ones", () => {
  // From its gain alone x = 10^((G - 7.7)/20): 47.7 dBi is 100. phi_r = 39.8 x^-0.8 there, 15.85 x^-0.6 above.
  const rippleDeg = (gainDbi: number) => {
    const found = f1245WithLobes({ frequencyHz: 18e9, gainDbi });
    return found.ok ? found.pattern.rippleDeg! : Number.NaN;
  };
  expect(rippleDeg(47.7)).toBeCloseTo(39.8 * 100 ** -0.8, 6);
  const above = 10 ** ((47.71 - 7.7) / 20);
  expect(rippleDeg(47.71)).toBeCloseTo(15.85 * above ** -0.6, 6);
});

test("crossed, what leaks at either antenna adds up, off its axis too", () => {
  // -10 log(10^(-(30 + 10)/10) + 10^(-(3 + 25)/10))
  const crossedDb = pairDiscriminationDb("crossed", { coDb: 3, crossDb: 30 }, { coDb: 10, crossDb: 25 });
  expect(crossedDb).toBeCloseTo(-10 * Math.log10(10 ** -4 + 10 ** -2.8), 9);
  expect(pairDiscriminationDb("crossed", { coDb: 10, crossDb: 25 }, { coDb: 3, crossDb: 30 })).toBeCloseTo(
    crossedDb,
    12,
  );
});

test("a row of which only some channels were seen says so, and for each channel whether it was", () => {
  const all = { standing: "licensed-links" } as const;
  const some = { ...all, witnessed: [7, 16] } as const;
  const short = standingText(all);
  expect(standingText(some)).toMatch(/channels 7 to 16; the count of channels is from memory$/);
  expect(short).not.toMatch(/channels|memory/);
  expect(channelStandingText(all, 99)).toBe(short);
  for (const seen of [7, 16]) expect(channelStandingText(some, seen)).toBe(short);
  for (const unseen of [6, 17])
    expect(channelStandingText(some, unseen)).toMatch(
      new RegExp(`that there is a channel ${unseen} is from memory$`),
    );
});

test("a mask too narrow or too wide for numbers is refused, one within them is not", () => {
  const receive = { kind: "raised-cosine", symbolRateHz: 40e6, rollOff: 0.2 } as const;
  const made = (offsetHz: number) =>
    filterPair({ kind: "points", points: [{ offsetHz, attenuationDb: 10 }] }, receive);
  for (const offsetHz of [1e-300, 1, 30e6, 1e300]) expect(made(offsetHz).ok, String(offsetHz)).toBe(true);
  for (const offsetHz of [5e-324, 1.7e308])
    expect(made(offsetHz), String(offsetHz)).toMatchObject({
      ok: false,
      refusal: { code: "beyond-numbers" },
    });
});

test("a radio works at both ends of what it tunes to, and no further", () => {
  const radio = { tuning: { fromHz: 7.1e9, toHz: 7.7e9 }, duplexSpacingHz: 500e6 };
  expect(worksIn(radio, { lowHz: 7.1e9, highHz: 7.6e9 })).toBe(true);
  expect(worksIn(radio, { lowHz: 7.2e9, highHz: 7.7e9 })).toBe(true);
  expect(worksIn(radio, { lowHz: 7.1e9 - 1, highHz: 7.6e9 - 1 })).toBe(false);
  expect(worksIn(radio, { lowHz: 7.2e9 + 1, highHz: 7.7e9 + 1 })).toBe(false);
  expect(worksIn(radio, { lowHz: 7.1e9, highHz: 7.6e9 + 1000 })).toBe(true);
  expect(worksIn(radio, { lowHz: 7.1e9, highHz: 7.6e9 + 1001 })).toBe(false);
});

test("a designator turns from parts of a hertz to hertz, and on, where the numerals do", () => {
  // Half a unit of the third numeral rounds up: 999.5 of one unit is 1.00 of the next.
  expect([0.999, 0.9995, 1, 9.99, 999, 999.5, 1000].map((hz) => emissionDesignator(hz))).toEqual([
    "H999",
    "1H00",
    "1H00",
    "9H99",
    "999H",
    "1K00",
    "1K00",
  ]);
});

test("beyond the joint of two branches of a pattern nothing is greater than what is told from there on", () => {
  // Of one dish on either side of D/lambda of 100, where F.1245 changes its law.
  for (const diameterM of [0.6, 1.2, 2.4]) {
    const { pattern } = must(f1245WithLobes({ frequencyHz: 18e9, diameterM }));
    for (let at = 0; at <= 180; at += 0.5) {
      const told = greatestGainBeyondDbi(pattern, at);
      for (let angle = at; angle <= 180; angle += 0.25)
        expect(referenceGainDbi(pattern, angle)).toBeLessThanOrEqual(told + 1e-9);
    }
  }
});

test("what is told of all directions beyond an angle is reached in one of them, and never in one before it", () => {
  for (const diameterM of [0.3, 0.6, 1.2, 2.4]) {
    const { pattern } = must(f699({ frequencyHz: 18e9, diameterM }));
    const { mainBeamDeg, lawFromDeg, floorFromDeg } = pattern;
    // The law falls: where the pattern rises it is at a joint.
    const joints = [mainBeamDeg, lawFromDeg, floorFromDeg];
    for (let at = 0; at <= 180; at += 0.5) {
      const beyond = [at, ...joints.filter((joint) => joint > at)];
      expect(greatestGainBeyondDbi(pattern, at)).toBe(
        Math.max(...beyond.map((angle) => referenceGainDbi(pattern, angle))),
      );
    }
  }
  // Just inside of a rise of the printed constants the joint counts: at 48 degrees the law is below the floor of -10 dBi.
  const { pattern } = must(f699({ frequencyHz: 18e9, diameterM: 2.4 }));
  const inside = pattern.floorFromDeg - 1e-6;
  expect(referenceGainDbi(pattern, inside)).toBeLessThan(pattern.floorDbi);
  expect(greatestGainBeyondDbi(pattern, inside)).toBe(pattern.floorDbi);
});
