/** An antenna as interference sees it: how much weaker it is in a direction, and at least from an angle on. */
import type { Antenna } from "../design/catalogue.js";
import { f699 } from "../spectrum/f699.js";
import { f1245 } from "../spectrum/f1245.js";
import { crossDiscriminationDb, type Discrimination } from "../spectrum/polarization-coupling.js";
import { type ReferencePattern, referenceGainDbi } from "../spectrum/reference-pattern.js";

/** Where an antenna's discrimination comes from; `none`: nothing is known of it, and it counts as equal all around. */
type PatternSource = "pattern" | "F.699" | "F.1245" | "none";

export interface AntennaView {
  readonly gainDbi: number;
  readonly source: PatternSource;
  /** Off its axis, dB below its greatest gain. @param angleDeg 0 to 180 */
  at(angleDeg: number): Discrimination;
  /** Least co-polar discrimination at this angle and beyond: what a direction that is known in azimuth alone can count on. */
  leastBeyond(angleDeg: number): number;
}

export interface ViewedAntenna
  extends Pick<Antenna, "pattern" | "diameterM" | "beamwidthDeg" | "crossPolarDiscriminationDb"> {
  readonly gainDbi: number;
}

/** `F.699`: envelope, for each entry; `F.1245`: average, for the sum of many where the network says so. */
export type ReferenceChoice = "F.699" | "F.1245";

/**
 * The antenna's own pattern, co-polar and cross-polar, straight in dB between its points and held beyond the last; else
 * the reference pattern for its gain and diameter; else none.
 *
 * Where the pattern has no cross-polar column the antenna's stated discrimination counts inside the 3 dB beam, and none
 * outside it (common practice, from memory).
 */
export function antennaView(
  antenna: ViewedAntenna,
  frequencyHz: number,
  reference: ReferenceChoice,
): AntennaView {
  const { gainDbi } = antenna;
  if (antenna.pattern.length > 0)
    return viewOf(
      { gainDbi, source: "pattern", at: ofPoints(antenna) },
      antenna.pattern.map(({ angleDeg }) => angleDeg),
    );
  const dish = {
    frequencyHz,
    gainDbi,
    ...(antenna.diameterM !== undefined && { diameterM: antenna.diameterM }),
  };
  const found = reference === "F.699" ? f699(dish) : f1245(dish);
  return found.ok
    ? viewOf({ gainDbi, source: reference, at: ofReference(antenna, found.pattern) })
    : viewOf({ gainDbi, source: "none", at: () => ({ coDb: 0, crossDb: 0 }) });
}

type At = AntennaView["at"];

function ofPoints(antenna: ViewedAntenna): At {
  const { pattern, beamwidthDeg, crossPolarDiscriminationDb: xpdDb } = antenna;
  return (angleDeg) => {
    let before: (typeof pattern)[number] = { angleDeg: 0, copolarDb: 0, crossPolarDb: xpdDb };
    let found: { coDb: number; cross: number | undefined } | undefined;
    for (const point of pattern) {
      if (angleDeg <= point.angleDeg) {
        const span = point.angleDeg - before.angleDeg;
        const share = span > 0 ? (angleDeg - before.angleDeg) / span : 1;
        const between = (a: number, b: number) => a + share * (b - a);
        const [a, b] = [before.crossPolarDb, point.crossPolarDb];
        found = {
          coDb: between(before.copolarDb, point.copolarDb),
          cross: a === undefined || b === undefined ? (b ?? a) : between(a, b),
        };
        break;
      }
      before = point;
    }
    const { coDb, cross } = found ?? { coDb: before.copolarDb, cross: before.crossPolarDb };
    const crossDb = cross ?? crossDiscriminationDb({ coDb, angleDeg, xpdDb, beamwidthDeg });
    return { coDb, crossDb };
  };
}

function ofReference(antenna: ViewedAntenna, pattern: ReferencePattern): At {
  const { gainDbi, crossPolarDiscriminationDb: xpdDb } = antenna;
  // The main beam of the pattern is 3 dB down at 34.64/x on each side.
  const beamwidthDeg = antenna.beamwidthDeg ?? 69.28 / pattern.diameterInWavelengths;
  return (angleDeg) => {
    const coDb = Math.max(0, gainDbi - referenceGainDbi(pattern, angleDeg));
    return { coDb, crossDb: crossDiscriminationDb({ coDb, angleDeg, xpdDb, beamwidthDeg }) };
  };
}

/** Fine where patterns fall, coarse behind: angles at which the least discrimination beyond is remembered. */
const FINE_TO_DEG = 6;
const FINE_DEG = 0.05;
const COARSE_DEG = 1;
const FINE_COUNT = Math.round(FINE_TO_DEG / FINE_DEG);
const ALL_COUNT = FINE_COUNT + Math.round((180 - FINE_TO_DEG) / COARSE_DEG) + 1;

function viewOf(view: Omit<AntennaView, "leastBeyond">, corners: readonly number[] = []): AntennaView {
  let least: Float64Array | undefined;
  return {
    ...view,
    leastBeyond(angleDeg) {
      least ??= leastTable(view.at, corners);
      const place =
        angleDeg < FINE_TO_DEG
          ? Math.floor(angleDeg / FINE_DEG)
          : FINE_COUNT + Math.floor((angleDeg - FINE_TO_DEG) / COARSE_DEG);
      return least[Math.max(0, Math.min(ALL_COUNT - 1, place))]!;
    },
  };
}

/** @param corners angles between which the co-polar discrimination is straight or rises, ascending */
function leastTable(at: At, corners: readonly number[]): Float64Array {
  const table = new Float64Array(ALL_COUNT);
  let least = Number.POSITIVE_INFINITY;
  let corner = corners.length - 1;
  for (let i = ALL_COUNT - 1; i >= 0; i--) {
    const angleDeg = i < FINE_COUNT ? i * FINE_DEG : FINE_TO_DEG + (i - FINE_COUNT) * COARSE_DEG;
    for (; corner >= 0 && corners[corner]! >= angleDeg; corner--)
      least = Math.min(least, at(corners[corner]!).coDb);
    least = Math.min(least, at(angleDeg).coDb);
    table[i] = Math.max(0, least);
  }
  return table;
}
