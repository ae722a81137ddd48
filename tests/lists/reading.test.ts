/** Heads, figures, coordinates and words as people write them in lists. Common practice of the trade, no source. */
import { describe, expect, test } from "vitest";
import { decimalMarkOf, numberOf, readFigure } from "../../shared/lists/figures.js";
import { readHead } from "../../shared/lists/heads.js";
import { asName } from "../../shared/lists/names.js";
import { readAngle, splitPair } from "../../shared/lists/notation.js";
import { epsgOfZone, positionOfPair, positionOfProjected } from "../../shared/lists/positions.js";
import { wordFor } from "../../shared/lists/values.js";

test.each([
  ["Site ID", "site"],
  ["Standort", "site"],
  ["Latitude (WGS84)", "latitude"],
  ["Breitengrad [°]", "latitude"],
  ["LON", "longitude"],
  ["Länge [km]", "length km"],
  ["Länge", "longitude"],
  ["Site A", "site a"],
  ["From", "site a"],
  ["To", "site b"],
  ["Lat1", "latitude a"],
  ["tx_lat", "latitude tx"],
  ["rx_antenna_m", "antennaHeight rx m"],
  ["tx_gain_dBi", "antennaGain tx dBi"],
  ["Antenna height A [m]", "antennaHeight a m"],
  ["Near end antenna", "antenna a"],
  ["Antenna diameter B (ft)", "antennaDiameter b ft"],
  ["Frequency [GHz]", "frequency GHz"],
  ["Tx Freq A (MHz)", "frequency a MHz"],
  ["channel_width_MHz", "channelWidth MHz"],
  ["Polarisation", "polarization"],
  ["Tower height, m", "structureHeight m"],
  ["Rechtswert", "easting"],
  ["Elevation (m ASL)", "ground m"],
  ["Link name", "hop"],
  ["Capacity [Mbit/s]", "bitRate Mbit/s"],
  ["Azimuth", "azimuth"],
  ["Tx A (GHz)", "frequency a GHz"],
  ["TX_B_MHz", "frequency b MHz"],
  ["Remarks", ""],
  ["Elevation angle", ""],
  ["Power consumption [W]", ""],
])("%s is %s", (head, expected) => {
  const read = readHead(head);
  expect(
    read ? [read.field.key, read.end, read.unit].filter((part) => part !== undefined).join(" ") : "",
  ).toBe(expected);
});

describe("angles", () => {
  test.each([
    ["54.4534", 54.4534, "decimal degrees"],
    ["54,4534", 54.4534, "decimal degrees"],
    ["N 54 27 12,4", 54.45344444444444, "degrees, minutes and seconds"],
    [`54°27'12.4"N`, 54.45344444444444, "degrees, minutes and seconds"],
    ["54-27-12.4 N", 54.45344444444444, "degrees, minutes and seconds"],
    ["54 27 12.4 S", -54.45344444444444, "degrees, minutes and seconds"],
    ["-54 27 12.4", -54.45344444444444, "degrees, minutes and seconds"],
    ["542712N", 54.45333333333333, "degrees, minutes and seconds"],
    ["54° 27.5' N", 54.458333333333336, "degrees and minutes"],
    ["54deg 27min 12sec N", 54.45333333333333, "degrees, minutes and seconds"],
    ["54d27m12.4s N", 54.45344444444444, "degrees, minutes and seconds"],
    ["54º27´12.4´´N", 54.45344444444444, "degrees, minutes and seconds"],
  ])("%s", (text, degrees, notation) => {
    const read = readAngle(text, "latitude");
    expect(read).toMatchObject({ ok: true, notation });
    expect(read.ok && read.degrees).toBeCloseTo(degrees, 10);
  });

  test.each(["95", "54 61 00 N", "12 O", "abc", "", "1e400", "-54 N", "54.5 E"])("%s is none", (text) => {
    expect(readAngle(text, "latitude").ok).toBe(false);
  });

  test("a longitude beyond 180 counts on", () => {
    expect(readAngle("190.5", "longitude")).toMatchObject({ ok: true, degrees: -169.5 });
  });
});

test.each([
  ["47.5, -30.5", ["47.5", "-30.5"]],
  ["47,5; -30,5", ["47,5", "-30,5"]],
  ["47,5 -30,5", ["47,5", "-30,5"]],
  ["47,5,-30,5", ["47.5", "-30.5"]],
  ["(47.5 / -30.5)", ["47.5", "-30.5"]],
  [`47°30'N 30°30'W`, [`47°30'N`, `30°30'W`]],
  ["N47.5 W30.5", ["N47.5", "W30.5"]],
])("%s holds two angles", (text, expected) => {
  expect(splitPair(text)).toEqual(expected);
});

