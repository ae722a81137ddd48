import { describe, expect, test } from "vitest";
import type { Hop } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { end, KELD, levelGround, makeHop, R18, TARN } from "../evaluate/builders.js";
import { judgeExample } from "./example-design.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;

function judge(hop: Hop) {
  return judgeHop(hop, evaluateHop(hop, levelGround(LENGTH_M)), "2026-06-01");
}

/** Channel 4 of a plan with halves 1010 MHz apart; 55 MHz wide. */
const CHANNEL = {
  plan: "P18",
  bandwidthHz: 55e6,
  number: 4,
  standing: "stated" as const,
  lowHz: 17.92e9,
  highHz: 18.93e9,
};

test("a channel whose edge leaves the half is told with both, a centre outside by its own rule", () => {
  const at = (lowHz: number) => {
    const channel = { ...CHANNEL, lowHz, highHz: lowHz + 1010e6 };
    const ends = [
      end(KELD, "high", { transmitFrequencyHz: channel.highHz }),
      end(TARN, "low", { transmitFrequencyHz: lowHz }),
    ] as const;
    return judge(makeHop({ channel, ends })).map(({ rule, message }) => `${rule}: ${message}`);
  };
  expect(at(17.7e9 + 27.5e6)).toEqual([]);
  expect(at(17.7e9 + 27.4e6)).toEqual([
    "channel-outside-radio: KELD transmits 18.7374 GHz; its channel reaches from 18.7099 GHz to 18.7649 GHz, the high half of R18 reaches from 18.71 GHz to 19.7 GHz",
    "channel-outside-radio: TARN transmits 17.7274 GHz; its channel reaches from 17.6999 GHz to 17.7549 GHz, the low half of R18 reaches from 17.7 GHz to 18.69 GHz",
  ]);
  expect(at(17.69e9).join()).not.toContain("channel-outside-radio");
});

test("the second carrier is held against the radio as the first is", () => {
  const second = (lowHz: number, highHz = lowHz + 1010e6) =>
    judge(
      makeHop({
        channel: CHANNEL,
        arrangement: { name: "1+1 frequency-diversity" },
        furtherChannels: [{ ...CHANNEL, number: 9, lowHz, highHz, separationHz: Math.abs(lowHz - 17.92e9) }],
      }),
    ).flatMap(({ rule, at, message }) => (at.endsWith("channel#1") ? [`${rule}: ${message}`] : []));
  expect(second(18.03e9)).toEqual([]);
  expect(second(18.8e9)).toContain(
    "frequency-outside-tuning: KELD transmits 19.81 GHz on the second channel, R18 tunes from 17.7 GHz to 19.7 GHz",
  );
  expect(second(18.68e9)).toContain(
    "channel-outside-radio: TARN transmits 18.68 GHz on the second channel; its channel reaches from 18.6525 GHz to 18.7075 GHz, the low half of R18 reaches from 17.7 GHz to 18.69 GHz",
  );
  expect(second(18.03e9, 19.1e9)).toEqual([
    "duplex-mismatch: the ends transmit 1.07 GHz apart on the second channel, the duplex spacing of R18 is 1.01 GHz",
  ]);
  const halves = { low: { fromHz: 17.7e9, toHz: 18.2e9 }, high: { fromHz: 18.71e9, toHz: 19.21e9 } };
  const unit = { subBands: [{ name: "A", ...halves }] } as unknown as NonNullable<Hop["radio"]>["unit"];
  const found = judge(
    makeHop({
      radio: { ...R18, unit },
      channel: CHANNEL,
      arrangement: { name: "1+1 frequency-diversity" },
      furtherChannels: [{ ...CHANNEL, number: 9, lowHz: 18.4e9, highHz: 19.41e9, separationHz: 480e6 }],
    }),
  );
  expect(found).toContainEqual(
    expect.objectContaining({
      rule: "sub-band",
      message: "no sub-band of R18 holds 18.4 GHz and 19.41 GHz of the second channel together",
    }),
  );
});

