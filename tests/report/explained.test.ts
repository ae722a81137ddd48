/** What a figure rests on is said at the figure: in `explain`, on the page and in the hover. */

import { describe, expect, test } from "vitest";
import { hopReport } from "../../language/editor/hover-hop.js";
import type { Hop } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import { gasAttenuationDb } from "../../shared/propagation/p676.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { explainHop } from "../../shared/report/explain.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import { inputLine, inputShown } from "../../shared/words/inputs.js";
import { shown } from "../../shared/words/message.js";
import {
  direction,
  end,
  groundOf,
  KELD,
  levelGround,
  makeHop,
  notesTold,
  QAM128,
  TARN,
} from "../evaluate/builders.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;

function told(hop: Hop, ground: GroundInput = levelGround(LENGTH_M)) {
  const result = evaluateHop(hop, ground);
  const input = { hop, result, profile: ground.profile, findings: [], name: "hop", colophon: "" };
  const page = printMarkdown(hopPage(input))[0]!.text;
  const figures = explainHop(hop, result);
  const figure = (start: string) => figures.find((one) => one.figure.startsWith(start))!;
  const section = (title: string) => page.split(`\n## ${title}`)[1]!.split("\n## ")[0]!;
  return { result, page, figure, section, hover: hopReport({ hop, result, findings: [] }) };
}

describe("carriers that cross on unequal couplers", () => {
  const coupler = { name: "H18-U", kind: "hybrid", mainLossDb: 1.6, standbyLossDb: 6.4 } as const;
  const hop = (name: string, unequal: boolean) => {
    const own = unequal ? coupler : { ...coupler, standbyLossDb: 1.6 };
    return makeHop({
      arrangement: { name },
      ends: [end(KELD, "high", { coupler: own }), end(TARN, "low", { coupler: own })],
    });
  };
  const CROSS = /The carriers cross on the unequal couplers/;

  test("are told at the level, once on the page, and in the hover", () => {
    const { figure, page, section, hover } = told(hop("2+0 single-polarization", true));
    expect(notesTold(figure("received level KELD")).join()).toMatch(CROSS);
    expect(notesTold(figure("received level TARN")).join()).toMatch(CROSS);
    expect(section("Level diagram")).toMatch(CROSS);
    expect(page.match(new RegExp(CROSS, "g"))).toHaveLength(1);
    expect(hover).toMatch(CROSS);
  });

  test("are not told of equal arms or of one carrier", () => {
    for (const one of [hop("2+0 single-polarization", false), hop("1+1 hot-standby", true)]) {
      const { figure, page, hover } = told(one);
      expect(notesTold(figure("received level KELD")).join()).not.toMatch(CROSS);
      expect(page + hover).not.toMatch(CROSS);
    }
  });
});

