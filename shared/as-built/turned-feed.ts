/** How much less arrives while one feed is turned by 90 degrees against the other. */
import type { Antenna } from "../design/catalogue.js";
import { pairDiscriminationDb } from "../spectrum/polarization-coupling.js";
import type { LessByRange } from "./side-lobe.js";

/** Two leakages of one field strength in phase give 3 dB more than the sum of their powers. */
const IN_PHASE_DB = 3;
/** So much better than its catalogue says an antenna may be; common practice, no source. */
const BETTER_DB = 10;

/**
 * What the cross-polar discriminations of both antennas leave, the powers of their leakages added:
 *
 *     -10 log[10^(-X1/10) + 10^(-X2/10)],
 *
 * from 3 dB less, where both leakages arrive in phase, to 10 dB more, since a catalogue states the least.
 * @returns undefined where an antenna does not state its discrimination
 * @see common practice, see `spectrum/polarization-coupling.ts`
 * @example turnedFeed(a, b) // 30 dB each: 24 to 37 dB
 */
export function turnedFeed(one: Antenna, other: Antenna): LessByRange | undefined {
  const [first, second] = [one, other].map(crossPolarDb);
  if (first === undefined || second === undefined) return undefined;
  const lessDb = pairDiscriminationDb("crossed", { coDb: 0, crossDb: first }, { coDb: 0, crossDb: second });
  return { fromDb: Math.max(0, lessDb - IN_PHASE_DB), toDb: lessDb + BETTER_DB };
}

/** On the axis: as stated, else of the pattern's first point where that is on the axis. */
function crossPolarDb({ crossPolarDiscriminationDb, pattern }: Antenna): number | undefined {
  const [first] = pattern;
  const ofPattern = first?.angleDeg === 0 ? first.crossPolarDb : undefined;
  const statedDb = crossPolarDiscriminationDb ?? ofPattern;
  return statedDb !== undefined && statedDb > 0 ? statedDb : undefined;
}
