import { address } from "../design/address.js";
import type { Antenna } from "../design/catalogue.js";
import { antennasStated } from "../equipment/stands.js";
import { decibels, degrees } from "../format/numbers.js";
import { radiated } from "../radio/radiated.js";
import { listed } from "../words/lists.js";
import { aboutEntries } from "./entry-rule.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";

export const patternImplausible = gathering({
  scope: "network",
  id: "pattern-implausible",
  severity: "warning",
  title:
    "The pattern of an antenna is stated once, in the order of its angles, and such as an antenna can have",
  checks:
    "Of antennas in use: whether the lines of `pattern` ascend by angle, whether an angle stands there twice with other figures, whether points, a file and a reference pattern are stated beside each other, and whether the pattern with the gain of the antenna, taken alike all around, sends out 6 dB more than goes in: that much an envelope may lie above what is radiated.",
  why: "A line in the wrong place is often a wrong angle, and of two patterns only one is used.",
  fix: "Hold the lines against the data sheet, and keep one of points, file and reference pattern.",
  source:
    "data of the equipment; no antenna radiates more than goes in; the 6 dB are common practice, no source",
  good: exampleHop(),
  bad: `antenna DISH60-18X like DISH60-18 {\n  pattern 10 deg 40 dB\n  pattern 5 deg 25 dB\n}\n\n${exampleHop(
    {
      keld: "antenna DISH60-18X at 40 m\n    transmits high",
    },
  )}`,
  ...aboutEntries(
    ({ ends }) => ends.flatMap(antennasStated).flatMap(({ antenna }) => antenna ?? []),
    (antenna) =>
      faultsOf(antenna).map((fault) => ({
        at: address("antenna", antenna.name, "pattern"),
        message: `${antenna.name}: ${fault}`,
      })),
  ),
});

/** That much an envelope may lie above what is radiated. */
const MOST_OVER_DB = 6;

/** What is wrong with a pattern of an antenna with its gain, whether it stands in the text or in a file. */
export function radiatedFault(antenna: Antenna): string | undefined {
  const found = radiated(antenna);
  if (found === undefined || !(found.overDb > MOST_OVER_DB)) return undefined;
  return `with its gain its pattern sends out ${decibels(found.overDb)} more than goes in, most of it ${found.behind ? "behind" : "ahead"}`;
}

function faultsOf(antenna: Antenna): readonly string[] {
  const { pattern, patternOutOfOrder, patternFile, referencePattern } = antenna;
  const over = radiatedFault(antenna);
  const doubled = pattern.find((point, i) => {
    const before = pattern[i - 1];
    return (
      before?.angleDeg === point.angleDeg &&
      (before.copolarDb !== point.copolarDb || before.crossPolarDb !== point.crossPolarDb)
    );
  });
  const stated = [
    ...(pattern.length > 0 ? ["points"] : []),
    ...(patternFile === undefined ? [] : ["a file"]),
    ...(referencePattern === undefined ? [] : ["a reference pattern"]),
  ];
  return [
    ...(patternOutOfOrder ? ["the angles of its pattern do not ascend in the text"] : []),
    ...(doubled
      ? [`its pattern has two figures at ${degrees(doubled.angleDeg)}; one is ${decibels(doubled.copolarDb)}`]
      : []),
    ...(over === undefined ? [] : [over]),
    ...(stated.length > 1
      ? [
          `its pattern is stated as ${listed(stated)}; ${stated[0]} ${stated[0] === "points" ? "count" : "counts"}`,
        ]
      : []),
  ];
}
