import type { Antenna } from "../design/catalogue.js";
import { SPEED_OF_LIGHT_M_PER_S } from "../propagation/constants.js";

/** Beyond this the parabola of the main lobe says too much; it is then held. */
const MAIN_LOBE_DB = 20;

/**
 * How much weaker an antenna is at an angle phi off boresight, dB: from its pattern, straight between boresight and the
 * points; else the parabola of the main lobe for a 3 dB beamwidth B,
 *
 *     12 (phi/B)^2 up to 20 dB,   B = 70 lambda/D degrees where none is given;
 *
 * else 0. The parabola is common practice. So is 70 lambda/D; implementations of Rec. ITU-R F.699-8 have it as well.
 * @param angleDeg phi, >= 0
 */
export function discriminationDb(antenna: Antenna, angleDeg: number, frequencyHz: number): number {
  if (antenna.pattern.length > 0) return ofPattern(antenna.pattern, angleDeg);
  const beamwidthDeg = antenna.beamwidthDeg ?? ofDiameter(antenna.diameterM, frequencyHz);
  if (beamwidthDeg === undefined || !(beamwidthDeg > 0)) return 0;
  return Math.min(MAIN_LOBE_DB, 12 * (angleDeg / beamwidthDeg) ** 2);
}

function ofDiameter(diameterM: number | undefined, frequencyHz: number): number | undefined {
  if (diameterM === undefined || !(diameterM > 0)) return undefined;
  return (70 * SPEED_OF_LIGHT_M_PER_S) / frequencyHz / diameterM;
}

function ofPattern(pattern: Antenna["pattern"], angleDeg: number): number {
  let before = { angleDeg: 0, copolarDb: 0 };
  for (const point of pattern) {
    if (angleDeg <= point.angleDeg) {
      const span = point.angleDeg - before.angleDeg;
      const share = span > 0 ? (angleDeg - before.angleDeg) / span : 1;
      return before.copolarDb + share * (point.copolarDb - before.copolarDb);
    }
    before = point;
  }
  return before.copolarDb;
}
