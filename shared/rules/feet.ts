/** Heights that fit when their figure is read in the other of metres and feet. */
import { trimmed } from "../format/numbers.js";

export const FOOT_M = 0.3048;

/** What is written and what is meant: `ft` for a figure in metres that were feet. */
export type MeantUnit = "ft" | "m";

/** The height that a figure comes to in the unit that is meant. */
function meantM(statedM: number, unit: MeantUnit): number {
  return unit === "ft" ? statedM * FOOT_M : statedM / FOOT_M;
}

/** For example `1352 ft would be 412.1 m`. */
export function meantWords(statedM: number, unit: MeantUnit): string {
  const figure = unit === "ft" ? statedM : statedM / FOOT_M;
  return unit === "ft"
    ? `${trimmed(figure, 1)} ft would be ${trimmed(meantM(statedM, unit), 1)} m`
    : `${trimmed(figure, 1)} m would be it, not feet`;
}

/** The least share of a structure that an antenna hangs at, where its height is one in feet. */
const UPPER_PART = 0.6;

/** Whether an antenna above the top of its structure would hang in the upper part of it if its figure were feet. */
export function hangsInFeet(heightM: number, structureM: number): boolean {
  const meant = meantM(heightM, "ft");
  return heightM > structureM && meant <= structureM && meant >= UPPER_PART * structureM;
}

/** Lower ground is as good as any within the tolerance. */
const LEAST_GROUND_M = 50;

/** The unit in which a stated ground would be within the tolerance of the terrain; undefined: in none, or as stated. */
export function unitOfGround(statedM: number, terrainM: number, toleranceM: number): MeantUnit | undefined {
  if (terrainM < LEAST_GROUND_M || Math.abs(statedM - terrainM) <= toleranceM) return undefined;
  return (["ft", "m"] as const).find((unit) => Math.abs(meantM(statedM, unit) - terrainM) <= toleranceM);
}
