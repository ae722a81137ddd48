/**
 * What the worked examples of interference are computed with: the formulas written out once more, from the reference
 * and not from the code; places by the middle latitude, where the code takes geodesics.
 */

import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { Entry } from "../../shared/interference/entry.js";
import type { InterferenceNetwork } from "../../shared/interference/network.js";
import type { InterferenceAt } from "../../shared/interference/receiver-result.js";
import { NO_FILES } from "../../shared/others/listed.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { designOf } from "../equipment/designs.js";
import { exampleGround } from "../rules/example-design.js";
import { interferenceIn, type ProfileOf } from "./interference.js";

/**
 * Interference of a design behind the examples' preamble; over unknown ground unless it is handed in.
 * @param instead words of the preamble, and what stands in their place
 */
export function networkOf(
  text: string,
  profileOf: ProfileOf = () => undefined,
  instead: readonly (readonly [string, string])[] = [],
): InterferenceNetwork {
  const preamble = instead.reduce((words, [was, is]) => words.replace(was, is), EXAMPLE_PREAMBLE);
  const design = designOf(text, preamble);
  const results = new Map(
    [...design.hops.values()].map((hop) => [hop.name, evaluateHop(hop, exampleGround(hop))]),
  );
  return interferenceIn({ design, results, listed: NO_FILES, day: "2026-06-01" }, profileOf);
}

export function receiverIn(
  network: InterferenceNetwork,
  hop: string,
  site: string,
  more = "",
): InterferenceAt {
  return network.of(hop).find(({ receiver: { place, key } }) => place.site === site && key.includes(more))!;
}

/** By hop and site of the sender, and the polarization where there are several. */
export function from({ entries }: InterferenceAt, key: string): Entry {
  const found = entries.filter(({ sender }) => sender.key.startsWith(key));
  if (found.length !== 1)
    throw new Error(`${key}: ${found.length} of ${entries.map((e) => e.sender.key).join()}`);
  return found[0]!;
}

export const power = (db: number) => 10 ** (db / 10);
export const dB = (ratio: number) => 10 * Math.log10(ratio);

/** TD = 10 log(1 + sum of i/n). */
export function raisedDb(...toNoiseDb: readonly (number | undefined)[]): number {
  return dB(1 + toNoiseDb.reduce<number>((sum, db) => sum + (db === undefined ? 0 : power(db)), 0));
}

type Point = readonly [latitudeDeg: number, longitudeDeg: number];
const radians = (degrees: number) => (degrees * Math.PI) / 180;

/** By the radii of the WGS 84 ellipsoid at the middle latitude: metres north and east, half of the convergence at each end. */
function byMiddleLatitude([lat1, lon1]: Point, [lat2, lon2]: Point) {
  const [middle, e2] = [radians((lat1 + lat2) / 2), 0.00669437999014];
  const w = 1 - e2 * Math.sin(middle) ** 2;
  const turn = radians(lon2 - lon1);
  return {
    northM: ((6_378_137 * (1 - e2)) / w ** 1.5) * radians(lat2 - lat1),
    eastM: (6_378_137 / Math.sqrt(w)) * Math.cos(middle) * turn,
    halfConvergence: (turn * Math.sin(middle)) / 2,
  };
}

/** Course at the first point, degrees. */
export function bearing(one: Point, other: Point): number {
  const { northM, eastM, halfConvergence } = byMiddleLatitude(one, other);
  return ((Math.atan2(eastM, northM) - halfConvergence) * 180) / Math.PI;
}

export function kilometres(one: Point, other: Point): number {
  const { northM, eastM } = byMiddleLatitude(one, other);
  return Math.hypot(northM, eastM) / 1000;
}

/** F.699 for x = D/lambda up to 100, 1 to 70 GHz: parabola, shelf, law, floor. @returns dB below the greatest gain */
export function f699Db(gainDbi: number, diameterM: number, frequencyHz: number, angleDeg: number): number {
  const x = (diameterM * frequencyHz) / 299_792_458;
  const shelf = 2 + 15 * Math.log10(x);
  const lobeEnd = (20 / x) * Math.sqrt(gainDbi - shelf);
  if (angleDeg < lobeEnd) return 2.5e-3 * (x * angleDeg) ** 2;
  if (angleDeg < 100 / x) return gainDbi - shelf;
  if (angleDeg < 48) return gainDbi - (52 - 10 * Math.log10(x) - 25 * Math.log10(angleDeg));
  return gainDbi - (10 - 10 * Math.log10(x));
}

/** F.1245 for x up to 100: the same main beam, then 39 - 5 log x - 25 log phi, floor -3 - 5 log x. */
export function f1245Db(gainDbi: number, diameterM: number, frequencyHz: number, angleDeg: number): number {
  const x = (diameterM * frequencyHz) / 299_792_458;
  const lobeEnd = (20 / x) * Math.sqrt(gainDbi - (2 + 15 * Math.log10(x)));
  if (angleDeg < lobeEnd) return 2.5e-3 * (x * angleDeg) ** 2;
  return (
    gainDbi -
    Math.max(39 - 5 * Math.log10(x) - 25 * Math.log10(Math.min(48, angleDeg)), -3 - 5 * Math.log10(x))
  );
}

/**
 * Least loss over any ground less its gas: 92.4 + 20 log(f d) + 2.6 (1 - exp(-d/10)) log(min(p, 0.32)/50) - 0.03.
 */
export function leastLossDb(distanceM: number, frequencyHz: number, timePercent = 20): number {
  const d = distanceM / 1000;
  const focusing = 2.6 * (1 - Math.exp(-d / 10)) * Math.log10(Math.min(timePercent, 0.32) / 50);
  return 92.4 + 20 * Math.log10((frequencyHz / 1e9) * d) + focusing - 0.03;
}

/** Raised cosine of a channel of this width at an offset from its centre, roll-off 0.15; also |H|^2 of the receiver. */
export function cosine(widthHz: number, offsetHz: number): number {
  const [rate, a, f] = [widthHz / 1.15, 0.15, Math.abs(offsetHz)];
  const [flat, end] = [(rate * (1 - a)) / 2, (rate * (1 + a)) / 2];
  return f <= flat ? 1 : f >= end ? 0 : 0.5 * (1 + Math.cos((Math.PI * (f - flat)) / (a * rate)));
}

/** NFD by rectangles of 1 kHz: what is sent over what comes through. */
export function filteredDb(
  sent: (hz: number) => number,
  through: (hz: number) => number,
  offsetHz: number,
): number {
  let [all, passed] = [0, 0];
  for (let f = -150e6 + 500; f < 150e6; f += 1000) {
    all += sent(f);
    passed += sent(f) * through(f + offsetHz);
  }
  return dB(all / passed);
}

/** k T B F at 290 K in the symbol rate of a channel of this width, dBm. */
export function noiseDbm(widthHz: number, figureDb: number): number {
  return dB(1.380649e-23 * 290 * (widthHz / 1.15) * 1000) + figureDb;
}
