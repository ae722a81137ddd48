import { address, nth } from "../design/address.js";
import type { Hop } from "../design/design.js";
import type { ReflectionResult } from "../evaluate/account/reflection-result.js";
import { decibels, kFactor, kilometres, metres, trimmed } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

/** Ripple that an engineer would do something about: our own limit. */
const WORTH_TELLING_DB = 3;

export const reflectionRipple: HopRule = {
  scope: "hop",
  id: "reflection-ripple",
  severity: "warning",
  title: "A surface on the path reflects into the receiver",
  checks:
    "Whether the point of specular reflection lies on a stated surface for any k from sub-refraction to strong super-refraction, unshielded by terrain, and how deep the two rays cancel: 3 dB or more is told.",
  why: "While k changes over the day the level runs through maxima and cancellations, beside and beyond multipath.",
  fix: "Shield the point or move it to rough ground by other heights, tilt the antennas up, or place a diversity antenna half a lobe apart.",
  source: "Rec. ITU-R P.530-18 sections 6.1 and 6.2.1; the 3 dB are our own limit",
  needs: ["distance", "levels"],
  good: exampleHop({ more: "surface rough 1 km to 8 km from KELD" }),
  bad: exampleHop({ more: "surface water 1 km to 8 km from KELD at 225 m" }),
  check({ hop, result, report }) {
    for (const one of result.reflections ?? []) {
      if (!one.onSurface || one.shielded || one.deepestFadeDb < WORTH_TELLING_DB) continue;
      report({ at: addressOf(hop, one), message: textOf(one), help: remedy(hop, one) });
    }
  },
};

function addressOf(hop: Hop, { surface, fromM, toM }: ReflectionResult): string {
  const index = (hop.surfaces ?? []).findIndex(
    (one) => one.kind === surface && one.fromM === fromM && one.toM === toM,
  );
  return address("hop", hop.name, nth("surface", Math.max(index, 0)));
}

function textOf(one: ReflectionResult): string {
  const bound = one.deepestFadeBound === undefined ? "" : `${one.deepestFadeBound} `;
  const cancels =
    one.spanWavelengths > 1
      ? `k moves it through ${trimmed(one.spanWavelengths, 1)} wavelengths, so that cancellations occur`
      : `k moves it by ${trimmed(one.spanWavelengths, 2)} wavelengths`;
  return `the ${one.surface} surface reflects at ${kilometres(one.pointM)} with ${kFactor(one.kFactor)}: up to ${bound}${decibels(one.deepestFadeDb)} down; ${cancels}`;
}

function remedy(hop: Hop, { ends }: ReflectionResult): string | undefined {
  const parts = ends.flatMap(({ site, bestSpacingM, heightOfMaximumM }, i) => {
    if (bestSpacingM === undefined) return [];
    const { antennaHeightM, diversityHeightM } = hop.ends[i]!;
    const spacing =
      antennaHeightM === undefined || diversityHeightM === undefined
        ? ""
        : `, now ${metres(Math.abs(antennaHeightM - diversityHeightM))}`;
    const height = heightOfMaximumM === undefined ? "" : `; nearest maximum at ${metres(heightOfMaximumM)}`;
    return [`${site}: half a lobe is ${metres(bestSpacingM)}${spacing}${height}`];
  });
  return parts.length === 0 ? undefined : `${parts.join(". ")}.`;
}
