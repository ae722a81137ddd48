/** What is told of a ray over further antennas that does not clear. */
import { address, nth } from "../design/address.js";
import type { Hop } from "../design/design.js";
import { furtherRays } from "../equipment/rays.js";
import type { FurtherPath } from "../evaluate/account/path-result.js";
import { decibels, fixed, fresnelAsked, kFactor } from "../format/numbers.js";
import { lackM, neededAtAll, said } from "./clearance.js";
import type { Report } from "./rule.js";

export function rayFault(hop: Hop, path: FurtherPath): Report | undefined {
  const { clearance, name, of, moreLossDb = 0 } = path;
  const failing = clearance.filter(({ verdict }) => verdict === "missed");
  const objective = hop.objective;
  if (failing.length === 0 || objective === undefined) return undefined;
  const worst = failing.reduce((a, b) => (lackM(b) > lackM(a) ? b : a));
  const own = of === "diversity" && objective.diversityClearance !== undefined;
  const fact = own ? "diversity-clearance" : "clearance";
  const criteria = own ? objective.diversityClearance! : objective.clearance;
  const index = criteria.findIndex(
    (one) => one.kFactor === worst.kFactor && one.fresnelFraction === worst.requiredFraction,
  );
  const raises = raisesOf(hop, path);
  const raise =
    raises.length === 0
      ? "raising one antenna alone does not help"
      : `raise ${raises.map(({ words, neededM }) => `${words} to ${fixed(Math.ceil(neededM * 10) / 10, 1)} m`).join(" or ")}`;
  const asked = `${fresnelAsked(worst.requiredFraction)}${own ? " of it" : " of every antenna"}`;
  const loss = moreLossDb < 0.1 ? "" : `; it receives ${decibels(moreLossDb)} less by diffraction`;
  return {
    at: placeOf(hop, path),
    // Whichever of two further antennas is the one to be raised.
    about: path.antennas.every((antenna) => antenna > 1) ? address("hop", hop.name, name) : undefined,
    message: `${name}: ${said(worst)}; the objective asks ${asked}; ${raise}${loss}`,
    help:
      of === "diversity" && !own
        ? "P.530 lets the lower antenna have less clearance: `diversity-clearance` of the objective states it."
        : undefined,
    related: [
      {
        at: address("objective", objective.name, nth(fact, Math.max(0, index))),
        message: `${fresnelAsked(worst.requiredFraction)} at ${kFactor(worst.kFactor)}`,
      },
    ],
  };
}

/** An end whose antenna of the ray would clear it by itself. */
export interface Raise {
  readonly end: 0 | 1;
  /** The fact that states the antenna. */
  readonly fact: string;
  readonly neededM: number;
  readonly words: string;
}

/** Of the further antennas of a ray, the one that has to be raised less first. */
export function raisesOf(hop: Hop, { antennas, clearance }: FurtherPath): readonly Raise[] {
  const ray = furtherRays(hop).find((one) => one.antennas.join() === antennas.join());
  const failing = clearance.filter(({ verdict }) => verdict === "missed");
  if (ray === undefined) return [];
  const ends = ([0, 1] as const).filter((end) => antennas[end] > 1);
  return ends
    .flatMap((end) => {
      const neededM = neededAtAll(failing, end);
      const { fact, heightM = 0 } = ray.stands[end];
      const words = ends.length === 1 ? "it" : `that at ${hop.ends[end].site.name}`;
      return neededM === undefined ? [] : [{ end, fact, neededM, words, raiseM: neededM - heightM }];
    })
    .sort((a, b) => a.raiseM - b.raiseM);
}

/** The height of the antenna to be raised, else of the further antenna of the first end that has one. */
function placeOf(hop: Hop, path: FurtherPath): string {
  const ray = furtherRays(hop).find((one) => one.antennas.join() === path.antennas.join());
  const end = raisesOf(hop, path)[0]?.end ?? (path.antennas[0] > 1 ? 0 : 1);
  return address("hop", hop.name, hop.ends[end].site.name, `${ray?.stands[end].fact ?? "antenna"}.at`);
}