describe("of a steep path", () => {
  // Heights in the ratio 3 to 4 of the length along the ground, so that the straight distance is 5/4 of it.
  const rise = LENGTH_M * 0.75;
  const steep = makeHop({
    ends: [end({ ...KELD, groundM: 0 }, "high"), end({ ...TARN, groundM: rise }, "low")],
  });
  const ground = groundOf(
    Array.from({ length: 101 }, (_, i) => (rise * i) / 100 - 30),
    LENGTH_M,
  );
  const { result, figure, section, hover } = told(steep, ground);
  const [along, straight] = [LENGTH_M, LENGTH_M * 1.25].map((lengthM) => `${(lengthM / 1000).toFixed(3)}`);

  test("free space and gases count the straight distance, rain and multipath that along the ground", () => {
    const level = told(
      makeHop({
        ends: [end({ ...KELD, groundM: rise / 2 }, "high"), end({ ...TARN, groundM: rise / 2 }, "low")],
      }),
      ground,
    ).result;
    // 20 log(5/4), and 5/4 of the attenuation by the same air.
    expect(result.freeSpaceLossDb! - level.freeSpaceLossDb!).toBeCloseTo(20 * Math.log10(1.25), 9);
    expect(result.gasLossDb! / level.gasLossDb!).toBeCloseTo(1.25, 9);
    expect(result.rainAttenuation001Db).toBe(level.rainAttenuation001Db);
    expect(result.slantDistanceM).toBeCloseTo(LENGTH_M * 1.25, 6);
  });

  test("each figure names the length that it counts", () => {
    const input = (start: string) =>
      figure(start)
        .inputs.filter(({ code }) => code === "straight-distance" || code === "path-length")
        .map((input) => shown(inputLine(input)).replace(/ \(.*/, ""));
    const [STRAIGHT, ALONG] = [
      `straight distance between the antennas ${Number(straight).toFixed(2)} km`,
      `path length ${along} km`,
    ];
    expect(input("received level")).toEqual([STRAIGHT]);
    expect(input("attenuation by gases")).toEqual([STRAIGHT]);
    expect(input("rain attenuation")).toEqual([ALONG]);
    expect(input("multipath outage")).toEqual([ALONG]);
    expect(input("clearance")).toEqual([ALONG]);
    expect(section("Level diagram")).toContain(
      `Free space and gases count the straight distance between the antennas, ${Number(straight).toFixed(2)} km; clearance, rain and multipath the length along the ground, ${along} km.`,
    );
    expect(hover).toContain(STRAIGHT);
    expect(hover).toContain(ALONG);
  });

  test("a level worked by hand from what explain prints agrees", () => {
    const { steps, inputs } = figure("received level KELD");
    const of = (name: string) =>
      Number(steps.find((one) => one.name === name)!.value.match(/[-+]?[\d.]+/)![0]);
    const length = inputs.find(({ code }) => code === "straight-distance")!;
    const km = Number(shown(inputShown(length).value).replace(" km", ""));
    const freeSpaceDb = 92.4478 + 20 * Math.log10(of("frequency")) + 20 * Math.log10(km);
    expect(of("free space")).toBeCloseTo(-freeSpaceDb, 1);
    const gases = figure("attenuation by gases");
    const perKm = gases.steps
      .filter(({ name }) => name.startsWith("specific attenuation"))
      .reduce((sum, { value }) => sum + Number(value.replace(" dB/km", "")), 0);
    expect(Number(gases.value.replace(" dB", ""))).toBeCloseTo(perKm * km, 1);
    const air = { pressureHPa: 1013.25, temperatureK: 288.15, waterVapourDensityGm3: 7.5 };
    expect(gasAttenuationDb({ frequencyHz: 18.93e9, ...air }, 2000)).toBeCloseTo(
      2 * gasAttenuationDb({ frequencyHz: 18.93e9, ...air }, 1000),
      12,
    );
  });
});

describe("a computed threshold", () => {
  const mode = { ...QAM128, thresholdDbm: undefined, requiredSnrDb: 22 };
  // k T0 B of 55 MHz / 1.15 at 290 K is -97.2 dBm; 6.5 dB noise figure and 22 dB make -68.7 dBm.
  const WORDS = "-68.7 dBm, computed for noise in 47.826 MHz";

  test("says the bandwidth of its noise beside the figure", () => {
    const { result, figure, section, hover } = told(makeHop({ modes: [mode] }));
    expect(direction(result, "KELD").modes[0]!.noiseBandwidthHz).toBeCloseTo(55e6 / 1.15, 6);
    expect(figure("fade margin KELD").steps).toContainEqual({
      name: "noise bandwidth, of a channel of 55 MHz",
      value: "47.826 MHz",
    });
    expect(section("Mode")).toContain(WORDS);
    expect(hover).toContain(WORDS);
  });

  test("and one of the catalogue says none", () => {
    const { result, figure, page, hover } = told(makeHop());
    expect(direction(result, "KELD").modes[0]!.noiseBandwidthHz).toBeUndefined();
    expect(JSON.stringify(figure("fade margin KELD"))).not.toContain("noise");
    expect(page + hover).not.toContain("computed for noise");
  });
});
