import type { Antenna } from "../design/catalogue.js";
import { SPEED_OF_LIGHT_M_PER_S } from "../propagation/constants.js";

/** Beyond this the parabola of the main lobe says too much; it is then held. */
const MAIN_LOBE_DB = 20;

/**
 * How much weaker an antenna is at an angle phi off boresight, dB: from its pattern, straight between the points, and
 * before the first of them by the parabola of the main lobe where a beamwidth is stated; else that parabola alone, for a
 * 3 dB beamwidth B,
 *
 *     12 (phi/B)^2 up to 20 dB,   B = 70 lambda/D degrees where none is given;
 *
 * else 0. The parabola is common practice. So is 70 lambda/D; implementations of Rec. ITU-R F.699-8 have it as well.
 * @param angleDeg phi, >= 0
 */
export function discriminationDb(antenna: Antenna, angleDeg: number, frequencyHz: number): number {
  if (antenna.pattern.length > 0) return ofPattern(antenna, angleDeg);
  const beamwidthDeg = antenna.beamwidthDeg ?? ofDiameter(antenna.diameterM, frequencyHz);
  if (beamwidthDeg === undefined || !(beamwidthDeg > 0)) return 0;
  return Math.min(MAIN_LOBE_DB, mainLobeDb(angleDeg, beamwidthDeg));
}

/** Of the main lobe, `12 (phi/B)^2` dB, for a full 3 dB beamwidth B. @param beamwidthDeg > 0 */
export function mainLobeDb(angleDeg: number, beamwidthDeg: number): number {
  return 12 * (angleDeg / beamwidthDeg) ** 2;
}

/** Up to which angle the main lobe of a pattern counts by the beamwidth: that of its first point beyond boresight; 0: nowhere. */
export function mainLobeToDeg({
  pattern,
  beamwidthDeg = 0,
}: Pick<Antenna, "pattern" | "beamwidthDeg">): number {
  // A first point that lets less through on the axis is no main lobe.
  if (!(beamwidthDeg > 0) || (pattern[0]?.angleDeg === 0 && pattern[0].copolarDb !== 0)) return 0;
  return pattern.find(({ angleDeg }) => angleDeg > 0)?.angleDeg ?? 0;
}

function ofDiameter(diameterM: number | undefined, frequencyHz: number): number | undefined {
  if (diameterM === undefined || !(diameterM > 0)) return undefined;
  return (70 * SPEED_OF_LIGHT_M_PER_S) / frequencyHz / diameterM;
}

function ofPattern(antenna: Antenna, angleDeg: number): number {
  const toDeg = mainLobeToDeg(antenna);
  let before = { angleDeg: 0, copolarDb: 0 };
  for (const point of antenna.pattern) {
    if (angleDeg <= point.angleDeg) {
      if (toDeg > 0 && point.angleDeg === toDeg)
        return Math.min(point.copolarDb, mainLobeDb(angleDeg, antenna.beamwidthDeg!));
      const span = point.angleDeg - before.angleDeg;
      const share = span > 0 ? (angleDeg - before.angleDeg) / span : 1;
      return before.copolarDb + share * (point.copolarDb - before.copolarDb);
    }
    before = point;
  }
  return before.copolarDb;
}
