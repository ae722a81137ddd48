import { expect, test } from "vitest";
import * as numbers from "../../shared/format/numbers.js";

test.each([
  [numbers.metres(38.44), "38.4 m"],
  [numbers.metres(-0.04), "0.0 m"],
  [numbers.kilometres(9994), "9.99 km"],
  [numbers.kilometres(9996), "10.0 km"],
  [numbers.kilometres(11_340), "11.3 km"],
  [numbers.decibels(-0.049), "0.0 dB"],
  [numbers.signed(numbers.decibels, 1.2), "+1.2 dB"],
  [numbers.signed(numbers.decibels, -1.2), "-1.2 dB"],
  [numbers.signed(numbers.decibels, 0), "0.0 dB"],
  [numbers.signed(numbers.decibels, 1e-14), "0.0 dB"],
  [numbers.signed(numbers.decibels, -1e-14), "0.0 dB"],
  [numbers.signed(numbers.decibels, 0.049), "0.0 dB"],
  [numbers.signed(numbers.decibels, 0.051), "+0.1 dB"],
  // Of the unit's own digit nothing is taken.
  [numbers.signed(numbers.fresnel, 0.001), "0.00 F1"],
  [numbers.dbm(-40.86), "-40.9 dBm"],
  [numbers.frequency(18.7275e9), "18.7275 GHz"],
  [numbers.frequency(350e6), "350 MHz"],
  [numbers.bandwidth(27.5e6), "27.5 MHz"],
  [numbers.bitRate(310e6), "310 Mbit/s"],
  [numbers.bitRate(1e6), "1 Mbit/s"],
  [numbers.bitRate(999_900), "999.9 kbit/s"],
  [numbers.bitRate(1000), "1 kbit/s"],
  [numbers.bitRate(0), "0 Mbit/s"],
  [numbers.bitRate(2.5e9), "2.5 Gbit/s"],
  [numbers.availability(99.995), "99.995 %"],
  [numbers.availability(99.99532), "99.9953 %"],
  [numbers.availability(99.1), "99.1 %"],
  [numbers.availability(100), "100 %"],
  [numbers.outage(0.00468), "0.0047 %"],
  [numbers.outage(0), "0 %"],
  [numbers.outage(1.2e-9), "0.0000000012 %"],
  // 0.01 % of 525 960 minutes.
  [numbers.yearly(0.01), "53 min a year"],
  [numbers.yearly(0.001), "5.3 min a year"],
  [numbers.yearly(0.0001), "31.6 s a year"],
  [numbers.yearly(1), "88 h a year"],
  [numbers.fresnel(-0.014), "-0.01 F1"],
  [numbers.fresnelAsked(0.6), "0.6 F1"],
  [numbers.fresnelAsked(1), "1 F1"],
  [numbers.kFactor(4 / 3), "k 1.33"],
])("%s", (written, expected) => {
  expect(written).toBe(expected);
});
