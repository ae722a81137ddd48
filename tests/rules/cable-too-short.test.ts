/** A stated cable against the way that it has to go. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { judgeExample } from "./example-design.js";

const told = (end: string, { run = "", hop }: { run?: string; hop?: string } = {}) => {
  const site = `site MOSS {\n  at 47.48 -30.48\n  structure mast 100 m\n${run}\n}\n`;
  const text = exampleHop({ keld: `${end}\n    transmits high`, hop }).replaceAll("KELD", "MOSS");
  const { problems, findings } = judgeExample(`cable COAX { kind coaxial }\n${site}${text}`);
  expect(problems).toEqual([]);
  return findings.flatMap(({ rule, severity, message }) =>
    rule === "cable-too-short" ? [`${severity}: ${message}`] : [],
  );
};

test("says what it has to reach, with the run that the site states", () => {
  const at = (length: number) => `antenna DISH60-18 at 40 m\n    cable COAX length ${length} m`;
  expect(told(at(15), { run: "  cable-run 8 m" })).toEqual([
    "warning: COAX at MOSS is 15.0 m long: the antenna hangs at 40.0 m and 8.0 m lead on to the rack: 48.0 m at least",
  ]);
  expect(told(at(15))).toEqual(["warning: COAX at MOSS is 15.0 m long: the antenna hangs at 40.0 m"]);
  expect(told(at(48), { run: "  cable-run 8 m" })).toEqual([]);
  // Nothing is stated: an estimate reaches.
  expect(told("antenna DISH60-18 at 40 m")).toEqual([]);
});

test("one length for two heights is held against the higher", () => {
  const end =
    "antenna DISH60-18 at 20 m\n    diversity-antenna DISH60-18 at 40 m\n    cable COAX length 30 m";
  const hop = "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 space-diversity";
  expect(told(end, { hop })).toEqual([
    "warning: COAX at MOSS is 30.0 m long: it reaches the antenna at 20.0 m, but the diversity antenna hangs at 40.0 m",
  ]);
});

test("rounding never makes a length that is too short read like one that reaches", () => {
  const centimetre = fc.integer({ min: 100, max: 3000 });
  const figures = (message: string) =>
    [...message.matchAll(/([\d.]+) m\b/g)].map(([, figure]) => Number(figure));
  fc.assert(
    fc.property(
      centimetre,
      fc.integer({ min: 0, max: 500 }),
      fc.integer({ min: 1, max: 12 }),
      (heightCm, runCm, lessCm) => {
        const end = `antenna DISH60-18 at ${heightCm / 100} m\n    cable COAX length ${(heightCm + runCm - lessCm) / 100} m`;
        const [message] = told(end, { run: runCm === 0 ? "" : `  cable-run ${runCm / 100} m` });
        const [lengthM, ...asked] = figures(message!);
        // The height, or with a run the height, the run and their sum.
        expect(asked).toHaveLength(runCm === 0 ? 1 : 3);
        expect(lengthM, message).toBeLessThan(asked.at(-1)!);
      },
    ),
    { numRuns: 60, examples: [[4004, 0, 3]] },
  );
});

test("is told exactly where the length is less than height and run", () => {
  const metre = fc.integer({ min: 1, max: 99 });
  fc.assert(
    fc.property(metre, metre, metre, (heightM, runM, lengthM) => {
      const end = `antenna DISH60-18 at ${heightM} m\n    cable COAX length ${lengthM} m`;
      expect(told(end, { run: `  cable-run ${runM} m` })).toHaveLength(lengthM < heightM + runM ? 1 : 0);
    }),
    { numRuns: 30 },
  );
});
