import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseSurvey } from "../../server/terrain/survey-file.js";
import { surveyProfile } from "../../shared/terrain/survey.js";

describe("surveyed profile", () => {
  const ROWS = [
    { distanceM: 0, heightM: 100 },
    { distanceM: 400, heightM: 180, coverM: 12 },
    { distanceM: 1000, heightM: 120 },
  ];

  it("runs straight between the surveyed points", () => {
    // Worked by hand: 100 m steps; at 100 m a quarter of the way from 100 to 180, at 700 m half way from 180 to 120.
    const p = surveyProfile(ROWS, 1000, "s.csv", 100);
    expect(Array.from(p.distanceM)).toEqual([0, 100, 200, 300, 400, 500, 600, 700, 800, 900, 1000]);
    expect(Array.from(p.heightM)).toEqual([100, 120, 140, 160, 180, 170, 160, 150, 140, 130, 120]);
    expect(Array.from(p.coverM!)).toEqual([0, 3, 6, 9, 12, 10, 8, 6, 4, 2, 0]);
    expect(p.gaps).toEqual([]);
    expect(p.sources).toEqual([{ file: "s.csv", sharePercent: 100 }]);
    expect(p.warnings).toEqual([]);
  });

  it("stretches a survey that is off by less than 1 %, silently", () => {
    const p = surveyProfile(ROWS, 1008, "s.csv", 100.8);
    expect(p.heightM[4]).toBeCloseTo(180, 9);
    expect(p.heightM.at(-1)).toBe(120);
    expect(p.warnings).toEqual([]);
  });

  it("warns when it is off by more, and leaves open what it does not reach", () => {
    const short = surveyProfile(ROWS, 1200, "s.csv", 100);
    expect(short.warnings).toEqual([
      "the survey ends at 1000 m, 16.7 % shorter than the path of 1200 m: distances are kept as surveyed",
    ]);
    expect(short.gaps).toEqual([{ fromM: 1100, toM: 1200, reason: "uncovered" }]);
    expect(surveyProfile(ROWS, 800, "s.csv", 100).warnings[0]).toContain("25.0 % longer");
  });

  it("leaves open what lies before its first point", () => {
    const p = surveyProfile(
      [
        { distanceM: 200, heightM: 1 },
        { distanceM: 1000, heightM: 2 },
      ],
      1000,
      "s.csv",
      100,
    );
    expect(p.gaps).toEqual([{ fromM: 0, toM: 100, reason: "uncovered" }]);
    expect(p.warnings).toHaveLength(1);
  });

  it("never lowers a surveyed point, and never prints a height that is none", () => {
    const rows = fc
      .array(
        fc.tuple(
          fc.double({ min: 1, max: 700, noNaN: true }),
          fc.double({ min: -400, max: 5000, noNaN: true }),
        ),
        {
          minLength: 2,
          maxLength: 40,
        },
      )
      .map((steps) => {
        let distanceM = 0;
        return steps.map(([step, heightM], i) => ({ distanceM: i === 0 ? 0 : (distanceM += step), heightM }));
      });
    fc.assert(
      fc.property(rows, fc.double({ min: 5, max: 400, noNaN: true }), (surveyed, stepM) => {
        const lengthM = surveyed.at(-1)!.distanceM;
        const p = surveyProfile(surveyed, lengthM, "s.csv", stepM);
        expect(p.heightM.every(Number.isFinite)).toBe(true);
        expect(p.stepM).toBeLessThanOrEqual(stepM * (1 + 1e-9));
        for (const row of surveyed) {
          const nearest = Math.round(row.distanceM / p.stepM);
          expect(p.heightM[nearest]).toBeGreaterThanOrEqual(row.heightM);
        }
        const highest = Math.max(...surveyed.map((r) => r.heightM));
        expect(Math.max(...p.heightM)).toBeLessThanOrEqual(highest + 1e-9);
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
      );
    expect(at({ distanceM: 0 })).toThrow(/row 2.*must rise/);
    expect(at({ heightM: Number.NaN })).toThrow(/row 2.*no number/);
    expect(at({ coverM: -1 })).toThrow(/row 2.*cover/);
    expect(() => surveyProfile(ROWS.slice(0, 1), 10, "s.csv")).toThrow(/two rows/);
    expect(() => surveyProfile(ROWS, 0, "s.csv")).toThrow(RangeError);
  });
});

describe("survey as CSV", () => {
  it("reads commas, semicolons with decimal commas, tabs, kilometres, a byte order mark", () => {
    const expected = [
      { distanceM: 0, heightM: 10.5, coverM: 3 },
      { distanceM: 1500, heightM: 11 },
    ];
    expect(parseSurvey("distance_m,height_m,cover_m\n0,10.5,3\n1500,11,\n")).toEqual(expected);
    expect(parseSurvey("\uFEFFDistance_km;HEIGHT_m;cover_m\r\n0;10,5;3\r\n1,5;11;\r\n")).toEqual(expected);
    expect(parseSurvey("height_m\tdistance_m\tnote\tcover_m\n10.5\t0\tgate\t3\n11\t1500\t\t\n")).toEqual(
      expected,
    );
  });

  it("says what is wrong and where", () => {
    expect(() => parseSurvey("")).toThrow(/no distance column; begin the file with/);
    expect(() => parseSurvey("distance,height\n0,1\n")).toThrow(/no distance column/);
    expect(() => parseSurvey("distance_m,distance_km,height_m\n0,0,1\n")).toThrow(/two distance column/);
    expect(() => parseSurvey("distance_m,height_m\n0,1\n5,x\n")).toThrow('line 3: "x" is no number');
    expect(() => parseSurvey("distance_m,height_m\n0,1\n5,\n")).toThrow('line 3: "" is no number');
    expect(() => parseSurvey("distance_m,height_m\n0,1\n5\n")).toThrow(/line 3/);
  });
});
