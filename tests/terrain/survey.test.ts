import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseSurvey } from "../../server/terrain/survey-file.js";
import { heightAt, reversedProfile } from "../../shared/terrain/profile.js";
import { type SurveyRow, surveyProfile } from "../../shared/terrain/survey.js";

/** Common practice, no source: the limits are the project's own and stated in the reference of `survey`. */

const rowsOf = (...points: readonly (readonly [number, number?, number?])[]): SurveyRow[] =>
  points.map(([distanceM, heightM, coverM]) => ({ distanceM, heightM, coverM }));
const every = (stepM: number, count: number): SurveyRow[] =>
  Array.from({ length: count }, (_, i) => ({ distanceM: i * stepM, heightM: 100 + (i % 7) }));

describe("surveyed profile", () => {
  const ROWS = rowsOf([0, 100], [400, 180, 12], [1000, 120]);

  it("has a point where one was surveyed, and no other", () => {
    const { profile, fit } = surveyProfile(ROWS, 1000, "s.csv", "field");
    expect([...profile.distanceM]).toEqual([0, 400, 1000]);
    expect([...profile.heightM]).toEqual([100, 180, 120]);
    expect([...profile.coverM!]).toEqual([0, 12, 0]);
    expect(profile).toMatchObject({ straight: true, gaps: [], stepM: 400 });
    expect(profile.sources).toEqual([{ file: "s.csv", sharePercent: 100 }]);
    expect(fit).toEqual({ beginsM: 0, endsM: 1000, stretchedM: undefined });
    // Worked by hand: a quarter of the way from 100 to 180, half way from 180 to 120.
    expect(heightAt(profile, 100)).toBeCloseTo(120, 12);
    expect(heightAt(profile, 700)).toBeCloseTo(150, 12);
  });

  it("is stretched or shortened by at most 25 m at the far end, in proportion before, and tells by how much", () => {
    for (const [lengthM, byM] of [
      [1025, 25],
      [975, -25],
      [1000.3, 0.3],
    ] as const) {
      const { profile, fit } = surveyProfile(ROWS, lengthM, "s.csv", "field");
      expect(profile.distanceM.at(-1)).toBe(lengthM);
      expect(profile.distanceM[1]).toBeCloseTo(0.4 * lengthM, 9);
      expect(profile.heightM[1]).toBe(180);
      expect(profile.gaps).toEqual([]);
      expect(fit.stretchedM).toBeCloseTo(byM, 9);
    }
  });

  it("beyond 25 m distances stay, and what is not reached is not known", () => {
    const short = surveyProfile(ROWS, 1025.1, "s.csv", "field");
    expect([...short.profile.distanceM]).toEqual([0, 400, 1000, 1025.1]);
    expect(short.profile.heightM[3]).toBeNaN();
    expect(short.profile.gaps).toEqual([{ fromM: 1000, toM: 1025.1, reason: "uncovered" }]);
    expect(short.fit).toEqual({ beginsM: 0, endsM: 1000, stretchedM: undefined });
    const long = surveyProfile(ROWS, 970, "s.csv", "field");
    expect([...long.profile.distanceM]).toEqual([0, 400, 970]);
    expect(long.profile.heightM[2]).toBeCloseTo(123, 9);
    expect(long.profile.gaps).toEqual([]);
    expect(long.fit.stretchedM).toBeUndefined();
  });

  it("speaks for the site from 1 m on, and for nothing before its first point otherwise", () => {
    const from = (beginsM: number) =>
      surveyProfile(rowsOf([beginsM, 7, 3], [1000, 2]), 1000, "s.csv", "field");
    expect(from(1).profile.gaps).toEqual([]);
    expect([...from(1).profile.heightM]).toEqual([7, 7, 2]);
    expect([...from(1).profile.coverM!]).toEqual([3, 3, 0]);
    expect(from(1.1).profile.gaps).toEqual([{ fromM: 0, toM: 1.1, reason: "uncovered" }]);
    expect(from(1.1).profile.heightM[0]).toBeNaN();
  });

  it("from a map: a row without a height is a void from its one neighbour to the other", () => {
    const rows = rowsOf([0, 10], [30, 11], [60], [90, 12], [120]);
    const { profile } = surveyProfile(rows, 120, "s.csv", "map");
    expect(profile.gaps).toEqual([
      { fromM: 30, toM: 90, reason: "void" },
      { fromM: 90, toM: 120, reason: "uncovered" },
    ]);
    expect(profile.sources[0]!.sharePercent).toBeCloseTo(25, 9);
    expect(heightAt(profile, 45)).toBeUndefined();
    expect(heightAt(profile, 30)).toBe(11);
    expect(() => surveyProfile(rows, 120, "s.csv", "field")).toThrow(
      /row 3 .* has no height; a survey in the field/,
    );
  });

  it("from a map: three usual steps are the widest that are joined; in the field any width is", () => {
    const far = (widthM: number) => [
      ...every(30, 11),
      ...every(30, 11).map((row) => ({ ...row, distanceM: row.distanceM + 300 + widthM })),
    ];
    const gaps = (widthM: number, source: "map" | "field") =>
      surveyProfile(far(widthM), 600 + widthM, "s.csv", source).profile.gaps;
    expect(gaps(90, "map")).toEqual([]);
    expect(gaps(90.1, "map")).toEqual([{ fromM: 300, toM: 390.1, reason: "void" }]);
    expect(gaps(5000, "field")).toEqual([]);
    // Beyond the path's end too: the row there does not reach back over a void.
    const cut = surveyProfile(far(200), 400, "s.csv", "map").profile;
    expect(cut.gaps).toEqual([{ fromM: 300, toM: 400, reason: "uncovered" }]);
    expect(surveyProfile(far(80), 340, "s.csv", "map").profile.gaps).toEqual([]);
  });

  it("from a map: no few rows make a gap of more than 1 km usual", () => {
    const gaps = (source: "map" | "field", ...atM: readonly number[]) =>
      surveyProfile(rowsOf(...atM.map((one) => [one, 100] as const)), atM.at(-1)!, "s.csv", source).profile
        .gaps;
    expect(gaps("map", 0, 1000)).toEqual([]);
    expect(gaps("map", 0, 1000.1)).toEqual([{ fromM: 0, toM: 1000.1, reason: "void" }]);
    expect(gaps("map", 0, 900, 1950)).toEqual([{ fromM: 900, toM: 1950, reason: "void" }]);
    expect(gaps("map", 0, 12_000, 25_000)).toHaveLength(2);
    expect(gaps("field", 0, 12_000, 25_000)).toEqual([]);
  });

  const surveys = fc
    .array(
      fc.tuple(
        fc.double({ min: 0.1, max: 700, noNaN: true }),
        fc.option(fc.double({ min: -500, max: 9000, noNaN: true }), { nil: undefined }),
        fc.double({ min: 0, max: 60, noNaN: true }),
      ),
      { minLength: 2, maxLength: 40 },
    )
    .map((steps) => {
      let distanceM = 0;
      return steps.map(
        ([stepM, heightM, coverM], i): SurveyRow => ({
          distanceM: i === 0 ? 0 : (distanceM += stepM),
          heightM,
          coverM,
        }),
      );
    });

  it("moves no point, makes up no height, and knows no ground in its gaps (any survey, any path)", () => {
    fc.assert(
      fc.property(surveys, fc.double({ min: -200, max: 200, noNaN: true }), (rows, offM) => {
        const endsM = rows.at(-1)!.distanceM;
        const lengthM = Math.max(1, endsM + offM);
        const { profile, fit } = surveyProfile(rows, lengthM, "s.csv", "map");
        const { distanceM, heightM, gaps } = profile;
        expect([distanceM[0], distanceM.at(-1)]).toEqual([0, lengthM]);
        expect(distanceM.every((d, i) => i === 0 || d > distanceM[i - 1]!)).toBe(true);
        const isNear = Math.abs(lengthM - endsM) <= 25;
        expect(fit.stretchedM !== undefined).toBe(isNear && lengthM !== endsM);
        const scale = isNear ? lengthM / endsM : 1;
        for (const [i, row] of rows.entries()) {
          if (row.distanceM * scale > lengthM * (1 + 1e-12)) continue;
          const at = isNear && i === rows.length - 1 ? lengthM : row.distanceM * scale;
          const found = distanceM.indexOf(at);
          expect(found).toBeGreaterThanOrEqual(0);
          expect(heightM[found]).toBe(row.heightM ?? Number.NaN);
        }
        const surveyed = rows.flatMap((row) => row.heightM ?? []);
        for (const height of heightM)
          if (!Number.isNaN(height)) {
            expect(height).toBeLessThanOrEqual(Math.max(...surveyed) + 1e-6);
            expect(height).toBeGreaterThanOrEqual(Math.min(...surveyed) - 1e-6);
          }
        for (const { fromM, toM } of gaps) {
          expect(fromM).toBeLessThan(toM);
          expect(heightAt(profile, (fromM + toM) / 2)).toBeUndefined();
        }
        const isKnown = (d: number) => !gaps.some(({ fromM, toM }) => d > fromM && d < toM);
        const middles = [...distanceM].slice(1).map((d, i) => (d + distanceM[i]!) / 2);
        for (const d of middles) expect(heightAt(profile, d) !== undefined).toBe(isKnown(d));
      }),
    );
  });

  it("counted from the other end it is the same ground", () => {
    fc.assert(
      fc.property(surveys, fc.double({ min: 0, max: 1, noNaN: true }), (rows, share) => {
        const lengthM = rows.at(-1)!.distanceM + 100;
        const { profile } = surveyProfile(rows, lengthM, "s.csv", "map");
        const turned = reversedProfile(profile);
        expect(turned.distanceM[0]).toBe(0);
        const [there, back] = [
          heightAt(profile, share * lengthM),
          heightAt(turned, lengthM - share * lengthM),
        ];
        if (there === undefined || back === undefined) return;
        expect(Math.abs(there - back)).toBeLessThan(1e-3);
        expect(turned.gaps.map(({ fromM, toM }) => toM - fromM).reverse()).toEqual(
          profile.gaps.map(({ fromM, toM }) => expect.closeTo(toM - fromM, 6)),
        );
      }),
    );
  });

  it("names the row that is wrong", () => {
    const at = (second: object) => () =>
      surveyProfile(
        [
          { distanceM: 0, heightM: 1 },
          { distanceM: 5, heightM: 1, ...second },
        ],
        10,
        "s.csv",
        "map",
      );
    expect(at({ distanceM: 0 })).toThrow(/row 2.*must rise/);
    expect(at({ heightM: Number.NaN })).toThrow(/row 2.*no number/);
    expect(at({ coverM: -1 })).toThrow(/row 2.*cover/);
    expect(at({ coverM: 500.1, line: 7 })).toThrow("line 7 has a cover of 500.1 m; it is 0 to 500 m");
    expect(at({ coverM: 500 })).not.toThrow();
    expect(at({ heightM: -500 })).not.toThrow();
    expect(at({ heightM: 9000 })).not.toThrow();
    expect(at({ heightM: -500.1 })).toThrow(
      "row 2 of the survey has ground at -500.1 m; land lies between -500 and 9000 m",
    );
    expect(at({ heightM: 9000.1, line: 3 })).toThrow("line 3 has ground at 9000.1 m; land lies");
    const profile = (rows: SurveyRow[], lengthM: number) => () =>
      surveyProfile(rows, lengthM, "s.csv", "map");
    expect(profile(ROWS.slice(0, 1), 10)).toThrow(/two rows/);
    expect(profile(every(0.1, 50_000), 4999.9)).not.toThrow();
    expect(profile(every(0.1, 50_001), 5000)).toThrow(/at most 50000 rows, not 50001/);
    expect(profile(ROWS, 0)).toThrow(RangeError);
  });
});

