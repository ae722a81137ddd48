/** Texts of the ITU-R maps, invented on grids of the right shape: the maps themselves may not be passed on. */
import { describe, expect, test } from "vitest";
import { mapValue, readMap } from "../../shared/propagation/maps.js";
import { invented, product } from "../support/map-text.js";

// Shapes, first places and directions as listed for each file in public implementations.
describe("a map answers at the place asked for, whichever way its file runs", () => {
  test.each([
    ["rainHeightM", 54.5, -3.1, 1000 * (3 + 0.01 * 54.5 + 0.002 * 356.9 + 0.36)],
    ["dN1", -33.25, 151.2, 3 + 0.01 * -33.25 + 0.002 * 151.2],
    ["terrainRoughnessM", 0.1, 359.9, 3 + 0.001 + 0.002 * 359.9],
  ] as const)(
    "%s, in turns from 0 to 360 degrees east, from the north",
    (fact, latitude, longitude, expected) => {
      const read = readMap(
        product(fact),
        invented(fact, (north, east) => 3 + 0.01 * north + 0.002 * east),
      );
      if (!read.ok) throw new Error(read.reason);
      // The file holds five decimals.
      expect(mapValue(product(fact), read.grid, latitude, longitude)! / expected).toBeCloseTo(1, 4);
    },
  );

  test("logK, from 180 degrees west, commas", () => {
    const read = readMap(
      product("logK"),
      invented("logK", (north, east) => -4 + 0.01 * north + 0.002 * east, true),
    );
    if (!read.ok) throw new Error(read.reason);
    expect(mapValue(product("logK"), read.grid, 54.53, -3.08)).toBeCloseTo(-4 + 0.5453 - 0.00616, 4);
  });

  test("and does not where the map does not reach", () => {
    const read = readMap(
      product("rainRateMmPerH"),
      invented("rainRateMmPerH", () => 30),
    );
    if (!read.ok) throw new Error(read.reason);
    expect(mapValue(product("rainRateMmPerH"), read.grid, 95, 0)).toBeUndefined();
  });

  test("rain rate, from the south", () => {
    const read = readMap(
      product("rainRateMmPerH"),
      invented("rainRateMmPerH", (north, east) => 120 + north / 2 + east / 10),
    );
    if (!read.ok) throw new Error(read.reason);
    expect(mapValue(product("rainRateMmPerH"), read.grid, 54.53, -3.08)).toBeCloseTo(120 + 27.265 - 0.308, 4);
  });
});

describe("a file of another shape is refused with what was found", () => {
  const h0 = product("rainHeightM");
  const good = invented("rainHeightM", () => 2.3);
  test.each([
    [
      "a row less",
      good.split("\n").slice(1).join("\n"),
      "120 rows, but h0.txt of ITU-R P.839-4 has 121 rows of 241",
    ],
    [
      "a value that no place has",
      good.replace("2.30000", "23.0000"),
      "row 1, column 1: 23.0000 is beyond what any place has",
    ],
    [
      "a rain height below all",
      good.replace("2.30000", "-2.3601"),
      "row 1, column 1: -2.3601 is beyond what any place has",
    ],
    ["a row more", good + good.split("\n")[0], "more than 121 rows"],
    ["a column less", good.replace(/^\S+\s+/, ""), "240 columns in row 1"],
    ["a word", good.replace("2.30000", "void"), 'row 1, column 1: "void" is no number'],
    ["nothing", "", "0 rows"],
  ])("%s", (_what, text, reason) => {
    const read = readMap(h0, text);
    expect(read.ok ? "" : read.reason).toContain(reason);
  });

  // hR = 1000 (h0 + 0.36) lies from -2000 to 7000 m.
  test.each(["-2.36", "6.64"])("the last value that a place may have, %s, is read", (value) => {
    expect(readMap(h0, good.replace("2.30000", value)).ok).toBe(true);
  });
});

test("a map that holds what is no decimal number is refused", () => {
  const text = invented("logK", () => -4.2);
  for (const word of ["0x10", "Infinity", "1e999"])
    expect(readMap(product("logK"), text.replace("-4.20000", word))).toEqual({
      ok: false,
      reason: `row 1, column 1: "${word}" is no number`,
    });
});
