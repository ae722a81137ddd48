/** Hops over every arrangement, with unequal couplers and second antennas, as data. */
import fc from "fast-check";
import type { FurtherChannel, Hop, HopEnd } from "../../shared/design/design.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import {
  ANTENNA,
  antennasFor,
  end,
  KELD,
  levelGround,
  lineOf,
  makeHop,
  QAM128,
  QPSK,
  R18,
  TARN,
  TRUNK,
} from "./builders.js";

/** Channels of 55 MHz, counted from 17.7 GHz below and 18.71 GHz above. */
function channelOf(number: number): FurtherChannel {
  const lowHz = 17.7e9 + number * 55e6;
  const highHz = 18.71e9 + number * 55e6;
  return { plan: "P18", bandwidthHz: 55e6, number, lowHz, highHz, standing: "stated", separationHz: 0 };
}

/** The hop with its channels in another order of lines: the first is that of the budget. */
export function onChannels(hop: Hop, numbers: readonly number[]): Hop {
  const [first, ...others] = numbers.map(channelOf);
  if (first === undefined) return hop;
  const at = (one: HopEnd) => ({
    ...one,
    transmitFrequencyHz: one.transmits === "high" ? first.highHz : first.lowHz,
  });
  const furtherChannels = others.map((one) => ({
    ...one,
    separationHz: Math.abs(one.lowHz! - first.lowHz!),
  }));
  return { ...hop, channel: first, furtherChannels, ends: [at(hop.ends[0]), at(hop.ends[1])] };
}

const tenths = (min: number, max: number) =>
  fc.integer({ min: min * 10, max: max * 10 }).map((tenth) => tenth / 10);

const someCoupler = fc.record({
  name: fc.constant("C"),
  kind: fc.constant("hybrid" as const),
  mainLossDb: tenths(0, 4),
  standbyLossDb: fc.option(tenths(4, 10), { nil: undefined }),
});

const secondAntenna = tenths(30, 45).map((gainDbi) => ({
  ...ANTENNA,
  name: "DISH60-18-S",
  gain: [{ gainDbi }],
}));

const someEnd = fc.record({
  coupler: fc.option(someCoupler, { nil: undefined }),
  second: fc.option(secondAntenna, { nil: undefined }),
  extraLossDb: tenths(0, 3),
  transmitPowerDbm: fc.option(tenths(5, 25), { nil: undefined, freq: 4 }),
});

export interface CarrierHop {
  readonly hop: Hop;
  readonly numbers: readonly number[];
}

export const carrierHops: fc.Arbitrary<CarrierHop> = fc
  .record({
    facts: fc.constantFrom(...ARRANGEMENTS),
    halves: fc.constantFrom(["high", "low"] as const, ["low", "high"] as const),
    first: someEnd,
    second: someEnd,
    numbers: fc.shuffledSubarray([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], { minLength: 9, maxLength: 9 }),
    polarization: fc.constantFrom("vertical", "horizontal", "slant", undefined),
    powers: fc.tuple(tenths(10, 28), tenths(10, 28)),
    capacityBps: fc.constantFrom(70e6, 300e6, undefined),
  })
  .map(({ facts, halves, first, second, numbers, polarization, powers, capacityBps }) => {
    const ends = [first, second].map(({ second: antenna, ...more }, i) =>
      end(i === 0 ? KELD : TARN, halves[i]!, {
        ...lineOf(facts.name),
        ...more,
        ...antennasFor(facts.name, antenna, more.coupler),
      }),
    );
    const hop = makeHop({
      arrangement: { name: facts.name },
      ends: [ends[0]!, ends[1]!],
      polarization,
      radio: { ...R18, unit: { subBands: [], rssi: [], branching: { filterDb: 0.7, passDb: 0.15 } } },
      modes: [
        { ...QPSK, transmitPowerDbm: powers[0] },
        { ...QAM128, transmitPowerDbm: powers[1] },
      ],
      objective: { ...TRUNK, capacityBps },
    });
    const own = numbers.slice(0, facts.frequencyPairs);
    return { hop: onChannels(hop, own), numbers: own };
  });

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;

export function judgedOnLevelGround(hop: Hop): { readonly hop: Hop; readonly result: HopResult } {
  return { hop, result: evaluateHop(hop, levelGround(LENGTH_M)) };
}
