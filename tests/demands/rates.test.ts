/** Ethernet arithmetic of IEEE 802.3, and rates of ITU-T G.703 and G.707. */
import { expect, it, test } from "vitest";
import { E1_BPS, lineRateBps, STM1_BPS, takenBy, withOverheadBps } from "../../shared/demands/rates.js";

test.each([
  // Throughput of a line of 1 Gbit/s in frames a second: 1 488 095, 234 962, 81 274 (RFC 2544 has them for 10 Mbit/s: 14 880, 2 349, 812; from memory).
  [64, 1_488_095],
  [512, 234_962],
  [1518, 81_274],
])("a line of 1 Gbit/s holds frames of %i bytes %i times a second", (bytes, frames) => {
  const rateBps = 8 * bytes * frames;
  expect(lineRateBps(rateBps, bytes) / 1e9).toBeCloseTo(1, 5);
});

it("E1 is 32 slots of 64 kbit/s, STM-1 270 columns of 9 rows 8000 times a second", () => {
  expect(E1_BPS).toBe(32 * 64_000);
  expect(STM1_BPS).toBe(270 * 9 * 8 * 8000);
});

it("frames are lengthened by what the network adds", () => {
  expect(withOverheadBps(100e6, 64, 8)).toBe(112.5e6);
  const taken = takenBy(
    { committedBps: 64e6, peakBps: 128e6, frameBytes: 64, e1: 2 },
    { frameOverheadBytes: 8 },
  );
  expect(taken).toEqual({ committedBps: 72e6 + 2 * E1_BPS, peakBps: 144e6 + 2 * E1_BPS, tdmBps: 2 * E1_BPS });
});

// Packets of so many milliseconds of an E1 (32 bytes each 1/8 ms) and 34 bytes of headers. What is usual for circuit
// emulation, 15 to 35 % more than the E1, from memory, is that of packets of 97 to 227 bytes.
test.each([
  [64, 1.53],
  [128, 1.266],
  [192, 1.177],
  [256, 1.133],
])("an E1 in packets of %i bytes takes %f times its rate", (tdmPacketBytes, times) => {
  expect(takenBy({ e1: 1, tdmPacketBytes }, {}).tdmBps / E1_BPS).toBeCloseTo(times, 2);
});
