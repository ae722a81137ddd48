import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Axis, formatDms, parseAngle, parsePosition } from "../../shared/geodesy/coordinates.js";
import { loadVectors, testRows } from "../support/vectors.js";

interface Notation {
  text: string;
  note: string;
  accepted: boolean;
  lat?: number;
  lon?: number;
}
const { notations } = loadVectors<{ notations: { how: string; cases: Notation[] } }>("geodesy/geodesic.json");

describe("written coordinates", () => {
  /**
   * The one notation that the source reads and we refuse: "-40S" counts as north there (double negation), but as
   * south to most people.
   */
  const LEFT_OUT = ["-40S 79W "];

  const ours = notations.cases.filter((row) => !LEFT_OUT.includes(row.text));
  testRows("notations", notations.how, ours, (row, is) => {
    const found = parsePosition(row.text);
    is.same("accepted", found.ok, row.accepted);
    if (!found.ok) return;
    // The file prints 12 decimals.
    is.close("latitude", found.position.latitudeDeg, row.lat!, { absolute: 1e-12 });
    is.close("longitude", found.position.longitudeDeg, row.lon!, { absolute: 1e-12 });
  });

  test("a sign and a hemisphere together are refused with the reason", () => {
    expect(parsePosition(LEFT_OUT[0]!)).toEqual({ ok: false, reason: expect.stringMatching(/not both/) });
  });

  // 54°27'12.4" is 54 + 27/60 + 12.4/3600, 3°04'51.0" is 3 + 4/60 + 51/3600.
  const north = 54 + 27 / 60 + 12.4 / 3600;
  test.each([
    `54°27'12.4"N`,
    "54°27′12.4″N",
    "54º27’12.4”N",
    `54° 27' 12.4" N`,
    `N 54°27'12.4"`,
    "54:27:12.4N",
    "54d27'12.4''n",
  ])("%s is one angle", (text) => {
    const found = parseAngle(text);
    expect(found).toMatchObject({ ok: true, axis: "latitude" });
    expect(found.ok && found.degrees).toBeCloseTo(north, 12);
  });

  test.each([
    ["91°N", undefined, /latitude 91° is beyond 90°/],
    [`54°60'N`, undefined, /minutes 60 are not below 60/],
    [`54°27'60"N`, undefined, /seconds 60 are not below 60/],
    [`54.5°27'N`, undefined, /degrees 54.5 have a fraction, but minutes follow/],
    ["9".repeat(400), undefined, /^angle is beyond 360°$/],
    ["181°E", undefined, /longitude 181° is beyond 180°/],
    ["N54S", undefined, /both sides/],
    ["54,45°N", undefined, /decimal point/],
    ["54°N", "longitude", /N belongs to a latitude/],
    ["95", "latitude", /beyond 90/],
    ["", undefined, /not an angle/],
    ["N", undefined, /not an angle/],
    [`90°00'00.1"N`, undefined, /beyond 90/],
  ] as const)("%j is refused with a reason", (text, axis, reason) => {
    expect(parseAngle(text, axis as Axis | undefined)).toEqual({
      ok: false,
      reason: expect.stringMatching(reason),
    });
  });

  test("a position with spaces inside its angles, or with a comma", () => {
    const found = parsePosition(`54° 27' 12.4" N 3° 04' 51" W`);
    expect(found.ok && found.position.latitudeDeg).toBeCloseTo(north, 12);
    expect(parsePosition("54.5, -3.25")).toEqual({
      ok: true,
      position: { latitudeDeg: 54.5, longitudeDeg: -3.25 },
    });
  });
});

describe("formatted coordinates", () => {
  test.each([
    [54.453444444, "latitude", 1, `54°27'12.4"N`],
    [-3.080833333, "longitude", 1, `3°04'51.0"W`],
    [59.99999999, "latitude", 1, `60°00'00.0"N`],
    [-0.5, "latitude", 0, `0°30'00"S`],
    [-1e-9, "longitude", 1, `0°00'00.0"E`],
    [8.5, "longitude", 3, `8°30'00.000"E`],
  ] as const)("%s %s with %s decimals is %s", (degrees, axis, decimals, text) => {
    expect(formatDms(degrees, axis, decimals)).toBe(text);
  });

  test("what is written reads back, to the digits written", () => {
    fc.assert(
      fc.property(
        fc.constantFrom<Axis>("latitude", "longitude"),
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.integer({ min: 0, max: 6 }),
        (axis, part, decimals) => {
          const degrees = part * (axis === "latitude" ? 90 : 180);
          for (const [text, tolerance] of [
            [formatDms(degrees, axis, decimals), 0.5001 / (3600 * 10 ** decimals)],
          ] as const) {
            const found = parseAngle(text, axis);
            expect(found.ok && Math.abs(found.degrees - degrees)).toBeLessThanOrEqual(tolerance + 1e-12);
          }
        },
      ),
    );
  });
});
