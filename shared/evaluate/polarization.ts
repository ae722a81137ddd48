import type { Polarization } from "../design/design.js";

/** Angle of linear polarization from the horizontal, degrees. */
export function tiltDeg(polarization: Polarization): number {
  return polarization === "horizontal" ? 0 : polarization === "vertical" ? 90 : 45;
}