describe("survey as CSV", () => {
  const read = (text: string) => parseSurvey(text).map(({ line: _, ...row }) => row);

  it("reads commas, semicolons with decimal commas, tabs, kilometres, a byte order mark, line ends of any kind", () => {
    const expected = [
      { distanceM: 0, heightM: 10.5, coverM: 3 },
      { distanceM: 1500, heightM: 11 },
    ];
    expect(read("distance_m,height_m,cover_m\n0,10.5,3\n1500,11,\n")).toEqual(expected);
    expect(read("\uFEFFDistance_km;HEIGHT_m;cover_m\r\n0;10,5;3\r\n1,5;11;\r\n")).toEqual(expected);
    expect(read("height_m\tdistance_m\tnote\tcover_m\n10.5\t0\tgate\t3\n11\t1500\t\t\n")).toEqual(expected);
    expect(read("distance_m,height_m,cover_m,note\r0,10.5,3,a;b\r1500,11,,\r")).toEqual(expected);
    expect(read("distance_m,ground_m,cover_m\n0,10.5,3\n1500,11,\n")).toEqual(expected);
  });

  it("leaves a height open where the row has none", () => {
    const rows = parseSurvey("distance_m,height_m\n0,1\n\n5,\n");
    expect(rows).toEqual([
      { line: 2, distanceM: 0, heightM: 1 },
      { line: 4, distanceM: 5 },
    ]);
  });

  it("says what is wrong and where", () => {
    const cell = (text: string) => () => parseSurvey(`distance_m,height_m\n0,1\n5,${text}\n`);
    expect(() => parseSurvey("")).toThrow(/no distance column; begin the file with/);
    expect(() => parseSurvey("distance,height\n0,1\n")).toThrow(/no distance column/);
    expect(() => parseSurvey("distance_m,distance_km,height_m\n0,0,1\n")).toThrow(/two distance columns/);
    expect(() => parseSurvey("distance_m,height_m,ground_m\n0,0,1\n")).toThrow(/two height columns/);
    expect(() => parseSurvey("distance_m,height_m,cover_m,cover_m\n0,0,1,1\n")).toThrow(/two cover columns/);
    expect(() => parseSurvey("distance_m,height_m\n0,1\n,5\n")).toThrow('line 3: "" is no number');
    expect(() => parseSurvey("distance_m,height_m\n0,1\n5\n")).toThrow(/line 3/);
    for (const text of [
      "x",
      "0x10",
      "0b1",
      "1e3",
      "1e999",
      "Infinity",
      "NaN",
      "1_000",
      "1 000",
      "--5",
      "5-",
      ".",
      "1.2.3",
    ])
      expect(cell(text), text).toThrow(`line 3: "${text}" is no number in plain decimals`);
    for (const [text, value] of [
      ["5.", 5],
      [".5", 0.5],
      ["+7", 7],
      ["-0.25", -0.25],
      ["−3", -3],
      ["007", 7],
    ] as const)
      expect(parseSurvey(`distance_m,height_m\n0,1\n5,${text}\n`)[1]!.heightM).toBe(value);
    expect(() => parseSurvey("distance_m;height_m\n0;1\n5;1.234,5\n")).toThrow(/line 3/);
  });
});
