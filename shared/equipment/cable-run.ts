/** Cables between indoors and the units: how long, and what hangs along them. */
import type { HopEnd } from "../design/design.js";
import type { SiteEquipment } from "../design/equipment.js";
import { antennasStated } from "./stands.js";

/** Horizontal run when the site states none, m. Common practice. */
export const USUAL_RUN_M = 10;

/** Slack: a tenth of the way, and loops at both ends. Common practice. */
const SLACK_FACTOR = 1.1;
export const LOOPS_M = 4;

/** A kit for so much cable beside those at its ends; owners differ between 20 and 40 m. Common practice. */
export const USUAL_GROUNDING_M = 30;

/** At the unit, at the foot of the structure before the bend, at the entry. Common practice. */
const KITS_AT_ENDS = 3;

export interface CableLength {
  readonly lengthM: number;
  readonly estimated: boolean;
}

/** Length of the cable to each unit: as stated, else up to the highest antenna. Undefined without either. */
export function cableLength(end: HopEnd, equipment: SiteEquipment | undefined): CableLength | undefined {
  const stated = end.installation?.cableLengthM;
  if (stated !== undefined) return { lengthM: stated, estimated: false };
  const heights = antennasStated(end).flatMap(({ heightM }) => heightM ?? []);
  if (heights.length === 0) return undefined;
  const way = Math.max(...heights) + (equipment?.cableRunM ?? USUAL_RUN_M);
  // 50 m and a tenth are 55 m, also where the product is a hair above it.
  return { lengthM: Math.ceil(way * SLACK_FACTOR + LOOPS_M - 1e-9), estimated: true };
}

/** Grounding kits of one cable. @param everyM > 0 */
export function groundingKits(lengthM: number, everyM: number = USUAL_GROUNDING_M): number {
  return KITS_AT_ENDS + Math.floor(lengthM / everyM);
}
