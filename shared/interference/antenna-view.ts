/** An antenna as interference sees it: how much weaker it is in a direction, and at least from an angle on. */
import type { Antenna } from "../design/catalogue.js";
import { mainLobeDb, mainLobeToDeg } from "../radio/discrimination.js";
import { f699 } from "../spectrum/f699.js";
import { f1245 } from "../spectrum/f1245.js";
import { crossDiscriminationDb, type Discrimination } from "../spectrum/polarization-coupling.js";
import { type ReferencePattern, referenceGainDbi } from "../spectrum/reference-pattern.js";

/** Where an antenna's discrimination comes from; `none`: nothing is known of it, and it counts as equal all around. */
type PatternSource = "pattern" | "F.699" | "F.1245" | "none";

export interface AntennaView {
  readonly gainDbi: number;
  readonly source: PatternSource;
  /** Of its own pattern: up to here the stated beamwidth counts, degrees; undefined: nowhere. */
  readonly mainLobeToDeg?: number;
  /** Off its axis, dB below its greatest gain. @param angleDeg 0 to 180 */
  at(angleDeg: number): Discrimination;
  /** The same object each time. */
  least(): LeastDiscrimination;
}

/** Least co-polar discrimination at an angle and beyond, dB: what a direction that is known in azimuth alone can count on. */
export interface LeastDiscrimination {
  /** @param sine of the angle, 0 to 1; whatever lies behind counts as at 90 degrees */
  at(sine: number): number;
}

export interface ViewedAntenna
  extends Pick<Antenna, "pattern" | "diameterM" | "beamwidthDeg" | "crossPolarDiscriminationDb"> {
  readonly gainDbi: number;
}

/** `F.699`: envelope, for each entry; `F.1245`: average, for the sum of many where the network says so. */
export type ReferenceChoice = "F.699" | "F.1245";

/**
 * The antenna's own pattern, co-polar and cross-polar, straight in dB between its points and held beyond the last; else
 * the reference pattern for its gain and diameter; else none. Before the first point beyond boresight the stated 3 dB beamwidth B counts,
 *
 *     12 (phi/B)^2, no more than at the first point
 *
 * which is the main beam of Rec. ITU-R F.699-8, 0.0025 (D phi/lambda)^2, with its B = 70 lambda/D (12.25 there; 12 puts the
 * 3 dB at B/2). Without a beamwidth it is straight there as well.
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
  if (antenna.pattern.length > 0) {
    const toDeg = mainLobeToDeg(antenna);
    return viewOf(
      {
        gainDbi,
        source: "pattern",
        ...(toDeg > 0 && { mainLobeToDeg: toDeg }),
        at: ofPoints(antenna),
      },
      antenna.pattern.map(({ angleDeg }) => angleDeg),
    );
  }
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
    const lobeToDeg = mainLobeToDeg(antenna);
    let before: (typeof pattern)[number] = { angleDeg: 0, copolarDb: 0, crossPolarDb: xpdDb };
    let found: { coDb: number; cross: number | undefined } | undefined;
    for (const point of pattern) {
      if (angleDeg <= point.angleDeg) {
        const span = point.angleDeg - before.angleDeg;
        const share = span > 0 ? (angleDeg - before.angleDeg) / span : 1;
        const between = (a: number, b: number) => a + share * (b - a);
        const [a, b] = [before.crossPolarDb, point.crossPolarDb];
        found = {
          coDb:
            lobeToDeg > 0 && point.angleDeg === lobeToDeg
              ? Math.min(point.copolarDb, mainLobeDb(angleDeg, beamwidthDeg!))
              : between(before.copolarDb, point.copolarDb),
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

/** Fine where patterns fall, coarse beside: sines at which the least discrimination beyond is remembered. */
const FINE_TO = 0.1;
const FINE = 0.0008;
const COARSE = 0.005;
const FINE_COUNT = Math.round(FINE_TO / FINE);
const ALL_COUNT = FINE_COUNT + Math.round((1 - FINE_TO) / COARSE) + 1;

function viewOf(view: Omit<AntennaView, "least">, corners: readonly number[] = []): AntennaView {
  let least: LeastTable | undefined;
  return { ...view, least: () => (least ??= new LeastTable(view.at, corners)) };
}

class LeastTable implements LeastDiscrimination {
  private readonly table = new Float64Array(ALL_COUNT);

  /** @param corners angles between which the co-polar discrimination is straight or rises, ascending */
  constructor(at: At, corners: readonly number[]) {
    let least = Number.POSITIVE_INFINITY;
    let corner = corners.length - 1;
    const look = (angleDeg: number) => {
      for (; corner >= 0 && corners[corner]! >= angleDeg; corner--)
        least = Math.min(least, at(corners[corner]!).coDb);
      least = Math.min(least, at(angleDeg).coDb);
    };
    for (let angleDeg = 180; angleDeg > 90; angleDeg--) look(angleDeg);
    for (let i = ALL_COUNT - 1; i >= 0; i--) {
      const sine = i < FINE_COUNT ? i * FINE : Math.min(1, FINE_TO + (i - FINE_COUNT) * COARSE);
      look((Math.asin(sine) * 180) / Math.PI);
      this.table[i] = Math.max(0, least);
    }
  }

  at(sine: number): number {
    const place = sine < FINE_TO ? sine / FINE : FINE_COUNT + (sine - FINE_TO) / COARSE;
    return this.table[Math.floor(place)]!;
  }
}
