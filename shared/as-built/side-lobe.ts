/** How much less arrives while an antenna looks at the other end with its first side lobe. */
import type { Antenna } from "../design/catalogue.js";
import { SPEED_OF_LIGHT_M_PER_S } from "../propagation/constants.js";
import { antennaGain } from "../radio/antenna-gain.js";
import { discriminationDb } from "../radio/discrimination.js";
import { f699 } from "../spectrum/f699.js";

/** Less than on the main lobe by so much, dB. */
export interface LessByRange {
  readonly fromDb: number;
  readonly toDb: number;
}

export interface SideLobe extends LessByRange {
  /** A lobe that the pattern has; its envelope, which no lobe exceeds; or the reference pattern, which is an envelope too. */
  readonly by: "lobe of the pattern" | "envelope" | "Rec. ITU-R F.699";
  /** Off the axis; undefined: the reference pattern has a shelf there and no angle. */
  readonly angleDeg?: number;
}

/**
 * Peak of the first side lobe in beamwidths. Of a round aperture of one field strength it stands at 1.6 (93.7 over 58.4
 * degrees), of one that falls to nothing at the rim at 1.8 (133 over 72.8).
 */
const LOBE_BEAMWIDTHS = 1.7;
/** By so much real lobes lie below what stands for them; common practice, no source. */
const BELOW: Readonly<Record<SideLobe["by"], number>> = {
  "lobe of the pattern": 0,
  envelope: 6,
  "Rec. ITU-R F.699": 12,
};

/**
 * First side lobe of one antenna: the first lobe of its pattern where that has any, else what its envelope lets through
 * 1.7 beamwidths off the axis, else the first side lobe of Rec. ITU-R F.699-8,
 *
 *     G - G1 = G - 2 - 15 log(D/lambda).
 *
 * @returns undefined where neither pattern nor gain and diameter are known
 * @see common practice; F.699: see `spectrum/f699.ts`
 */
export function firstSideLobe(antenna: Antenna, frequencyHz: number): SideLobe | undefined {
  return lobeOfPattern(antenna) ?? ofEnvelope(antenna, frequencyHz) ?? ofReference(antenna, frequencyHz);
}

/** A point that lets more through than the one before it, and not less than the one behind it. */
function lobeOfPattern({ pattern }: Antenna): SideLobe | undefined {
  const at = pattern.findIndex(
    ({ copolarDb }, i) =>
      i > 0 && copolarDb < pattern[i - 1]!.copolarDb && copolarDb <= (pattern[i + 1]?.copolarDb ?? 0),
  );
  const peak = pattern[at];
  return peak && lobe("lobe of the pattern", peak.copolarDb, peak.angleDeg);
}

function ofEnvelope(antenna: Antenna, frequencyHz: number): SideLobe | undefined {
  if (antenna.pattern.length === 0) return undefined;
  const { diameterM } = antenna;
  const ofDiameterDeg =
    diameterM !== undefined && diameterM > 0
      ? (70 * SPEED_OF_LIGHT_M_PER_S) / frequencyHz / diameterM
      : undefined;
  const beamwidthDeg = antenna.beamwidthDeg ?? ofDiameterDeg;
  if (beamwidthDeg === undefined || !(beamwidthDeg > 0)) return undefined;
  const angleDeg = Math.min(LOBE_BEAMWIDTHS * beamwidthDeg, 180);
  const lessDb = discriminationDb(antenna, angleDeg, frequencyHz);
  return lessDb > 0 ? lobe("envelope", lessDb, angleDeg) : undefined;
}

function ofReference(antenna: Antenna, frequencyHz: number): SideLobe | undefined {
  const gainDbi = antennaGain(antenna, frequencyHz)?.gainDbi;
  const { diameterM } = antenna;
  if (gainDbi === undefined || !(gainDbi > 0)) return undefined;
  const found = f699({ frequencyHz, gainDbi, ...(diameterM !== undefined && { diameterM }) });
  if (!found.ok) return undefined;
  return lobe("Rec. ITU-R F.699", found.pattern.gainDbi - found.pattern.firstLobeDbi);
}

function lobe(by: SideLobe["by"], lessDb: number, angleDeg?: number): SideLobe {
  return { by, fromDb: lessDb, toDb: lessDb + BELOW[by], angleDeg };
}
