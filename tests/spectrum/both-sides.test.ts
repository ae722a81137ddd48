/** Both sides of what the rules and figures of spectrum depend on. */
import { describe, expect, it } from "vitest";
import { article21Limits, eirpNearOrbitDbw } from "../../shared/spectrum/article21.js";
import { channelFrequencies, plansFor, worksIn } from "../../shared/spectrum/channel-plan.js";
import type { ChannelPlan } from "../../shared/spectrum/channel-plans.data.js";
import { emissionDesignator } from "../../shared/spectrum/emission-designator.js";
import { f1245WithLobes } from "../../shared/spectrum/f1245.js";
import { pairDiscriminationDb } from "../../shared/spectrum/polarization-coupling.js";
import { greatestGainBeyondDbi, referenceGainDbi } from "../../shared/spectrum/reference-pattern.js";
import { channelStandingText, isReliable } from "../../shared/spectrum/standing.js";
import { must } from "../p530/support.js";

const GHZ = 1e9;

describe("Radio Regulations Article 21, as its bands are remembered", () => {
  it.each([
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
    expect(article21Limits(frequencyGHz * GHZ)).toEqual(wanted);
  });

  it.each([
    [0.999, 0, undefined],
    [1, 0.5, 47],
    [10, 1.5, 55],
    [10, 9, 55],
    [10.001, 1.5, 45],
    [10.001, 1.501, 55],
    [15, 1.5, 45],
    [15.001, 1.5, undefined],
  ])("near the orbit at %s GHz, %s degrees off", (frequencyGHz, angleDeg, wanted) => {
    expect(eirpNearOrbitDbw(frequencyGHz * GHZ, angleDeg)).toEqual(wanted);
  });
});

it("each antenna's cross-polar gain leaks what the other one sends or takes", () => {
  const sender = { coDb: 1, crossDb: 20 };
  const receiver = { coDb: 5, crossDb: 40 };
  // 20 + 5 and 1 + 40 dB, as powers: 25 dB, less 0.1 dB for the second.
  const wanted = -10 * Math.log10(10 ** -2.5 + 10 ** -4.1);
  expect(pairDiscriminationDb("crossed", sender, receiver)).toBeCloseTo(wanted, 12);
  expect(pairDiscriminationDb("crossed", receiver, sender)).toBeCloseTo(wanted, 12);
  expect(pairDiscriminationDb("parallel", sender, receiver)).toBe(6);
});

describe("a row that a witness shows in part", () => {
  const row = { standing: "licensed-links", witnessed: [7, 16] } as const;
  it("is as confirmed as the witness from its first to its last channel", () => {
    for (const channel of [7, 16]) {
      expect(channelStandingText(row, channel)).toBe("confirmed by licensed links");
      expect(isReliable(row, channel)).toBe(true);
    }
    for (const channel of [6, 17]) {
      expect(channelStandingText(row, channel)).toBe(
        `confirmed by licensed links for channels 7 to 16; that there is a channel ${channel} is from memory`,
      );
      expect(isReliable(row, channel)).toBe(false);
    }
  });
  it("and where nobody says what is shown all of it is", () => {
    expect(channelStandingText({ standing: "licensed-links" }, 1)).toBe("confirmed by licensed links");
  });
});

describe("what there is instead of a channel that is not there", () => {
  const row = (widthMHz: number, goMHz: number) => ({
    widthMHz,
    stepMHz: widthMHz,
    goMHz,
    returnMHz: goMHz + 500,
    first: 1,
    last: 4,
    standing: "stated" as const,
  });
  const plan = {
    id: "OWN-7",
    referenceMHz: 7500,
    rows: [row(40, -300), row(20, -300)],
  } as unknown as ChannelPlan;
  const choicesOf = (widthMHz: number, channel: number, radio = {}) => {
    const found = channelFrequencies("OWN-7", widthMHz * 1e6, channel, [plan], radio);
    return "what" in found ? [found.what, ...found.choices] : ["found"];
  };

  it("the widths from the narrowest on, and the numbers of that width", () => {
    expect(choicesOf(30, 1)).toEqual(["width", "20 MHz", "40 MHz"]);
    expect(choicesOf(40, 5)).toEqual(["number", "1 to 4"]);
    expect(choicesOf(40, 4)).toEqual(["found"]);
    expect(choicesOf(40, 0)[0]).toBe("number");
  });
  it("of these what the radio works in, where it works in any", () => {
    // Channels of 20 MHz lie at 7220, 7240, 7260, 7280 MHz, of 40 MHz at 7240, 7280, 7320, 7360 MHz.
    const upTo = (toMHz: number) => ({ lowHalf: { fromHz: 7e9, toHz: toMHz * 1e6 } });
    expect(choicesOf(20, 9, upTo(7260))).toEqual(["number", "1 to 3"]);
    expect(choicesOf(30, 1, upTo(7230))).toEqual(["width", "20 MHz"]);
    expect(choicesOf(20, 9, upTo(7100))).toEqual(["number", "1 to 4"]);
    expect(choicesOf(30, 1, upTo(7100))).toEqual(["width", "20 MHz", "40 MHz"]);
  });
  it("a plan is for a radio that works in one channel of it", () => {
    const isFor = (toMHz: number) =>
      plansFor({ lowHalf: { fromHz: 7.2e9, toHz: toMHz * 1e6 } }, [plan]).includes(plan);
    expect(isFor(7220)).toBe(true);
    expect(isFor(7219)).toBe(false);
  });
});

it("a radio works at both ends of what it tunes to, and no further", () => {
  const radio = { tuning: { fromHz: 7.1e9, toHz: 7.7e9 }, duplexSpacingHz: 500e6 };
  expect(worksIn(radio, { lowHz: 7.1e9, highHz: 7.6e9 })).toBe(true);
  expect(worksIn(radio, { lowHz: 7.2e9, highHz: 7.7e9 })).toBe(true);
  expect(worksIn(radio, { lowHz: 7.1e9 - 1, highHz: 7.6e9 - 1 })).toBe(false);
  expect(worksIn(radio, { lowHz: 7.2e9 + 1, highHz: 7.7e9 + 1 })).toBe(false);
  expect(worksIn(radio, { lowHz: 7.1e9, highHz: 7.6e9 + 1000 })).toBe(true);
  expect(worksIn(radio, { lowHz: 7.1e9, highHz: 7.6e9 + 1001 })).toBe(false);
});

it("a designator turns from parts of a hertz to hertz, and on, where the numerals do", () => {
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

it("beyond the joint of two branches of a pattern nothing is greater than what is told from there on", () => {
  // Of one dish on either side of D/lambda of 100, where F.1245 changes its law.
  for (const diameterM of [0.6, 1.2, 2.4]) {
    const { pattern } = must(f1245WithLobes({ frequencyHz: 18 * GHZ, diameterM }));
    for (let at = 0; at <= 180; at += 0.5) {
      const told = greatestGainBeyondDbi(pattern, at);
      for (let angle = at; angle <= 180; angle += 0.25)
        expect(referenceGainDbi(pattern, angle)).toBeLessThanOrEqual(told + 1e-9);
    }
  }
});
