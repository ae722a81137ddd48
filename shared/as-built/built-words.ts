/** What was built, in words. */
import { decibels, metres } from "../format/numbers.js";
import type { BuiltDifference, BuiltFact } from "./differences.js";

const CALLED: Readonly<Record<BuiltFact, string>> = {
  antenna: "antenna",
  height: "height of the antenna",
  "diversity-height": "height of the diversity antenna",
  azimuth: "azimuth of the antenna",
  "cable-length": "length of the cable",
};

export function builtFactWords(fact: BuiltFact): string {
  return CALLED[fact];
}

/** `23.6 m`, `134.20°`, `DISH60-18` */
export function builtFigure(fact: BuiltFact, value: BuiltDifference["built"]): string {
  if ("name" in value) return value.name;
  return fact === "azimuth" ? `${value.figure.toFixed(2)}°` : metres(value.figure);
}

/** `, which costs 3.2 dB`, nothing where it is not known. */
export function costWords({ lessDb }: Pick<BuiltDifference, "lessDb">): string {
  if (lessDb === undefined || Math.abs(lessDb) < 0.05) return "";
  return lessDb > 0 ? `, which costs ${decibels(lessDb)}` : `, which gains ${decibels(-lessDb)}`;
}

/** Why an azimuth is off, where it is off by just the declination. */
export function compassWords({ compass }: Pick<BuiltDifference, "compass">): string {
  if (compass === undefined) return "";
  const { slip, declinationDeg } = compass;
  const declination = `the declination there of ${declinationDeg.toFixed(1)}°`;
  return slip === "set by compass"
    ? `; that is ${declination}: set on a compass without it`
    : `; that is ${declination}: read off a compass, and no azimuth from true north`;
}
