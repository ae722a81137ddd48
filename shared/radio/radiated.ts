/** What a pattern would radiate in all directions together that it speaks of: no antenna sends out more than goes in. */
import type { Antenna } from "../design/catalogue.js";
import { discriminationDb } from "./discrimination.js";

export interface Radiated {
  /** Above what goes in, dB. */
  readonly overDb: number;
  /** Whether most of it goes out behind, at 90 degrees and beyond. */
  readonly behind: boolean;
}

/** Fine over the main lobe. */
const FINE_TO_DEG = 10;
const FINE_DEG = 0.02;
const COARSE_DEG = 0.25;

/**
 * The mean over the sphere of a pattern that is alike all around its axis, against an isotropic antenna:
 *
 *     P = 1/2 integral from 0 to its last point of 10^((G - A(phi))/10) sin(phi) d(phi)
 *
 * An antenna without loss has P = 1. Envelopes lie above what is radiated, so that somewhat more is usual.
 * @returns undefined where it has no gain, no pattern, or one of the axis alone
 */
export function radiated(antenna: Antenna): Radiated | undefined {
  const gainDbi = Math.max(...antenna.gain.map((one) => one.gainDbi));
  if (antenna.pattern.length === 0 || !Number.isFinite(gainDbi)) return undefined;
  let [front, behind] = [0, 0];
  const lastDeg = Math.min(180, antenna.pattern.at(-1)!.angleDeg);
  for (let deg = 0; deg < lastDeg; ) {
    const step = Math.min(lastDeg - deg, deg < FINE_TO_DEG ? FINE_DEG : COARSE_DEG);
    const middle = deg + step / 2;
    // The frequency counts where there is no pattern alone.
    const gain = 10 ** ((gainDbi - discriminationDb(antenna, middle, 1e9)) / 10);
    const part = (gain * Math.sin((middle * Math.PI) / 180) * ((step * Math.PI) / 180)) / 2;
    if (middle < 90) front += part;
    else behind += part;
    deg += step;
  }
  if (!(front + behind > 0)) return undefined;
  return { overDb: 10 * Math.log10(front + behind), behind: behind > front };
}