test("the letters say which of two is the latitude", () => {
  expect(positionOfPair("30.5W 47.5N")).toMatchObject({
    ok: true,
    position: { latitudeDeg: 47.5, longitudeDeg: -30.5 },
  });
});

test.each([
  ["1.234,5", ",", 1234.5],
  ["1,234.5", ".", 1234.5],
  ["1 234,5", ",", 1234.5],
  ["12.5", ",", 12.5],
  ["12,5", ".", 12.5],
  ["1.234.567", ",", 1234567],
  ["0x10", ".", undefined],
  ["1.2.3", ".", undefined],
  ["", ".", undefined],
] as const)("%s with a decimal %s", (text, mark, expected) => {
  expect(numberOf(text, mark)).toBe(expected);
});

test("which mark parts decimals is seen from all figures together", () => {
  expect(decimalMarkOf(["12,5", "3,25"])).toEqual({ mark: ",", mixed: 0, doubtful: 0 });
  expect(decimalMarkOf(["12.5", "1,234.5"])).toEqual({ mark: ".", mixed: 0, doubtful: 0 });
  expect(decimalMarkOf(["12,5", "12,6", "3.5"])).toEqual({ mark: ",", mixed: 1, doubtful: 0 });
  expect(decimalMarkOf(["1,234", "2,500"])).toEqual({ mark: ",", mixed: 0, doubtful: 2 });
});

test("figures have the unit of the cell, else of the column; a date was a figure once", () => {
  expect(readFigure("98,4 ft", "length", "m", ",")).toMatchObject({
    ok: true,
    figure: { number: 98.4, unit: "ft" },
  });
  expect(readFigure(18.7, "frequency", "GHz", ".")).toMatchObject({ ok: true, figure: { value: 18.7e9 } });
  expect(readFigure("30 dBm", "length", "m", ".")).toMatchObject({ ok: false });
  expect(readFigure({ date: "2026-05-01" }, "length", "m", ".")).toMatchObject({
    ok: false,
    reason: expect.stringContaining("date"),
  });
});

test.each([
  ["polarization", "V", "vertical"],
  ["polarization", "Hor", "horizontal"],
  ["polarization", "circular", undefined],
  ["transmits", "Hi", "high"],
  ["structure", "Lattice tower", "tower"],
  ["structure", "Monopole", "pole"],
  ["structure", "Rooftop", "roof"],
  ["arrangement", "1+1 HSB", "1+1 hot-standby"],
  ["arrangement", "2+0 XPIC", "2+0 xpic"],
  ["arrangement", "1 + 0", "1+0"],
  ["highestMode", "128 QAM", "128QAM"],
  ["highestMode", "QAM/256", "256QAM"],
  ["highestMode", "qpsk", "QPSK"],
] as const)("%s %s is %s", (key, written, expected) => {
  expect(wordFor(key, written)).toBe(expected);
});

test.each([
  ["Keld quarry (old)", "Keld-quarry-old"],
  ["1001", "S1001"],
  ["Ö-Stadt/Nord", "Ö-Stadt-Nord"],
  ["objective", "S-objective"],
  ["\u202eDLEK", "DLEK"],
  ["К2", "К2"],
  ["KЕLD", "KELD"],
  ["!?", undefined],
])("%s is called %s", (written, expected) => {
  expect(asName(written, new Set(["objective"]))).toBe(expected);
});

// EPSG:32632 of 9 E 48 N is 500 000 E 5 316 300 N or so by definition: on the central meridian the easting is 500 000.
test("projected coordinates are degrees, with the accuracy of their shift", () => {
  const read = positionOfProjected("500000", "5316300", 32632, ".");
  expect(read).toMatchObject({ ok: true, how: "EPSG:32632, on WGS 84 itself" });
  expect(read.ok && read.position.longitudeDeg).toBeCloseTo(9, 9);
  expect(read.ok && read.position.latitudeDeg).toBeCloseTo(48, 2);
  expect(positionOfProjected("2600000", "1200000", 2056, ".")).toMatchObject({
    ok: true,
    how: expect.stringContaining("good to about"),
  });
  expect(positionOfProjected("500000", "5316300", 99999, ".")).toMatchObject({ ok: false });
  expect(positionOfProjected("5e9", "1", 32632, ".")).toMatchObject({ ok: false });
  expect([epsgOfZone("32N"), epsgOfZone("UTM zone 19 S"), epsgOfZone("61N"), epsgOfZone("32")]).toEqual([
    32632,
    32719,
    undefined,
    undefined,
  ]);
});
