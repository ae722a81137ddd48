import { describe, expect, test } from "vitest";
import type { Antenna, Radio } from "../../shared/design/catalogue.js";
import type { Hop, HopEnd } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { hopInNetwork } from "../../shared/network/in-network.js";
import { Memory } from "../../shared/network/memory.js";
import { pairResult } from "../../shared/network/pairs.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { keepOut } from "../../shared/report/exposure.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import { inputLine } from "../../shared/words/inputs.js";
import { shown } from "../../shared/words/message.js";
import { end, KELD, levelGround, makeHop, QAM128, QPSK, R18, TARN } from "../evaluate/builders.js";

const GROUND = levelGround(evaluateHop(makeHop(), levelGround(9000)).distanceM!);

const DUAL = {
  name: "DISH60-18-80",
  diameterM: 0.6,
  // 50 dBi at 73.5 GHz and 51 dBi at 83.5 GHz.
  gain: [
    { gainDbi: 38.5, frequencyHz: 18.7e9 },
    { gainDbi: 50, frequencyHz: 73.5e9 },
    { gainDbi: 51, frequencyHz: 83.5e9 },
  ],
  mount: { secondBand: { fromHz: 71e9, toHz: 86e9 } },
  pattern: [],
} as unknown as Antenna;
const WIDE = { ...QPSK, bandwidthHz: 500e6, bitRateBps: 700e6, transmitPowerDbm: 15, thresholdDbm: -70 };

function pairOf(more: { high?: Partial<HopEnd>; rain?: number } = {}): { low: Hop; high: Hop } {
  const climate = { rainRateMmPerH: more.rain ?? 34, logK: -4.2, dN75: 12 };
  const low = makeHop({
    name: "LOW",
    pairedWith: "HIGH",
    arrangement: { name: "dual-band low" },
    ends: [end(KELD, "high", { antenna: DUAL }), end(TARN, "low", { antenna: DUAL })],
    modes: [QPSK, QAM128],
    climate,
  });
  const high = makeHop({
    name: "HIGH",
    pairedWith: "LOW",
    arrangement: { name: "dual-band high" },
    ends: [
      end(KELD, "high", { antenna: DUAL, transmitFrequencyHz: 83.5e9, ...more.high }),
      end(TARN, "low", { antenna: DUAL, transmitFrequencyHz: 73.5e9, ...more.high }),
    ],
    radio: { ...R18, modes: [WIDE] } as Radio,
    modes: [WIDE],
    climate,
  });
  return { low, high };
}
const judged = (hop: Hop) => ({ hop, result: evaluateHop(hop, GROUND) });

function page(own: Hop, other: Hop, link?: string): string {
  const results = new Map([own, other].map((hop) => [hop.name, judged(hop).result]));
  const hops = {
    hop: (name: string) => [own, other].find((hop) => hop.name === name),
    result: (name: string) => results.get(name),
  };
  const { pair } = hopInNetwork(own, hops, new Memory());
  return printMarkdown(
    hopPage({
      ...judged(own),
      pair: pair && { ...pair, page: link },
      findings: [],
      name: "hops/a",
      colophon: "",
    }),
  )[0]!.text;
}

describe("a dual-band pair together", () => {
  const { low, high } = pairOf();
  const [lowJudged, highJudged] = [judged(low), judged(high)];

  test("rates add up in clear air; the outage of both is the smaller one, no product", () => {
    const pair = pairResult(lowJudged, highJudged)!;
    const outs = [lowJudged, highJudged].map(({ result }) => result.availability!.outage.yearPercent);
    expect(outs[1]).toBeGreaterThan(outs[0]!);
    expect(pair).toMatchObject({
      robust: { hop: "LOW", judgedBps: 310e6, modulation: "128QAM" },
      other: { hop: "HIGH", judgedBps: 700e6 },
      clearAirBps: 1010e6,
      bothOutPercent: outs[0],
    });
    expect(pairResult(highJudged, lowJudged)).toEqual(pair);
  });

  test("a band without any margin carries nothing in clear air", () => {
    const deaf = judged({ ...high, modes: [{ ...WIDE, thresholdDbm: 20 }] });
    expect(pairResult(lowJudged, deaf)).toMatchObject({ clearAirBps: 310e6 });
  });

  test("hops that do not name each other are no pair", () => {
    expect(pairResult(lowJudged, judged({ ...high, pairedWith: undefined }))).toBeUndefined();
    expect(
      pairResult(lowJudged, judged({ ...high, arrangement: { name: "dual-band low" } })),
    ).toBeUndefined();
  });

  test("both pages tell the pair and lead to each other", () => {
    const [first, second] = [page(low, high, "hops/high"), page(high, low, "hops/low")];
    expect(first).toMatch(/Dual-band pair/);
    expect(first).toMatch(/\[HIGH\]\([^)]*high\.md\)/);
    expect(second).toMatch(/\[LOW\]\([^)]*low\.md\)/);
    for (const text of [first, second]) {
      expect(text).toMatch(/Committed, LOW.*310 Mbit\/s, 128QAM/);
      expect(text).toMatch(/Both bands in clear air.*1\.01 Gbit\/s/);
      expect(text).toMatch(/Both bands out/);
    }
    expect(page(low, high)).not.toMatch(/\[HIGH\]/);
  });
});

describe("the distance to keep from a dual-band antenna", () => {
  const distances = (text: string) => text.match(/^\| KELD \| .*W\/m²|^\| KELD \| 1.*$/m)?.[0] ?? "";

  test("adds the powers of both bands", () => {
    const { low, high } = pairOf();
    const [one, two] = [low, high].map((hop) => ({ result: judged(hop).result, site: "KELD" }));
    const alone = [one!, two!].map((each) => keepOut(each)!);
    const together = keepOut(one!, two)!;
    // R^2 is in proportion to the power.
    expect(together.generalPublicM ** 2).toBeCloseTo(
      alone[0]!.generalPublicM ** 2 + alone[1]!.generalPublicM ** 2,
      6,
    );
    expect(together.otherBand).toEqual({ hop: "HIGH", carriers: 1 });
    expect(distances(page(low, high))).toContain("1, and 1 of HIGH");
    expect(distances(page(high, low))).toContain("1, and 1 of LOW");
  });

  test("does not where each band has an antenna of its own", () => {
    const { low, high } = pairOf({ high: { antennaHeightM: 30 } });
    expect(distances(page(low, high))).toMatch(/^\| KELD \| 1 \|/);
  });
});

test("of an antenna with several gain points the gain at each frequency is told", () => {
  const gains = judged(pairOf().high).result.inputs.filter(({ code }) => code === "antenna-gain");
  expect(gains.map((input) => shown(inputLine(input, ": ")).replace(/ \(.*/, ""))).toEqual([
    "gain of DISH60-18-80 at 83.5 GHz: 51.0 dBi",
    "gain of DISH60-18-80 at 73.5 GHz: 50.0 dBi",
  ]);
});