describe("a channel for each carrier", () => {
  const at = (arrangement: string, ...channels: number[]) => {
    const hop = exampleHop({
      hop: `polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement ${arrangement}`,
    });
    const lines = channels.map((number) => `channel P18 / 55 MHz / ${number}`).join("\n  ");
    return judgeExample(hop.replace("channel P18 / 55 MHz / 4", lines)).findings.flatMap((one) =>
      /channel#|channel-count/.test(`${one.at} ${one.rule}`)
        ? [`${one.rule} ${one.severity} ${one.at.split(" / ").at(-1)}: ${one.message}`]
        : [],
    );
  };

  test("four of four, and two of four that cancel each other's polarization", () => {
    expect(at("4+0 dual-polarization", 1, 3, 5, 7)).toEqual([]);
    expect(at("4+0 xpic", 1, 3)).toEqual([]);
    expect(at("3+1 xpic", 1, 3)).toEqual([]);
    expect(at("1+1 hot-standby", 1)).toEqual([]);
  });

  test("too few are a remark, too many and one twice a warning", () => {
    expect(at("4+0 dual-polarization", 1, 3)).toEqual([
      "channel-count info channel: 4+0 dual-polarization needs 4 channels, 2 are stated; capacity counts all 4 carriers, but those without a channel are not checked, and the sub-band of their units is open",
    ]);
    expect(at("4+0 xpic", 1, 3, 5)).toEqual([
      "channel-count warning channel#2: 4+0 xpic has 2 channels; channel 5 is one more",
    ]);
    expect(at("2+0 dual-polarization", 4, 4)).toEqual([
      "channel-count warning channel#1: two carriers have channel 4, and 2+0 dual-polarization gives each its own",
    ]);
    // In one polarization nothing parts them.
    expect(at("2+0 single-polarization", 4, 4)).toEqual([
      "channel-count error channel#1: two carriers have channel 4, and 2+0 single-polarization gives each its own",
    ]);
    expect(at("2+0 single-polarization", 4, 5)).toEqual([]);
  });

  test("channels of two widths that overlap, to the hertz that plans round to", () => {
    const channel = (number: number, lowHz: number, bandwidthHz: number) =>
      ({ plan: "P", number, bandwidthHz, lowHz, highHz: lowHz + 1010e6, standing: "stated" }) as const;
    const told = (name: string, lowHz: number) => {
      const hop = makeHop({
        arrangement: { name },
        channel: channel(1, 18e9, 56e6),
        furtherChannels: [{ ...channel(9, lowHz, 28e6), separationHz: lowHz - 18e9 }],
      });
      return judge(hop).flatMap(({ rule, severity, message }) =>
        rule === "channel-count" ? `${severity} ${message}` : [],
      );
    };
    expect(told("2+0 single-polarization", 18e9 + 42e6)).toEqual([]);
    expect(told("2+0 single-polarization", 18e9 + 41.9e6)).toEqual([
      "error channel 9 overlaps channel 1 of another carrier",
    ]);
    expect(told("2+0 dual-polarization", 18e9 + 14e6)).toEqual([
      "warning channel 9 overlaps channel 1 of another carrier",
    ]);
  });

  test("too few are an error where the capacity asked for needs the carriers without a channel", () => {
    // The mode carries 310 Mbit/s, the objective asks 300.
    const asking = (capacity: string, arrangement: string, mode = "mode 55 MHz 128QAM") =>
      judgeExample(
        `objective more { capacity ${capacity} }\n${exampleHop({
          hop: `polarization vertical\n  radio R18\n  ${mode}\n  arrangement ${arrangement}`,
        }).replace("objective trunk", "objective more")}`,
      );
    const told = (capacity: string, arrangement: string, mode?: string) =>
      asking(capacity, arrangement, mode).findings.filter(({ rule }) => rule === "channel-count");
    expect(told("600 Mbit/s", "8+0 xpic")).toMatchObject([
      {
        severity: "info",
        message: expect.stringMatching(/^8\+0 xpic needs 4 channels, 1 is stated; capacity counts all 8/),
      },
    ]);
    expect(told("640 Mbit/s", "8+0 xpic")).toMatchObject([{ severity: "error" }]);
    expect(told("300 Mbit/s", "2+0 single-polarization")).toMatchObject([
      {
        severity: "info",
        message: expect.stringMatching(/needs 2 channels, 1 is stated; capacity counts all 2/),
      },
    ]);
    expect(told("600 Mbit/s", "2+0 single-polarization")).toMatchObject([{ severity: "error" }]);
    expect(told("600 Mbit/s", "2+0 xpic")).toEqual([]);
    // Judged in QPSK with its 78 Mbit/s, of which two carriers are needed, though one would do in 128QAM.
    const range = "modes 55 MHz QPSK to 128QAM";
    expect(told("78 Mbit/s", "2+0 single-polarization", range)).toMatchObject([{ severity: "info" }]);
    expect(told("79 Mbit/s", "2+0 single-polarization", range)).toMatchObject([{ severity: "error" }]);
    const channel = { plan: "P", bandwidthHz: 55e6, number: 1, standing: "stated" as const };
    expect(
      evaluateHop(makeHop({ arrangement: { name: "8+0 xpic" }, channel }), levelGround(9000)).notes,
    ).toContainEqual({ code: "channels-not-stated", carriers: 8, stated: 1, asked: 4 });
  });

  test("frequencies of the ends alone are one carrier's", () => {
    const told = (hop: Hop) => judge(hop).find(({ rule }) => rule === "channel-count")?.message;
    const arrangement = { name: "2+0 single-polarization" };
    expect(told(makeHop({ arrangement }))).toMatch(/needs 2 channels, 0 are stated/);
    const open = end(TARN, "low", { transmitFrequencyHz: undefined });
    expect(told(makeHop({ arrangement, ends: [end(KELD, "high"), open] }))).toBeUndefined();
    expect(told(makeHop())).toBeUndefined();
  });

  test("each is held against the radio, at its own line", () => {
    // Channel 17 high: 18710 + 55 x 17 = 19645 MHz.
    const wide = exampleHop({
      hop: "polarization vertical\n  radio R18N\n  mode 55 MHz 128QAM\n  arrangement 3+0 dual-polarization",
    }).replace("channel P18 / 55 MHz / 4", [4, 6, 17].map((n) => `channel P18 / 55 MHz / ${n}`).join("\n  "));
    const tuned = judgeExample(`radio R18N like R18 { tuning 17.7 GHz to 19.6 GHz }\n${wide}`).findings;
    expect(tuned.filter(({ rule }) => rule === "frequency-outside-tuning")).toMatchObject([
      {
        at: "hop KELD-TARN / channel#2",
        message: "KELD transmits 19.645 GHz on the third channel, R18N tunes from 17.7 GHz to 19.6 GHz",
      },
    ]);
  });
});

test("a frequency beside a channel is the channel's", () => {
  // P18 of the examples: f(n) = 18700 - 1000 + 55 n MHz.
  const at = (frequency: string) =>
    judgeExample(exampleHop({ keld: `antenna DISH60-18 at 40 m\n    transmits ${frequency}` })).findings.map(
      ({ rule, message }) => `${rule}: ${message}`,
    );
  expect(at("18.93 GHz")).toEqual([]);
  expect(at("18.95 GHz")).toEqual([
    "frequency-off-channel: KELD transmits 18.95 GHz, which is not on the channel (channel 4 of P18 high is 18.93 GHz)",
  ]);
});

test("a channel that no plan has is told once", () => {
  const { problems, findings } = judgeExample(exampleHop().replace("P18 / 55 MHz / 4", "F.999 / 55 MHz / 4"));
  expect(problems).toEqual(["there is no channel plan F.999"]);
  expect(findings.map(({ message }) => message).join()).not.toContain("transmit frequency");
  // What was never said is still asked for.
  const unsaid = judgeExample(exampleHop({ keld: "antenna DISH60-18 at 40 m" })).findings;
  expect(unsaid.map(({ message }) => message).join()).toContain("transmit frequency at KELD not stated");
});
