/** What a figure with a wrong or missing unit or sign is read as: usual values are common practice, no source. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { positionReadings } from "../../language/facts/position-readings.js";
import { readings, usualRanges } from "../../language/facts/readings.js";
import { limitMessage } from "../../language/facts/value.js";
import { alternatives, PROPERTIES } from "../../language/schema/index.js";
import { findUnit, UNITS } from "../../shared/units/units.js";

const quantities = PROPERTIES.flatMap((property) =>
  property.args.flatMap((arg) =>
    alternatives(arg).flatMap((spec) =>
      spec.type === "quantity" ? [{ name: `${property.in[0]} ${property.name} ${arg.name}`, spec }] : [],
    ),
  ),
);
const specOf = (name: string) => quantities.find((one) => one.name === name)!.spec;

describe("what is usual", () => {
  test.each(quantities)("$name lies within its limits, in units of its dimension", ({ spec }) => {
    for (const { from, to, unit } of usualRanges(spec)) {
      const found = findUnit(unit, spec.dimension);
      expect(found?.dimension).toBe(spec.dimension);
      expect(from).toBeLessThan(to);
      if (spec.usual === undefined) continue;
      for (const end of [from, to]) {
        const isEdge = spec.above !== undefined && end === Number(spec.above.split(" ")[0]);
        if (!isEdge) expect(limitMessage(spec, found!.unit.toBase(end), `${end} ${unit}`)).toBeUndefined();
      }
    }
  });

  test.each(quantities.filter(({ spec }) => UNITS[spec.dimension].length > 1 && spec.usual === undefined))(
    "$name, of a dimension with several units, has limits in the unit that is written",
    ({ spec }) => expect(spec.max).toBeDefined(),
  );
});

describe("readings, the likeliest first", () => {
  test.each([
    ["end power level", "24", "dBW", ["24 dBm"]],
    ["end power level", "18", undefined, ["18 dBm"]],
    ["end power level", "-6", undefined, ["-6 dBm", "-6 dBW"]],
    ["radio mode threshold", "69", "dBm", ["-69 dBm"]],
    ["radio mode threshold", "72", undefined, ["-72 dBm", "-72 dBW"]],
    ["radio mode threshold", "-72", undefined, ["-72 dBm", "-72 dBW"]],
    ["radio mode rate", "310", "Gbit/s", ["310 Mbit/s"]],
    ["radio tuning from", "17.7", "MHz", ["17.7 GHz"]],
    ["radio tuning from", "17700", "GHz", ["17700 MHz"]],
    ["end antenna at", "40", undefined, ["40 m", "40 ft"]],
    ["end antenna at", "400", undefined, ["400 ft"]],
    ["antenna diameter value", "60", undefined, ["60 cm"]],
    ["antenna gain value", "38.5", undefined, ["38.5 dBi", "38.5 dBd"]],
    ["objective availability value", "0.9999", "%", ["99.99 %"]],
    ["objective availability value", "99.99", undefined, ["99.99 %"]],
    ["climate rain rate", "34", undefined, ["34 mm/h"]],
  ] as const)("%s %s %s", (name, digits, unit, meant) => {
    expect(readings(specOf(name), digits, unit)).toEqual(meant);
  });

  test("a power is never turned to a small one by its sign", () => {
    for (const name of ["end power level", "radio mode power"])
      fc.assert(
        fc.property(
          fc.integer({ min: 1, max: 60 }),
          fc.constantFrom("dBm", "dBW", undefined),
          (level, unit) => {
            for (const written of readings(specOf(name), String(level), unit))
              expect(written).not.toMatch(/^-/);
          },
        ),
      );
  });

  test("the digits stay, whatever is read", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...quantities.filter(({ spec }) => spec.dimension !== "percentage")),
        fc.double({ min: -1e5, max: 1e5, noNaN: true }).map((value) => value.toFixed(2)),
        ({ spec }, digits) => {
          for (const written of readings(spec, digits))
            expect(Math.abs(Number.parseFloat(written))).toBe(Math.abs(Number(digits)));
        },
      ),
    );
  });
});

describe("positions", () => {
  test.each([
    ["47,5 -30,5", ["47.5 -30.5"], true],
    ["47 30 12 N 30 24 00.5 W", [`47°30'12"N 30°24'00.5"W`], true],
    ["47 30 12 -30 24 00", [`47°30'12"N 30°24'00"W`], true],
    ["47.5N -30.5W", ["47.5N 30.5W"], undefined],
    ["-130.5 47.5", ["47.5 -130.5"], undefined],
    ["47°65'N 30°24'W", ["47.65°N 30°24'W"], undefined],
    ["somewhere", [], undefined],
  ])("%s", (written, meant, certain) => {
    const found = positionReadings(written);
    expect(found.map(({ newText }) => newText)).toEqual(meant);
    expect(found[0]?.certain).toBe(certain);
  });
});
