import { describe, expect, test } from "vitest";
import { licenceChanges } from "../../shared/compare/licences.js";
import type { Hop, Polarization } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { polarizationWords } from "../../shared/evaluate/level/polarization.js";
import { missingFacts } from "../../shared/evaluate/missing.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import { explainHop } from "../../shared/report/explain.js";
import { antennasFor, end, KELD, levelGround, makeHop, notesTold, TARN } from "./builders.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;
const GROUND = levelGround(LENGTH_M);
const judged = (name: string, polarization: Polarization | undefined, more: Partial<Hop> = {}) =>
  evaluateHop(
    makeHop({
      arrangement: { name },
      polarization,
      ends: [end(KELD, "high", antennasFor(name)), end(TARN, "low", antennasFor(name))],
      ...more,
    }),
    GROUND,
  );
const rainOf = (...of: Parameters<typeof judged>) => judged(...of).availability!.rainPercent;

describe("carriers on both polarizations are judged for the worse of them", () => {
  const both = ARRANGEMENTS.filter(({ polarizations }) => polarizations === 2).map(({ name }) => name);

  test("which is the horizontal one, whatever is stated for the first", () => {
    const horizontal = rainOf("1+0", "horizontal");
    expect(rainOf("1+0", "vertical")).toBeLessThan(0.8 * horizontal);
    expect(both).toContain("2+0 xpic");
    for (const name of both)
      for (const stated of ["vertical", "horizontal", undefined] as const)
        expect(rainOf(name, stated), `${name} ${stated}`).toBe(horizontal);
  });

  test("and the result says so", () => {
    const result = judged("2+0 xpic", "vertical");
    expect(result.polarization).toBe("horizontal");
    expect(result.inputs.find(({ code }) => code === "polarization")).toMatchObject({
      polarization: "horizontal",
      both: true,
    });
    expect(notesTold(result)).toContain(
      "Both polarizations are on the air; the hop is judged for the worse, horizontal.",
    );
    expect(notesTold(judged("1+0", "vertical")).join()).not.toMatch(/Both polarizations/);
  });

  test("two slanted ones are alike", () => {
    expect(rainOf("2+0 xpic", "slant")).toBe(rainOf("1+0", "slant"));
  });

  test("no polarization need be stated, and one alone does need it", () => {
    const facts = (name: string) =>
      missingFacts(makeHop({ arrangement: { name }, polarization: undefined })).map(({ fact }) => fact.code);
    expect(facts("2+0 dual-polarization")).toEqual([]);
    expect(facts("2+0 single-polarization")).toEqual(["polarization"]);
  });

  test("rain measured without a word of its polarization was measured in the stated one", () => {
    const measuredRain = { attenuation001Db: 20, frequencyHz: 18e9 };
    const xpic = (more: object) =>
      rainOf("2+0 xpic", "vertical", { measuredRain: { ...measuredRain, ...more } });
    expect(xpic({})).toBe(xpic({ polarization: "vertical" }));
    expect(xpic({})).toBeGreaterThan(xpic({ polarization: "horizontal" }));
  });

  test("an explanation counts with the same coefficients as the figure", () => {
    const steps = (name: string, polarization: Polarization) => {
      const hop = makeHop({ arrangement: { name }, polarization });
      return explainHop(hop, evaluateHop(hop, GROUND))
        .flatMap((one) => one.steps ?? [])
        .filter(({ key }) => /^(k|alpha)$/.test(key?.toString() ?? ""))
        .map(({ value }) => value);
    };
    expect(steps("1+0", "horizontal").length).toBeGreaterThan(1);
    expect(steps("1+0", "horizontal")).not.toEqual(steps("1+0", "vertical"));
    expect(steps("2+0 xpic", "vertical")).toEqual(steps("1+0", "horizontal"));
  });
});

test("a report says which polarizations are on the air, and which of two is judged", () => {
  const words = (name: string, polarization: Polarization | undefined) =>
    polarizationWords({ arrangement: { name }, polarization });
  expect(words("1+0", "slant")).toBe("slant polarization");
  expect(words("1+0", undefined)).toBeUndefined();
  expect(words("2+0 xpic", "slant")).toBe("both slant polarizations");
  for (const stated of ["vertical", "horizontal", undefined] as const)
    expect(words("2+0 xpic", stated)).toBe("both polarizations, judged for the worse, horizontal");
});

test("two carriers on one channel are licensed for both polarizations, stated or not", () => {
  const licensed = (name: string, polarization: Polarization | undefined) => {
    const hop = makeHop({ arrangement: { name }, polarization });
    return licenceChanges(undefined, { hop, result: evaluateHop(hop, GROUND) }, (site) => site)
      .filter(({ site }) => site === "KELD")
      .map((one) => one.polarization);
  };
  expect(licensed("2+0 xpic", "vertical")).toEqual(["horizontal", "vertical"]);
  expect(licensed("2+0 xpic", undefined)).toEqual(["horizontal", "vertical"]);
  expect(licensed("2+0 xpic", "slant")).toEqual(["slant", "slant"]);
  expect(licensed("2+0 dual-polarization", undefined)).toEqual([undefined]);
});
